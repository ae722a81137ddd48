/** The figures of a hop that a change is told by, with the precision in which they are printed. */

import type { Hop } from "../design/design.js";
import type { Bound } from "../evaluate/account/outage-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { judgedMode } from "../evaluate/level/judged-mode.js";
import { availabilityBounded } from "../format/bounds.js";
import {
  bitRate,
  dbm,
  decibels,
  fixed,
  fresnel,
  fresnelAsked,
  kFactor,
  kilometres,
  signed,
} from "../format/numbers.js";
import { carriers } from "../radio/arrangements.js";
import { MINUTES_A_YEAR } from "../units/year.js";

export type FigureKind =
  | "length"
  | "level"
  | "margin"
  | "degradation"
  | "standby"
  | "clearance"
  | "availability"
  | "capacity";

export interface Figure {
  readonly kind: FigureKind;
  readonly label: string;
  /** Where it holds, for example the receiving site; figures of one kind and place are held against each other. */
  readonly place: string;
  readonly value: number;
  readonly text: string;
  /** Set where a method only bounds the value. */
  readonly bound?: Bound;
  /** The mode that it is of, for example `128QAM`; undefined: of none. */
  readonly mode?: string;
  /** Set where a method was continued beyond its range for it: see `ESTIMATE_REMARK`. */
  readonly estimated?: true;
  /** Smallest difference that is worth telling: the last digit printed. */
  readonly step: number;
  /** What its objective asks of it at least, and a change that is of no note while both sides keep as much beyond that. */
  readonly asked?: { readonly least: number; readonly note: number };
  /** Which way is better; a level by itself is neither. */
  readonly better: "more" | "less" | "neither";
  /** How a difference is written, its sign included. */
  difference(by: number): string;
}

export function figuresOf(hop: Hop, result: HopResult): Figure[] {
  return [
    ...lengthOf(result),
    ...result.directions.flatMap((direction): Figure[] => {
      const mode = judgedMode(hop, direction.modes);
      if (!mode) return [];
      const place = direction.to;
      return [
        levelOf(`Received level at ${place}, judged mode`, place, mode.receivedLevelDbm),
        inDecibels("margin", `Fade margin at ${place}`, place, mode.fadeMarginDb, decibels),
        // Taken for nothing where nothing was computed: it is what counts in the margin.
        inDecibels(
          "degradation",
          `Threshold at ${place} raised by interference`,
          place,
          mode.degradationDb ?? 0,
          decibels,
        ),
      ].map((figure) => ({ ...figure, mode: mode.modulation }));
    }),
    ...standbyOf(result),
    ...clearances(result),
    ...availabilityOf(result),
    ...capacityOf(hop),
  ];
}

function lengthOf({ distanceM }: HopResult): Figure[] {
  if (distanceM === undefined) return [];
  return [
    {
      kind: "length",
      label: "Length",
      place: "",
      value: distanceM,
      text: kilometres(distanceM),
      step: distanceM < 9995 ? 10 : 100,
      better: "neither",
      difference: (by) => signedIn(by / 1000, distanceM < 9995 ? 2 : 1, "km"),
    },
  ];
}

/** The last digit that levels are printed with. */
export const LEVEL_STEP_DB = 0.1;

/** @param place receiving site */
export function levelOf(label: string, place: string, levelDbm: number): Figure {
  return inDecibels("level", label, place, levelDbm, dbm);
}

function inDecibels(
  kind: "level" | "margin" | "degradation" | "standby",
  label: string,
  place: string,
  value: number,
  text: (value: number) => string,
): Figure {
  return {
    kind,
    label,
    place,
    value,
    text: text(value),
    step: LEVEL_STEP_DB,
    better: kind === "level" ? "neither" : kind === "degradation" ? "less" : "more",
    difference: (by) => signedIn(by, 1, "dB"),
  };
}

function standbyOf({ standby }: HopResult): Figure[] {
  const weakest = standby?.weakest;
  if (weakest === undefined) return [];
  const label = "Least fade margin with a unit on standby";
  const figure = inDecibels("standby", label, "", weakest.fadeMarginDb, decibels);
  return [{ ...figure, mode: weakest.modulation }];
}

/**
 * In radii of the first Fresnel zone: less than heights on maps and antennas are known to (common practice, no source).
 * Another channel of the same band alone moves what is many radii clear by some hundredths.
 */
const NOTABLE_CLEARANCE = 0.1;

/** What the objective asks for; without an objective what is shown for information. */
function clearances({ clearance }: HopResult): Figure[] {
  return clearance.map(({ fraction, requiredFraction, kFactor: k, forInformation }) => ({
    kind: "clearance",
    label: `Clearance, ${kFactor(k)}${forInformation ? "" : `, ${fresnelAsked(requiredFraction)} asked`}`,
    place: `${kFactor(k)} ${forInformation ? "" : requiredFraction}`,
    value: fraction,
    text: fresnel(fraction),
    step: 0.01,
    asked: forInformation ? undefined : { least: requiredFraction, note: NOTABLE_CLEARANCE },
    better: "more",
    difference: (by) => signedIn(by, 2, "F1"),
  }));
}

function availabilityOf({ availability: found }: HopResult): Figure[] {
  if (!found) return [];
  const outage = 100 - found.availabilityPercent;
  return [
    {
      kind: "availability",
      label: "Availability",
      place: "",
      value: found.availabilityPercent,
      text: availabilityBounded(found),
      mode: found.modulation,
      bound: found.bound,
      estimated: found.atLeastPercent === undefined ? undefined : true,
      step: outage > 0 ? 10 ** Math.max(-7, Math.floor(Math.log10(outage)) - 1) : 1e-7,
      better: "more",
      difference: (by) => outageDifference(by),
    },
  ];
}

function capacityOf({ modes, arrangement }: Hop): Figure[] {
  const rates = modes.flatMap(({ bitRateBps }) => bitRateBps ?? []);
  if (rates.length === 0) return [];
  const value = carriers(arrangement.name) * Math.max(...rates);
  return [
    {
      kind: "capacity",
      label: "Capacity of the highest mode",
      place: "",
      value,
      text: bitRate(value),
      step: value < 1e9 ? 1e5 : 1e6,
      better: "more",
      difference: (by) => signedIn(by / 1e6, 1, "Mbit/s"),
    },
  ];
}

/** A difference of availability is read as time in which the hop is down. */
export function outageDifference(byPercent: number): string {
  const lost = (-byPercent / 100) * MINUTES_A_YEAR;
  const size = Math.abs(lost);
  const [value, unit] = size < 1 ? [lost * 60, "s"] : size >= 600 ? [lost / 60, "h"] : [lost, "min"];
  return `${signedIn(value, Math.abs(value) < 10 ? 1 : 0, unit)} out a year`;
}

function signedIn(value: number, digits: number, unit: string): string {
  return signed((one) => `${fixed(one, digits)} ${unit}`, value);
}
