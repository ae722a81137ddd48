import { address, nth } from "../design/address.js";
import type { Hop } from "../design/design.js";
import type { ClearanceResult } from "../evaluate/account/path-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import {
  apart,
  decibels,
  fixed,
  fresnel,
  fresnelAsked,
  kFactor,
  kilometres,
  metres,
  availability as percent,
  trimmed,
} from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const clearance: HopRule = {
  scope: "hop",
  id: "clearance",
  severity: "error",
  title: "The path must clear terrain and obstacles as the objective asks",
  checks:
    "For each clearance of the objective: the share of the first Fresnel zone that is free over every known point of the path, at the stated k.",
  why: "A beam that touches the ground loses level every day, and most when k is small.",
  fix: "Raise an antenna, move a site, or accept the finding with a reason.",
  source: "Rec. ITU-R P.530-18 section 2.2 (the use of k and Fresnel zone; the figures are the objective's)",
  once: true,
  needs: ["clearance", "objective"],
  quietAfter: ["path-length"],
  good: exampleHop(),
  bad: exampleHop({
    keld: "antenna DISH60-18 at 10 m\n    transmits high",
    tarn: "antenna DISH60-18 at 10 m\n    transmits low",
  }),
  check({ hop, result, report }) {
    const failing = result.clearance.filter((one) => one.verdict === "missed" && !one.forInformation);
    if (failing.length === 0) return;
    const worst = failing.reduce((a, b) => (lackM(b) > lackM(a) ? b : a));
    const needed = [0, 1].map((end) => neededAtAll(failing, end as 0 | 1)) as [
      number | undefined,
      number | undefined,
    ];
    const more = failing.length > 1 ? `; ${failing.length - 1} further criterion not met` : "";
    const end = endToRaise(hop, needed);
    report({
      at: address("hop", hop.name, hop.ends[end].site.name, "antenna.at"),
      message: `${said(worst)}; the objective asks ${fresnelAsked(worst.requiredFraction)}; ${remedy(hop, needed)}${more}`,
      help: consequence(result),
      related: related(hop, result, worst),
    });
  },
};

/** Less is within what any level is uncertain by. */
const WORTH_TELLING_DB = 0.1;

/** What the obstruction costs: the findings that follow from it stay quiet, so their figures stand here. */
function consequence({ availability: found, diffractionLossDb = 0 }: HopResult): string | undefined {
  if (diffractionLossDb < WORTH_TELLING_DB) return undefined;
  const loss = `As the path is, ${decibels(diffractionLossDb)} of diffraction loss`;
  if (found?.verdict !== "missed") return `${loss} stand in the level.`;
  if (found.availabilityPercent === 0) return `${loss} leave ${found.modulation} no margin.`;
  const [left, asked] = apart(percent, found.availabilityPercent, found.objectivePercent!);
  const estimate =
    found.atLeastPercent === undefined ? "" : " (rain in it an estimate, outside the range of its law)";
  return `${loss} leave ${left} available with ${found.modulation}${estimate}; the objective asks ${asked}.`;
}

/** The critical point in words. */
export function said({
  fraction,
  requiredFraction,
  clearanceM,
  distanceM,
  kFactor: k,
  obstacle,
}: ClearanceResult): string {
  const place = `${obstacle === undefined ? "" : `over "${obstacle}" `}at ${kilometres(distanceM)} with ${kFactor(k)}`;
  return fraction < 0
    ? `the ray is blocked by ${metres(-clearanceM)} ${place}`
    : `clears ${apart(fresnel, fraction, requiredFraction)[0]} ${place}`;
}

export function lackM(one: ClearanceResult): number {
  return one.requiredFraction * one.fresnelRadiusM - one.clearanceM;
}

/** Height that meets every failing criterion. */
export function neededAtAll(failing: readonly ClearanceResult[], end: 0 | 1): number | undefined {
  let highest = 0;
  for (const one of failing) {
    const needed = one.heightNeededM[end];
    if (needed === undefined) return undefined;
    highest = Math.max(highest, needed);
  }
  return highest;
}

/** The end that needs the smaller raise; one whose structure is high enough goes before. */
function endToRaise(hop: Hop, needed: readonly [number | undefined, number | undefined]): 0 | 1 {
  const raise = ([0, 1] as const).map(
    (end) => (needed[end] ?? Number.POSITIVE_INFINITY) - (hop.ends[end].antennaHeightM ?? 0),
  );
  const above = ([0, 1] as const).map((end) => aboveTop(hop, end, needed[end]) !== undefined);
  if (above[0] !== above[1]) return above[0] ? 1 : 0;
  return raise[1]! < raise[0]! ? 1 : 0;
}

/** The structure that a height would overtop, in words. */
function aboveTop(hop: Hop, end: 0 | 1, heightM: number | undefined): string | undefined {
  const { structure } = hop.ends[end].site;
  if (structure === undefined || (heightM !== undefined && heightM <= structure.heightM)) return undefined;
  return `above the ${trimmed(structure.heightM, 1)} m ${structure.kind}`;
}

function remedy(hop: Hop, needed: readonly [number | undefined, number | undefined]): string {
  const first = endToRaise(hop, needed);
  const raises = [first, 1 - first].flatMap((end) => {
    const heightM = needed[end as 0 | 1];
    // Rounded up: a height as written must do.
    return heightM === undefined ? [] : [raiseWords(hop, end as 0 | 1, Math.ceil(heightM * 10) / 10)];
  });
  if (raises.length > 0) return `raise ${raises.join(" or ")}`;
  return "raising one antenna alone does not help";
}

function raiseWords(hop: Hop, end: 0 | 1, heightM: number): string {
  const above = aboveTop(hop, end, heightM);
  return `${hop.ends[end].site.name} to ${fixed(heightM, 1)} m${above === undefined ? "" : ` (${above})`}`;
}

function related(hop: Hop, result: HopResult, worst: ClearanceResult) {
  const objective = hop.objective!;
  const index = objective.clearance.findIndex(
    (one) => one.kFactor === worst.kFactor && one.fresnelFraction === worst.requiredFraction,
  );
  const places: { at?: string; file?: string; message: string }[] = [
    {
      at: address("objective", objective.name, nth("clearance", Math.max(0, index))),
      message: `${fresnelAsked(worst.requiredFraction)} at ${kFactor(worst.kFactor)}`,
    },
  ];
  const file = result.profile?.sources[0]?.file;
  if (file !== undefined && worst.obstacle === undefined) {
    places.push({
      file,
      message: `ground at ${metres(worst.obstacleM)}, ${kilometres(worst.distanceM)} from ${hop.ends[0].site.name}`,
    });
  }
  return places;
}
