import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import type { Design, Hop } from "../../shared/design/design.js";
import type { Finding } from "../../shared/design/finding.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { inverse } from "../../shared/geodesy/geodesic.js";
import type { InterferenceNetwork } from "../../shared/interference/network.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { spotKey, spotsWanted } from "../../shared/rules/position-slips.js";
import { groundOf } from "../evaluate/builders.js";
import { interferenceIn } from "../support/interference.js";
import { exampleFiles } from "../support/listed.js";

export const TODAY = "2026-06-01";

export interface JudgedExample {
  readonly problems: readonly string[];
  readonly findings: readonly Finding[];
}

/** Reads an example as a user's file and judges it over the ground that the examples are written for. */
export function judgeExample(text: string): JudgedExample {
  const model = new DesignModel("/example");
  model.setFile(readSource("/example/example.hop", `${EXAMPLE_PREAMBLE}\n${text}`));
  const design = model.design();
  const results = new Map<string, HopResult>();
  const findings: Finding[] = [];
  for (const hop of design.hops.values()) {
    const result = evaluateHop(hop, exampleGround(hop));
    results.set(hop.name, result);
    findings.push(...judgeHop(hop, result, TODAY));
  }
  const heights = new Map(
    spotsWanted(design).map((at) => [spotKey(at), at.latitudeDeg < 0 ? undefined : 200]),
  );
  const files = exampleFiles(design);
  const interference = exampleInterference(design, results);
  findings.push(...judgeNetwork(design, results, TODAY, { heights, files, interference }));
  const problems = model.problemsOf("/example/example.hop").filter(({ severity }) => severity === "error");
  return { problems: problems.map(({ message }) => message), findings };
}

export function exampleInterference(
  design: Design,
  results: ReadonlyMap<string, HopResult>,
): InterferenceNetwork {
  return interferenceIn({ design, results, listed: exampleFiles(design), day: TODAY });
}

/**
 * Level ground at 200 m with a ridge of 15 m in the middle; no raster east of 30 degrees west, no terrain south of the
 * equator. Of the surveys one is too long, one is in feet, the others are not there.
 */
export function exampleGround(hop: Hop): GroundInput {
  const none: GroundInput = {
    groundM: [undefined, undefined],
    profileKind: hop.surveyFile === undefined ? "terrain" : "survey",
    problem: "the file is not there",
  };
  const from = hop.ends[0].site.position;
  const to = hop.ends[1].site.position;
  if (from === undefined || to === undefined || from.latitudeDeg < 0) return none;
  const tooLong = hop.surveyFile?.endsWith("too-long.csv");
  const inFeet = hop.surveyFile?.endsWith("in-feet.csv");
  if (hop.surveyFile !== undefined && !tooLong && !inFeet) return none;
  const { distanceM } = inverse({ from, to });
  const heights = Array.from({ length: 101 }, (_, i) => {
    const longitudeDeg = from.longitudeDeg + (i / 100) * (to.longitudeDeg - from.longitudeDeg);
    if (longitudeDeg > -30 && longitudeDeg < 0) return null;
    return i >= 49 && i <= 51 ? 215 : 200;
  });
  if (!(distanceM > 0)) return none;
  if (inFeet) {
    const feet = groundOf([656, 705, 656], distanceM);
    return { ...feet, profileKind: "survey", survey: { beginsM: 0, endsM: distanceM } };
  }
  const ground = groundOf(heights, distanceM);
  const survey = { beginsM: 0, endsM: 1.4 * distanceM };
  return tooLong ? { ...ground, profileKind: "survey", survey } : ground;
}
