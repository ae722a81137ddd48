import { describe, expect, test } from "vitest";
import { locate } from "../../language/model/locate.js";
import { equipped } from "../../shared/rules/equipment/example-equipment.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { fixture } from "../support/fixture.js";
import { judgeExample } from "./example-design.js";

const BARRED = exampleHop({
  keld: "antenna DISH60-18 at 12 m\n    transmits high",
  tarn: "antenna DISH60-18 at 12 m\n    transmits low",
});

function told(text: string): string[] {
  const { problems, findings } = judgeExample(text);
  expect(problems).toEqual([]);
  return findings.map(({ rule, severity, accepted }) => `${accepted ? "accepted" : severity} ${rule}`);
}

const ABOVE = exampleHop({ keld: "antenna DISH60-18 at 70 m\n    transmits high" });

test("a severity of the design's own holds for what a rule finds, the last word for each rule", () => {
  const as = (...severities: string[]) =>
    told(`${severities.map((one) => `severity antenna-above-structure ${one}\n`).join("")}${ABOVE}`);
  expect(as()).toEqual(["error antenna-above-structure"]);
  expect(as("warning")).toEqual(["warning antenna-above-structure"]);
  expect(as("warning", "info")).toEqual(["info antenna-above-structure"]);
  expect(told(`severity far-field warning\n${ABOVE}`)).toEqual(["error antenna-above-structure"]);
});

describe("what an objective asks", () => {
  const bare = (text: string) => text.replace("  objective trunk\n", "");
  const loss = "extra-loss 30 dB";
  const WEAK = exampleHop({
    keld: `antenna DISH60-18 at 40 m\n    transmits high\n    ${loss}`,
    tarn: `antenna DISH60-18 at 40 m\n    transmits low\n    ${loss}`,
  });

  test.each(["warning", "info"])(
    "stays an error where it is missed or open, and %s is told to be no use",
    (word) => {
      expect(told(`severity clearance ${word}\n${BARRED}`)).toEqual([
        "error clearance",
        "error policy-unknown",
      ]);
      const open = exampleHop({ tarn: "antenna DISH60-18\n    transmits low" });
      expect(told(`severity not-judged ${word}\n${open}`)).toEqual([
        "error not-judged",
        "error policy-unknown",
      ]);
      expect(told(`severity level-below-threshold ${word}\n${WEAK}`)).toEqual([
        "error level-below-threshold",
      ]);
    },
  );

  test("is no matter of a hop without one, and an error needs no telling", () => {
    expect(told(`severity level-below-threshold info\n${bare(WEAK)}`)).toContain(
      "info level-below-threshold",
    );
    expect(told(`severity clearance error\n${BARRED}`)).toEqual(["error clearance"]);
  });
});

test("a rule about several hops takes it too", () => {
  const two = `site MOSS {\n  at 47.45 -30.45\n}\n${exampleHop()}\n${exampleHop()
    .replaceAll("TARN", "MOSS")
    .replace("transmits high", "transmits x")
    .replace("transmits low", "transmits high")
    .replace("transmits x", "transmits low")}`;
  expect(told(two)).toContain("error site-high-and-low");
  expect(told(`severity site-high-and-low warning\n${two}`)).toContain("warning site-high-and-low");
});

test("what is required counts also where a hop accepts it, and that is told beside it", () => {
  const accepting = BARRED.replace(/\}$/, '  accept clearance because "agreed"\n}');
  expect(told(accepting)).toContain("accepted clearance");
  const required = told(`required clearance\n${accepting}`);
  expect(required).toContain("error clearance");
  expect(required).toContain("error required-accepted");
  expect(required).not.toContain("accepted clearance");
});

test("that a required rule is not judged cannot be accepted either, and no objective is asked for", () => {
  const open = exampleHop({
    tarn: "antenna DISH60-18\n    transmits low",
    more: 'accept not-judged because "the mast is not chosen"',
  });
  expect(told(open)).toEqual(["accepted not-judged"]);
  // Another criterion is no matter of this one.
  expect(told(`required capacity\n${open}`)).toEqual(["accepted not-judged"]);
  const { findings } = judgeExample(`required fade-margin\n${open}`);
  expect(findings.map(({ rule, severity, message }) => [rule, severity, message])).toEqual([
    [
      "not-judged",
      "error",
      "clearance, availability and fade margin are not judged: antenna height at TARN not stated",
    ],
    [
      "required-accepted",
      "error",
      "the design requires fade-margin of every hop, so that it is not judged cannot be accepted",
    ],
  ]);
  expect(told(`required fade-margin\n${exampleHop().replace("  objective trunk\n", "")}`)).toEqual([
    "info objective-missing",
  ]);
});

test("a statement of the network is found again by its place among all of them", () => {
  const { model } = fixture('network "N" {\n  severity clearance warning\n  required clearence\n}\n');
  const place = locate("policy#1", model)!;
  expect(model.file(place.file)!.text.slice(place.start, place.end)).toBe("required");
  expect(model.design().policy!.statements).toEqual([
    { rule: "clearance", severity: "warning", required: false },
    { rule: "clearence", severity: undefined, required: true },
  ]);
});

test("an agreement that changes reaches the hops", () => {
  const { model } = fixture(`required clearance\n${BARRED}`);
  expect([...model.design().hops.values()].every(({ policy }) => policy !== undefined)).toBe(true);
});

describe("a finding about a site alone is accepted at the site", () => {
  const FULL =
    "rack 1 U\nchassis HEDGE {\n  slot 12 HEATH\n  slot 6 EMBER\n  slot 13 BREEZE\n  slot 3 MIST\n}";
  // The hop of the example ends at MOSS in place of KELD, which is left without one.
  const at = (accept: string, more = "") =>
    judgeExample(`${more}${equipped(`${FULL}\n${accept}`)}`).findings.filter(
      ({ rule }) => !["site-unused", "ports-proposed", "chassis-unstated"].includes(rule),
    );

  test("with its reason, until its last day", () => {
    const [full, ...others] = at('accept rack-full until 2026-06-01 because "a second rack comes"');
    expect(others).toEqual([]);
    expect(full).toMatchObject({
      rule: "rack-full",
      severity: "info",
      accepted: { reason: "a second rack comes", until: "2026-06-01" },
    });
    expect(at('accept rack-full until 2026-05-31 because "x"')).toMatchObject([
      { rule: "rack-full", severity: "error" },
      { rule: "acceptance-expired", at: "site MOSS / accept" },
    ]);
  });

  test("unused, unknown, empty, of a hop's rule: told at the line", () => {
    const told = (accept: string) =>
      at(accept)
        .filter(({ rule }) => rule !== "rack-full")
        .map(({ rule, at: place, message }) => `${rule} ${place}: ${message}`);
    expect(told('accept plant-power because "x"')).toEqual([
      "acceptance-unused site MOSS / accept: accepts plant-power, which finds nothing at this site",
    ]);
    expect(told('accept rack-ful because "x"')[0]).toMatch(
      /^acceptance-unknown .* did you mean rack-full\?$/,
    );
    expect(told('accept rack-full because ""')[0]).toMatch(/^acceptance-reason /);
    expect(told('accept rack-full because "x"\naccept clearance because "x"')).toEqual([
      "acceptance-unknown site MOSS / accept#1: clearance judges a hop, so it is accepted on the hop, not at a site",
    ]);
  });

  test("not where the design requires the rule, and not at another site", () => {
    expect(at('accept rack-full because "x"', "required rack-full\n").map(({ rule }) => rule)).toEqual([
      "rack-full",
      "required-accepted",
    ]);
    const text = equipped(FULL).replace(
      "site MOSS",
      'site FEN {\n  accept rack-full because "x"\n}\n\nsite MOSS',
    );
    const told = judgeExample(text).findings.filter(
      ({ rule }) => !["site-unused", "ports-proposed", "chassis-unstated"].includes(rule),
    );
    expect(told).toMatchObject([
      { rule: "rack-full", severity: "error" },
      { rule: "acceptance-unused", at: "site FEN / accept" },
    ]);
  });
});
