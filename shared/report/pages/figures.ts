/** The figures of a hop that a reader asks for first, as the hop's page and the overview both show them. */

import type { Channel, Hop } from "../../design/design.js";
import type { ClearanceResult } from "../../evaluate/account/path-result.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { lowestJudged } from "../../evaluate/level/judged-mode.js";
import { availabilityBounded, yearlyOut } from "../../format/bounds.js";
import {
  apart,
  availability,
  dbm,
  decibels,
  fixed,
  fresnelAsked,
  gigahertz,
  kFactor,
  trimmed,
} from "../../format/numbers.js";
import { weakerDirection } from "../../rules/judged-modes.js";
import { clearanceAgainst } from "../clearance-against.js";
import type { KeyFigure, ReportFinding, Tone } from "../document/document.js";

export function keyFigures(hop: Hop, result: HopResult, findings: readonly ReportFinding[]): KeyFigure[] {
  const { distanceM } = result;
  return [
    {
      label: "Length",
      ...(distanceM === undefined ? UNKNOWN : { value: kilometresOf(distanceM), unit: "km" }),
    },
    { label: "Frequencies", ...frequencies(hop) },
    {
      label: "Received level at line-up",
      ...level(result),
      tone: toneOf(findings, ["overload", "level-below-threshold"]),
    },
    {
      label: "Fade margin",
      ...margin(hop, result),
      tone: toneOf(findings, ["fade-margin", "level-below-threshold"]),
    },
    { label: "Availability", ...available(hop, result), tone: toneOf(findings, ["availability"]) },
    { label: "Clearance", ...clearanceFigure(result), tone: toneOf(findings, ["clearance"]) },
  ];
}

type Figure = Omit<KeyFigure, "label">;

const UNKNOWN: Figure = { value: "–", note: "not computed" };

function frequencies(hop: Hop): Figure {
  const stated = hop.ends
    .map(({ transmitFrequencyHz }) => transmitFrequencyHz)
    .filter((hz) => hz !== undefined);
  if (stated.length === 0) return { value: "–", note: "not stated" };
  const further = hop.furtherChannels ?? [];
  const note = hop.channel
    ? `${hop.channel.plan}, ${trimmed(hop.channel.bandwidthHz / 1e6, 3)} MHz, ${channels([hop.channel, ...further])}`
    : undefined;
  const each = [...new Set(stated.map(gigahertz))];
  return { value: each.join(" / "), unit: "GHz", note };
}

function channels(all: readonly Channel[]): string {
  return `channel${all.length === 1 ? "" : "s"} ${all.map(({ number }) => number).join(", ")}`;
}

/** The highest mode is the one that runs in clear air: what the installer will measure, at either end. */
function level({ directions }: HopResult): Figure {
  const mode = directions[0]?.modes.at(-1);
  if (mode === undefined) return UNKNOWN;
  const levels = directions.map(({ receivedLevelDbm }) => fixed(receivedLevelDbm, 1));
  const at = directions.map(({ to }) => to).join(" / ");
  return {
    value: levels.join(" / "),
    unit: "dBm",
    note: `${highestWords(directions[0]!.modes.length, mode.modulation)}, at ${at}`,
  };
}

/** The margin beside it may be that of another mode. */
function highestWords(count: number, modulation: string): string {
  return count > 1 ? `highest mode ${modulation}` : modulation;
}

function margin(hop: Hop, result: HopResult): Figure {
  const weaker = weakerDirection(hop, result);
  if (weaker === undefined) return UNKNOWN;
  const { mode, direction } = weaker;
  const asked = hop.objective?.fadeMarginDb;
  const received = `${judgedWords(hop, mode.modulation)}, ${dbm(mode.receivedLevelDbm)} at ${direction.to}`;
  const found =
    asked === undefined ? decibels(mode.fadeMarginDb) : apart(decibels, mode.fadeMarginDb, asked)[0];
  const note = asked === undefined ? received : `${trimmed(asked, 1)} dB asked; ${received}`;
  return { value: found.replace(" dB", ""), unit: "dB", note };
}

/** A mode, with the word that it is the lowest where no capacity is asked. */
function judgedWords(hop: Hop, modulation: string): string {
  return lowestJudged(hop) === undefined ? modulation : `${modulation}, the lowest mode`;
}

function available(hop: Hop, result: HopResult): Figure {
  const found = result.availability;
  if (found === undefined) return UNKNOWN;
  const { objectivePercent, modulation } = found;
  const asked = objectivePercent === undefined ? "" : `; ${availability(objectivePercent)} asked`;
  return {
    value: availabilityBounded(found, objectivePercent).replaceAll(" %", ""),
    unit: "%",
    note: `${judgedWords(hop, modulation)}, ${yearlyOut(found, objectivePercent)} out${asked}`,
  };
}

function clearanceFigure(result: HopResult): Figure {
  const worst = worstClearance(result);
  if (worst === undefined) return UNKNOWN;
  const asked = worst.forInformation ? "nothing asked" : `${fresnelAsked(worst.requiredFraction)} asked`;
  return {
    value: clearanceAgainst(worst).replace(" F1", ""),
    unit: "F1",
    note: `${asked}, ${kFactor(worst.kFactor)}`,
  };
}

/** Of what the objective asks, that which has least to spare; else what is shown for information. */
export function worstClearance(result: HopResult): ClearanceResult | undefined {
  const asked = result.clearance.filter((one) => !one.forInformation);
  const among = asked.length > 0 ? asked : result.clearance;
  return among.toSorted((a, b) => a.fraction - a.requiredFraction - (b.fraction - b.requiredFraction))[0];
}

function kilometresOf(distanceM: number): string {
  const km = distanceM / 1000;
  return fixed(km, km < 9.995 ? 2 : 1);
}

/** What the findings of some rules say of a figure; undefined when they say nothing. */
function toneOf(findings: readonly ReportFinding[], rules: readonly string[]): Tone | undefined {
  return gravest(findings.filter(({ rule }) => rules.includes(rule)));
}

/** The gravest of some findings that hold at the time shown, as a tone; accepted ones stand between warnings and remarks. */
export function gravest(findings: readonly ReportFinding[]): Tone | undefined {
  const now = findings.filter(({ otherTime }) => !otherTime);
  const tones = new Set(now.map(({ severity, accepted }) => (accepted ? "accepted" : severity)));
  return (["error", "warning", "accepted", "info"] as const).find((tone) => tones.has(tone));
}

const ORDER: Readonly<Record<ReportFinding["severity"], number>> = { error: 0, warning: 1, info: 2 };

/** Within a severity the order stays. */
export function gravestFirst(findings: readonly ReportFinding[]): ReportFinding[] {
  return findings.toSorted((a, b) => ORDER[a.severity] - ORDER[b.severity]);
}
