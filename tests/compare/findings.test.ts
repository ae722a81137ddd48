import { expect, test } from "vitest";
import { findingChanges, isWorse } from "../../shared/compare/findings.js";
import type { Finding } from "../../shared/design/finding.js";

const open = (hop: string, notJudged: string[], more: Partial<Finding> = {}): Finding => ({
  rule: "not-judged",
  severity: "error",
  at: `hop ${hop}`,
  about: `hop ${hop}`,
  message: "not judged",
  notJudged,
  ...more,
});
const changes = (was: Finding, is: Finding, renamed: (at: string) => string = (at) => at) =>
  findingChanges([was], [is], { addressNow: renamed, aboutNow: renamed }).map((change) => [
    change.status,
    isWorse(change),
  ]);

test("a hop of which more is left unjudged is worse, of which less is not", () => {
  const [one, two] = [open("A-B", ["clearance"]), open("A-B", ["clearance", "availability"])];
  expect(changes(one, two)).toEqual([["graver", true]]);
  expect(changes(two, one)).toEqual([["milder", false]]);
  expect(changes(one, open("A-B", ["availability"]))).toEqual([["graver", true]]);
  const accepted = { severity: "info", accepted: { reason: "x" } } as const;
  expect(changes({ ...one, ...accepted }, { ...two, ...accepted }).map(([, worse]) => worse)).toEqual([
    false,
  ]);
});

test("it stays the same finding wherever it stands, and under another name of its hop", () => {
  const at = open("A-B", ["clearance"], { at: "hop A-B / B / antenna.at" });
  expect(changes(at, open("A-B", ["clearance"]))).toEqual([["still there", false]]);
  expect(changes(at, open("A-C", ["clearance"]), (of) => of.replace("A-B", "A-C"))).toEqual([
    ["still there", false],
  ]);
});

test("what is told only since something graver about the same is gone is milder, and nothing worse", () => {
  const is = open("A-B", [], { severity: "warning" });
  const options = { addressNow: (at: string) => at, aboutNow: (about: string) => about };
  const told = (isLeft: boolean, found = is) =>
    findingChanges([], [found], { ...options, isLeft: () => isLeft }).map((one) => [
      one.status,
      isWorse(one),
    ]);
  expect(told(true)).toEqual([["milder", false]]);
  expect(told(false)).toEqual([["new", true]]);
  expect(told(true, { ...is, severity: "info", accepted: {} })).toEqual([["newly accepted", false]]);
});
