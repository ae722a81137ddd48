/** Pages of arrangements: examples that are sound, costs that are those of the engine, rules that say what they are about. */
import { describe, expect, test } from "vitest";
import {
  arrangementPages,
  arrangementsIndexPage,
  exampleDesign,
  lessonOf,
} from "../../language/docs/arrangement-pages.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import type { Card, PortType } from "../../shared/design/equipment.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import { arrangementExample, TEACHING_STOCK } from "../../shared/report/teach/arrangement-example.js";
import { AMBIGUOUS } from "../../shared/report/teach/arrangement-words.js";
import { branchingCosts } from "../../shared/report/teach/branching-costs.js";
import { arrangementsMeant } from "../../shared/report/teach/meant-arrangements.js";
import { PART_RULES, rulesOfCard } from "../../shared/report/teach/part-rules.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { designOf } from "../equipment/designs.js";
import { exampleGround, judgeExample, TODAY } from "../rules/example-design.js";

describe.each(ARRANGEMENTS.map((facts) => [facts.name, facts] as const))("%s", (name, facts) => {
  const design = exampleDesign(facts);

  test("its example has nothing but remarks", () => {
    const model = new DesignModel("/example");
    model.setFile(readSource("/example/example.hop", `${TEACHING_STOCK}\n${arrangementExample(facts)}`));
    expect(model.problemsOf("/example/example.hop")).toEqual([]);
    const results = new Map(
      [...design.hops].map(([hop, one]) => [hop, evaluateHop(one, exampleGround(one))]),
    );
    const findings = [
      ...[...design.hops].flatMap(([hop, one]) => judgeHop(one, results.get(hop)!, TODAY)),
      ...judgeNetwork(design, results, TODAY, { heights: new Map() }),
    ];
    expect(findings.filter(({ severity }) => severity !== "info")).toEqual([]);
    expect([...design.hops.values()].map(({ arrangement }) => arrangement.name)).toContain(name);
  });

  test("what it costs is what the engine counts for its example", () => {
    const hop = [...design.hops.values()].find(({ arrangement }) => arrangement.name === name)!;
    const { paths, levels } = evaluateHop(hop, exampleGround(hop)).directions[0]!;
    const told = branchingCosts(facts, "equal")
      .flatMap(({ state, lossDb, paths: count }) =>
        Array.from({ length: count }, () => [state, lossDb] as const),
      )
      .sort(byStateAndLoss);
    const single = levels.reduce(
      (sum, { passes, changeDb }) => sum + (/branching/.test(JSON.stringify(passes)) ? -changeDb : 0),
      0,
    );
    const counted = (paths ?? [{ state: "normal", branchingLossDb: single }])
      .map(({ state, branchingLossDb }) => [state, branchingLossDb] as const)
      .sort(byStateAndLoss);
    expect(told.map(([state]) => state)).toEqual(counted.map(([state]) => state));
    for (const [index, [, lossDb]] of told.entries()) expect(lossDb).toBeCloseTo(counted[index]![1], 9);
  });

  test("its page says counts, protection, costs, rules and cautions", () => {
    const { sections } = lessonOf(facts);
    const titles = sections.map(({ title }) => title);
    for (const title of [
      "What each end needs",
      "How it is joined",
      "What it protects",
      "What it costs in dB",
      "How it is written",
      "Rules that judge it",
      "Cautions",
    ])
      expect(titles).toContain(title);
    const words = JSON.stringify(sections);
    expect(words).toContain("from memory, unconfirmed");
    for (const one of [...facts.protects, ...facts.doesNotProtect]) expect(words).toContain(one);
    expect(titles.includes("Words that mislead")).toBe(AMBIGUOUS.some((one) => one.of(facts)));
  });
});

type StateLoss = readonly [string, number];
function byStateAndLoss([a, x]: StateLoss, [b, y]: StateLoss): number {
  return a.localeCompare(b) || x - y;
}

test("losses worked by hand: ARRANGEMENTS section 3", () => {
  const costs = (name: string, split: "equal" | "unequal") =>
    branchingCosts(ARRANGEMENTS.find((one) => one.name === name)!, split).map(
      ({ state, formula, lossDb }) => [state, formula, Number(lossDb.toFixed(6))],
    );
  expect(costs("1+1 hot-standby", "unequal")).toEqual([
    ["normal", "Cm+Cm", 3.2],
    ["receiver on standby", "Cm+Cs", 8],
    ["sender on standby", "Cs+Cm", 8],
    ["both on standby", "Cs+Cs", 12.8],
  ]);
  expect(costs("2+0 single-polarization", "equal")).toEqual([["normal", "Ce+Ce", 7]]);
  // Crossed between the ends both carriers lose main and standby arm.
  expect(costs("2+0 single-polarization", "unequal")).toEqual([
    ["normal", "Cm+Cs", 8],
    ["normal", "Cs+Cm", 8],
  ]);
  expect(costs("2+0 xpic", "equal")).toEqual([["normal", "O+O", 0.8]]);
  expect(costs("4+0 xpic", "equal")).toEqual([["normal", "O+Ce+O+Ce", 7.8]]);
  expect(costs("1+1 xpic four-units", "unequal").map(([, , lossDb]) => lossDb)).toEqual([4, 8.8, 8.8, 13.6]);
  expect(costs("1+0", "equal")).toEqual([["normal", "", 0]]);
});

test("every page has a file, the index leads to each, and their drawings and rules are there", () => {
  const pages = arrangementPages();
  const index = arrangementsIndexPage();
  for (const { name } of ARRANGEMENTS) {
    const file = `${name.replaceAll(" ", "-")}.md`;
    expect(index).toContain(`(arrangements/${file})`);
    const page = pages.get(file)!;
    for (const [, drawing] of page.matchAll(/!\[[^\]]*\]\(([^)]+)\)/g))
      expect(pages.get(drawing!)).toMatch(/^<svg[^>]*><title>/);
    for (const [, rule] of page.matchAll(/\(\.\.\/rules\/([a-z-]+)\.md\)/g))
      expect(RULES.has(rule!)).toBe(true);
  }
  expect(pages.size).toBeGreaterThan(ARRANGEMENTS.length);
});

test("words find arrangements whatever their order, and ambiguous ones find all that they may mean", () => {
  expect(arrangementsMeant("xpic 2+0").map(({ name }) => name)).toContain("2+0 xpic");
  expect(arrangementsMeant("1+1 xpic").map(({ name }) => name)).toEqual([
    "1+1 xpic two-units",
    "1+1 xpic four-units",
  ]);
  expect(arrangementsMeant("3+7")).toEqual([]);
});

// Common practice, no source.
test.each([
  ["hot standby", "1+1 hot-standby"],
  ["1+1 HSB", "1+1 hot-standby"],
  ["hsb", "all-outdoor 1+1 hot-standby"],
  ["1+1 sd", "1+1 space-diversity"],
  ["space diversity", "1+1 space-diversity"],
  ["FD", "1+1 frequency-diversity"],
  ["XPIC", "2+0 xpic"],
  ["2+0 XPIC", "2+0 xpic"],
  ["full outdoor 2+0 xpic", "all-outdoor 2+0 xpic"],
  ["dual band", "dual-band low"],
])("%s may be %s", (words, name) => {
  const found = arrangementsMeant(words);
  expect(found.map((one) => one.name)).toContain(name);
  expect(found.length).toBeLessThan(ARRANGEMENTS.length / 2);
});

test("everyday words mean no more than they say", () => {
  for (const { spaceDiversity } of arrangementsMeant("space diversity")) expect(spaceDiversity).toBe(true);
  for (const { hotStandby } of arrangementsMeant("hsb")) expect(hotStandby).toBe(true);
  expect(arrangementsMeant("sandwich")).toEqual([]);
  expect(arrangementsMeant("hsb for breakfast")).toEqual([]);
});

test("a card is taught with the rules of its own kind", () => {
  const card = (kind: Card["kind"], type?: PortType) =>
    rulesOfCard({ name: "X", kind, ports: type ? [{ count: 1, type, powered: false }] : [] });
  expect(card("power")).not.toContain("xpic-pair");
  expect(card("power")).toContain("feed-slot");
  expect(card("if", "IF")).toContain("xpic-pair");
  expect(card("ethernet", "GE")).not.toContain("if-ports-short");
  expect(card("auxiliary", "alarm-in")).toContain("alarm-input");
  // Of one that says nothing, none is left out.
  expect(card(undefined)).toEqual(PART_RULES.card);
});

/** Whether the radio of an example is not built as its arrangement says: told by a rule of its own, which others follow. */
function isBuiltOtherwise(text: string): boolean {
  return [...designOf(text).hops.values()].some(({ radio, arrangement }) => {
    const built = radio?.unit?.construction;
    return (
      built !== undefined &&
      built !== ARRANGEMENTS.find(({ name }) => name === arrangement.name)?.construction
    );
  });
}

/** Rules that also find something on arrangements that their pages are not about. */
const BEYOND: Readonly<Record<string, string>> = {
  "dual-band-pair": "a pair that is named on a hop of no pair",
  "cable-too-long": "a cable that is stated where none belongs, as cable-wrong-kind tells",
};

describe("rules say which arrangements they are about", () => {
  const about = [...RULES.values()].filter(({ arrangements }) => arrangements !== undefined);
  const arrangementIn = (text: string) => /^( *arrangement )(.+)$/m.exec(text)?.[2];

  test.each(about.map((rule) => [rule.id, rule] as const))("%s", (id, rule) => {
    const own = arrangementIn(rule.bad) ?? "1+0";
    const told = (name: string) => {
      const text = rule.bad.replaceAll(/^( *arrangement )(.+)$/gm, `$1${name}`);
      const { problems, findings } = judgeExample(text);
      if (problems.length === 0 && isBuiltOtherwise(text)) return false;
      return problems.length === 0 && findings.some((one) => one.rule === id);
    };
    const facts = ARRANGEMENTS.find(({ name }) => name === own)!;
    expect(rule.arrangements!(facts), own).toBe(true);
    if (id in BEYOND) return;
    // Whatever arrangement stands in its example: found on none that it is not about.
    for (const one of ARRANGEMENTS)
      if (!rule.arrangements!(one)) expect(told(one.name), one.name).toBe(false);
  });

  test("rules of IF ports are about those alone whose units hang on one", () => {
    const ofPorts = ["if-ports-short", "xpic-pair", "pair-on-one-card", "pair-in-two-chassis"];
    for (const id of ofPorts)
      for (const facts of ARRANGEMENTS)
        if (facts.ifCables === 0)
          expect(RULES.get(id)!.arrangements!(facts), `${id} ${facts.name}`).toBe(false);
  });

  test("every arrangement is judged by some", () => {
    for (const facts of ARRANGEMENTS)
      expect(about.filter((rule) => rule.arrangements!(facts)).length).toBeGreaterThan(2);
  });
});

test("the rules named for a kind of part are there, and their examples have such a part", () => {
  for (const [kind, ids] of Object.entries(PART_RULES)) {
    for (const id of ids) {
      const rule = RULES.get(id);
      expect(rule, id).toBeDefined();
      expect(`${EXAMPLE_PREAMBLE}\n${rule!.bad}`, id).toMatch(new RegExp(`\\b${kind}\\b`));
    }
  }
});
