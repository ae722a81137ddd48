/** Judges a small design over invented ground: level at 200 m, with a ridge of 15 m half way. */

import type { JudgedHop, Results } from "../../../language/editor/results.js";
import type { DesignModel } from "../../../language/model/design-model.js";
import type { Design, Hop } from "../../../shared/design/design.js";
import type { Finding } from "../../../shared/design/finding.js";
import type { HopResult } from "../../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../../shared/evaluate/hop.js";
import type { GroundInput } from "../../../shared/evaluate/path/ground.js";
import { inverse } from "../../../shared/geodesy/geodesic.js";
import type { InterferenceFound } from "../../../shared/interference/network.js";
import { EXAMPLE_PREAMBLE } from "../../../shared/rules/example-preamble.js";
import { judgeHop } from "../../../shared/rules/judge.js";
import { judgeNetwork } from "../../../shared/rules/judge-network.js";
import { groundOf } from "../../evaluate/builders.js";

const TODAY = "2026-06-01";

/** Sites KELD and TARN, 9.3 km apart, a radio, antennas and couplers, all invented; no hop. */
export const PREAMBLE = EXAMPLE_PREAMBLE.trimStart();

export function judge(
  model: DesignModel,
  groundUnder: (hop: Hop) => GroundInput = levelWithRidge,
  interferenceOf?: (design: Design, results: ReadonlyMap<string, HopResult>) => InterferenceFound,
): {
  readonly results: Results;
  readonly findings: readonly Finding[];
  readonly interference: InterferenceFound | undefined;
} {
  const judged = new Map<string, JudgedHop>();
  const design = model.design();
  for (const hop of design.hops.values()) {
    const used = groundUnder(hop);
    const result = evaluateHop(hop, used);
    const findings = judgeHop(hop, result, TODAY, {
      stock: model.stockFor(hop.name),
      evaluate: (changed) => evaluateHop(changed, used),
    });
    judged.set(hop.name, { hop, result, findings });
  }
  const results = new Map([...judged].map(([name, { result }]) => [name, result]));
  const interference = interferenceOf?.(design, results);
  const findings = [
    ...[...judged.values()].flatMap((one) => one.findings),
    ...judgeNetwork(design, results, TODAY, { interference }),
  ];
  return { results: (name) => judged.get(name), findings, interference };
}

function levelWithRidge(hop: Hop): GroundInput {
  const [from, to] = hop.ends.map((end) => end.site.position);
  const lengthM = from && to ? inverse({ from, to }).distanceM : 1000;
  const ground = groundOf(from && to ? HEIGHTS : [200, 200, 200], lengthM);
  const survey = { profileKind: "survey", survey: { beginsM: 0, endsM: lengthM } } as const;
  return hop.surveyFile === undefined ? ground : { ...ground, ...survey };
}

const HEIGHTS = Array.from({ length: 101 }, (_, i) => (i >= 49 && i <= 51 ? 215 : 200));

/** A sound hop over the preamble, its caret or mark put in by the case. */
export const HOP = `hop KELD-TARN "Keld to Tarn" {
  objective trunk
  channel F.595 / 55 MHz / 4
  polarization vertical
  radio R18
  mode 55 MHz 128QAM
  KELD {
    antenna DISH60-18 at 40 m
    transmits high
  }
  TARN {
    antenna DISH60-18 at 40 m
    transmits low
  }
}
`;
