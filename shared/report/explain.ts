import type { Design, Hop } from "../design/design.js";
import type { DirectionResult, ModeResult } from "../evaluate/account/level-result.js";
import type { ClearanceResult } from "../evaluate/account/path-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { outageBounded } from "../format/bounds.js";
import {
  bandwidth,
  dbm,
  decibels,
  degrees,
  frequency,
  fresnelAsked,
  kFactor,
  kilometres,
  metres,
} from "../format/numbers.js";
import type { InterferenceAt } from "../interference/receiver-result.js";
import { elementMessage } from "../words/elements.js";
import { degradationOrigin } from "../words/interference.js";
import { lackSentence } from "../words/lacks.js";
import { shown } from "../words/message.js";
import { explainCarriers } from "./carriers.js";
import { clearanceAgainst } from "./clearance-against.js";
import { drawnKFactor } from "./draw/profile-points.js";
import { explainEnds } from "./explain-ends.js";
import { explainFading } from "./explain-fading.js";
import { explainInterference } from "./explain-interference.js";
import { type Explanation, explainRest, explanation, type Sources, sourcesOf } from "./explanation.js";
import { levelChange } from "./level-diagram.js";
import { gasSteps } from "./steps.js";

/**
 * Explains every figure of a hop; what is missing stands last.
 * @param design what the hop stands in; without it nothing is told of the cables and supply of its units
 * @param interference at the receivers of the hop; without it a degradation is only told as it counts
 */
export function explainHop(
  hop: Hop,
  result: HopResult,
  design?: Design,
  interference?: readonly InterferenceAt[],
): Explanation[] {
  const from = sourcesOf(result);
  const figures = [
    ...pathOf(hop, result, from),
    ...result.clearance.map((one) => clearanceOf(one, from)),
    ...result.directions.map((direction) => levelOf(direction, from)),
    ...explainCarriers(result),
    ...result.directions.flatMap((direction) => marginsOf(direction, from)),
    ...explainInterference(interference, result),
    ...result.directions.flatMap((direction) => overloadOf(direction, from)),
    ...gasesOf(result, from),
    ...explainFading(hop, result, from),
    ...(design === undefined ? [] : explainEnds(hop, result, design)),
  ];
  return [
    ...figures,
    ...explainRest(result, figures),
    ...result.missing.map((lack) => explanation("not computed", shown(lackSentence(lack)))),
  ];
}

function pathOf(hop: Hop, result: HopResult, from: Sources): Explanation[] {
  if (result.distanceM === undefined) return [];
  const steps = (result.geometry ?? []).flatMap((end) => [
    { name: `azimuth at ${end.site}`, value: degrees(end.azimuthDeg) },
    { name: `elevation at ${end.site}, ${kFactor(drawnKFactor(hop))}`, value: degrees(end.elevationDeg) },
    { name: `antenna height a.s.l. at ${end.site}`, value: metres(end.groundM + end.antennaHeightM) },
  ]);
  if (result.slantDistanceM !== undefined)
    steps.push({
      name: "straight distance between the antennas",
      value: kilometres(result.slantDistanceM, 1),
    });
  return [
    explanation("path length", kilometres(result.distanceM), {
      methods: from.methods("geodesic", "elevation"),
      inputs: from.inputs("path-length", "ground", "median-k"),
      steps,
    }),
  ];
}

function clearanceOf(one: ClearanceResult, from: Sources): Explanation {
  const asked = one.forInformation ? "for information" : `${fresnelAsked(one.requiredFraction)} asked`;
  return explanation(`clearance at ${kFactor(one.kFactor)}`, `${clearanceAgainst(one)}, ${asked}`, {
    methods: from.methods("fresnel-zone"),
    inputs: from.inputs("path-length", "ground", "zone-frequency"),
    steps: [
      {
        name: "critical point",
        value: `${kilometres(one.distanceM)}${one.obstacle === undefined ? "" : `, "${one.obstacle}"`}`,
      },
      { name: "its height a.s.l.", value: metres(one.obstacleM) },
      { name: "clearance over it, the Earth's bulge counted", value: metres(one.clearanceM) },
      { name: "F1 radius there", value: metres(one.fresnelRadiusM) },
    ],
    notes: from.notes("clearance"),
  });
}

function levelOf(direction: DirectionResult, from: Sources): Explanation {
  const highest = direction.modes.at(-1);
  const mode = highest === undefined ? "" : `, ${highest.modulation}, the mode at line-up`;
  const figure = `received level ${direction.from} to ${direction.to}${mode}`;
  return explanation(figure, dbm(direction.receivedLevelDbm), {
    methods: from.methods("free-space", "gases", "reference-atmosphere", "diffraction"),
    inputs: from.inputs(
      "straight-distance",
      "antenna-gain",
      "guide-loss",
      "pressure",
      "temperature",
      "water-vapour",
    ),
    steps: [
      { name: "frequency", value: frequency(direction.frequencyHz) },
      ...direction.levels.map((row) => ({
        name: shown(elementMessage(row.passes).name),
        value: [levelChange(row), dbm(row.levelDbm)].filter((part) => part !== "").join(", "),
      })),
    ],
    notes: from.notes("level"),
  });
}

function marginsOf({ from, to, modes }: DirectionResult, sources: Sources): Explanation[] {
  return modes.map((mode) =>
    explanation(`fade margin ${from} to ${to}, ${mode.modulation}`, decibels(mode.fadeMarginDb), {
      methods: mode.thresholdFrom === "catalogue" ? [] : sources.methods("thermal-noise"),
      steps: [
        { name: "power", value: powerOf(mode, modes.at(-1)!) },
        { name: "received level", value: dbm(mode.receivedLevelDbm) },
        { name: `threshold (${mode.thresholdFrom})`, value: dbm(mode.thresholdDbm) },
        ...(mode.noiseBandwidthHz === undefined
          ? []
          : [
              {
                name: `noise bandwidth, of a channel of ${bandwidth(mode.bandwidthHz)}`,
                value: bandwidth(mode.noiseBandwidthHz),
              },
            ]),
        ...(mode.degradationDb
          ? [
              {
                name: `degradation by interference, ${degradationOrigin(mode)}`,
                value: decibels(mode.degradationDb),
              },
            ]
          : []),
      ],
    }),
  );
}

/** A lower mode with more power has its margin only when the radio takes that power up. */
function powerOf({ transmitPowerDbm }: ModeResult, highest: ModeResult): string {
  const stepDb = transmitPowerDbm - highest.transmitPowerDbm;
  const raised =
    stepDb > 0 ? `, assumed to rise by ${decibels(stepDb)} over ${highest.modulation} on fallback` : "";
  return `${dbm(transmitPowerDbm)}${raised}`;
}

function overloadOf({ from, to, overload }: DirectionResult, sources: Sources): Explanation[] {
  if (overload === undefined) return [];
  const { receivedLevelDbm, overloadDbm, marginDb, worstMonthPercent } = overload;
  return [
    explanation(`margin to overload ${from} to ${to}`, decibels(marginDb), {
      methods: worstMonthPercent === undefined ? [] : sources.methods("enhancement"),
      steps: [
        { name: "received level, mode of greatest power", value: dbm(receivedLevelDbm) },
        { name: "overload level", value: dbm(overloadDbm) },
        ...(worstMonthPercent === undefined
          ? []
          : [
              {
                name: "enhanced beyond it",
                value: `${outageBounded({ timePercent: worstMonthPercent })} of the worst month`,
              },
            ]),
      ],
    }),
  ];
}

function gasesOf(result: HopResult, from: Sources): Explanation[] {
  if (result.gasLossDb === undefined) return [];
  return [
    explanation("attenuation by gases", decibels(result.gasLossDb), {
      methods: from.methods("gases", "reference-atmosphere"),
      inputs: from.inputs("straight-distance", "pressure", "temperature", "water-vapour"),
      steps: gasSteps(result),
      notes: from.notes("gases"),
    }),
  ];
}
