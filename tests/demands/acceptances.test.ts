/** What a demand accepts on purpose: findings that stand at it, and what is wrong with the acceptance itself. */
import { expect, test } from "vitest";
import { exampleDemand } from "../../shared/rules/demands/example-demand.js";
import { judgeExample } from "../rules/example-design.js";

const MISSED = ["committed 100 Mbit/s", "availability 99.99999 %"];

const judged = (lines: readonly string[], more = "") =>
  judgeExample(`${more}${exampleDemand([...MISSED, ...lines])}`).findings.filter(
    ({ rule }) => rule === "demand-availability" || /accept/.test(rule),
  );

test("is excused with its reason, until its last day", () => {
  expect(judged([])).toMatchObject([{ rule: "demand-availability", severity: "error" }]);
  expect(judged(['accept demand-availability until 2026-06-01 because "a fibre comes"'])).toMatchObject([
    {
      rule: "demand-availability",
      severity: "info",
      accepted: { reason: "a fibre comes", until: "2026-06-01" },
    },
  ]);
  expect(judged(['accept demand-availability until 2026-05-31 because "x"'])).toMatchObject([
    { rule: "demand-availability", severity: "error" },
    { rule: "acceptance-expired", at: "demand SCHOOL / accept" },
  ]);
});

test("unused, unknown, of a hop's rule: told at the line; not where the design requires the rule", () => {
  const told = (line: string, more = "") =>
    judged([line], more)
      .filter(({ rule }) => rule !== "demand-availability")
      .map(({ rule, at, message }) => `${rule} ${at}: ${message}`);
  expect(told('accept demand-latency because "x"')).toEqual([
    "acceptance-unused demand SCHOOL / accept: accepts demand-latency, which finds nothing in this demand",
  ]);
  expect(told('accept demand-availabilty because "x"')[0]).toMatch(/did you mean demand-availability\?$/);
  expect(told('accept clearance because "x"')).toEqual([
    "acceptance-unknown demand SCHOOL / accept: clearance judges a hop, so it is accepted on the hop, not in a demand",
  ]);
  expect(told('accept demand-availability because "x"', "required demand-availability\n")).toEqual([
    expect.stringMatching(
      /^required-accepted demand SCHOOL \/ accept: the design requires demand-availability of every demand/,
    ),
  ]);
});
