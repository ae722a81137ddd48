/** A site stands at one height: what a survey says of it is held against the terrain, on both sides of each limit. */
import { expect, test } from "vitest";
import type { Design, Hop } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { spotKey, spotsWanted } from "../../shared/rules/position-slips.js";
import { end, groundOf, KELD, levelGround, makeHop, TARN } from "../evaluate/builders.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const open = (site: typeof KELD) => ({ ...site, groundM: undefined });
const ends: Hop["ends"] = [end(open(KELD), "high"), end(open(TARN), "low")];
const HOP = makeHop({ ends, surveyFile: "/s.csv", surveySource: "field" });

function designOf(...hops: Hop[]): Design {
  return { terrain: [], sites: new Map(), hops: new Map(hops.map((hop) => [hop.name, hop])) };
}

/** Over a survey from one height to the other, with the terrain at both ends. */
function told(
  from: number,
  to: number,
  terrain: readonly [number, number],
  more: Partial<Hop> = {},
): string[] {
  const hop = { ...HOP, ...more };
  const design = designOf(hop);
  const [a, b] = hop.ends.map(({ site }) => spotKey(site.position!));
  const wanted = spotsWanted(design).map(spotKey);
  expect(wanted).toEqual(expect.arrayContaining([a, b]));
  const ground = { ...groundOf([from, (from + to) / 2, to], LENGTH_M), profileKind: "survey" as const };
  const heights = new Map([
    [a!, terrain[0]],
    [b!, terrain[1]],
  ]);
  const results = new Map([[hop.name, evaluateHop(hop, ground)]]);
  return judgeNetwork(design, results, "2026-06-01", { heights })
    .filter(({ rule }) => rule === "survey-differs-from-terrain")
    .map(({ severity, help, accepted }) => `${accepted ? "accepted" : severity}${help ? `: ${help}` : ""}`);
}

test("15 m are allowed, more is told, and 100 m are an error", () => {
  expect(told(500, 400, [485, 415])).toEqual([]);
  expect(told(500, 400, [484, 400])).toEqual(["warning"]);
  expect(told(500, 400, [400, 400])).toEqual(["warning"]);
  expect(told(500, 400, [399, 400])).toEqual(["error"]);
});

test("heights in feet, and the wrong end, are errors however near", () => {
  expect(told(328, 328, [100, 100])).toEqual(["error: 328 ft would be 100 m."]);
  expect(told(80, 90, [262.5, 295.3])).toEqual(["error: 262.5 m would be it, not feet."]);
  expect(told(500, 450, [450, 500])).toEqual(["error: Counted from TARN it fits."]);
  expect(told(500, 450, [450, 500], { surveyReversed: true })).toEqual(["error: Counted from KELD it fits."]);
});

test("no severity makes the error milder; the hop can accept it", () => {
  const statements = [{ rule: "survey-differs-from-terrain", severity: "info", required: false }] as const;
  expect(told(500, 400, [399, 400], { policy: { statements } })).toEqual(["error"]);
  const accepts = [{ rule: "survey-differs-from-terrain", reason: "the quarry is gone" }];
  expect(told(500, 400, [399, 400], { accepts })).toEqual(["accepted"]);
});

test("without terrain it is held against the other hops of the site", () => {
  const other = makeHop({ name: "OTHER", ends });
  const results = (atM: number) =>
    new Map([
      [HOP.name, evaluateHop(HOP, { ...groundOf([500, 480, 500], LENGTH_M), profileKind: "survey" })],
      [other.name, evaluateHop(other, groundOf([atM, atM, atM], LENGTH_M))],
    ]);
  const found = (atM: number) =>
    judgeNetwork(designOf(HOP, other), results(atM), "2026-06-01").filter(
      ({ rule }) => rule === "survey-differs-from-terrain",
    );
  expect(found(490)).toEqual([]);
  expect(found(470)).toHaveLength(1);
});
