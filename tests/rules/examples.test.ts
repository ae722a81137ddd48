import { describe, expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { judgeExample, TODAY } from "./example-design.js";

describe.each([...RULES.values()])("$id", (rule) => {
  test("its bad example is found, its good one is not", () => {
    const good = judgeExample(rule.good);
    const bad = judgeExample(rule.bad);
    expect(good.problems).toEqual([]);
    expect(bad.problems).toEqual([]);
    expect(
      good.findings
        .map(({ rule: id, message }) => `${id}: ${message}`)
        .filter((text) => text.startsWith(`${rule.id}:`)),
    ).toEqual([]);
    expect(bad.findings.map(({ rule: id }) => id)).toContain(rule.id);
  });

  test("documents itself in whole sentences", () => {
    expect(rule.id).toMatch(/^[a-z]+(-[a-z]+)*$/);
    for (const text of [rule.checks, rule.why, rule.fix]) expect(text).toMatch(/^[A-Z0-9].*\.$/s);
    expect(rule.title).toMatch(/^[A-Z].*[^.]$/);
    expect(rule.source).not.toBe("");
  });
});

test("before any hop is evaluated the network is judged, and nothing is told that rests on results", () => {
  for (const { id, bad, good } of RULES.values())
    for (const text of [bad, good]) {
      const model = new DesignModel("/example");
      model.setFile(readSource("/example/example.hop", `${EXAMPLE_PREAMBLE}\n${text}`));
      for (const { rule } of judgeNetwork(model.design(), new Map(), TODAY)) {
        const told = RULES.get(rule)!;
        expect(told.scope === "network" && told.ofResults, `${rule} in the example of ${id}`).not.toBe(true);
      }
    }
});

test("a sound hop has no findings but those it is meant to have", () => {
  expect(judgeExample(RULES.get("clearance")!.good).findings).toEqual([]);
});

test("messages stand alone: no rule, no address, one line", () => {
  for (const rule of RULES.values()) {
    for (const { message } of judgeExample(rule.bad).findings) {
      expect(message).not.toMatch(/[\n.]$|undefined|NaN/);
      expect(message.length).toBeLessThan(240);
    }
  }
});
