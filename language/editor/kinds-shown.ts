/** How a kind is shown in an editor: the colour of its names, its sign in the outline, and what one is in a few lines. */
import type { Antenna, Coupler, Feeder, Radio } from "../../shared/design/catalogue.js";
import type { Site } from "../../shared/design/design.js";
import type { FrequencyRange } from "../../shared/design/frequency-range.js";
import type { Objective } from "../../shared/design/objective.js";
import * as write from "../../shared/format/numbers.js";
import { plansNamed } from "../../shared/spectrum/channel-plan.js";
import type { ChannelPlan } from "../../shared/spectrum/channel-plans.data.js";
import { wordOf } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import type { NamedKind } from "../schema/kinds.js";
import { positionText } from "./position-text.js";
import { siteNamesOfEnds } from "./scene.js";
import { demandLines } from "./summary-demand.js";
import { cableLines, cardLines, chassisLines } from "./summary-indoor.js";
import type { TokenType } from "./token-types.js";

/** The title of what counts under that name. */
export function titleOf(model: DesignModel, kind: NamedKind, name: string): string | undefined {
  return wordOf(model.declarations(`${kind} ${name}`)[0]?.fact, "title");
}

/** Signs of an outline, after the editor protocol's own list. */
export type Sign = "Package" | "Namespace" | "Field" | "Class" | "Event" | "Struct" | "Interface" | "Enum";

interface KindShown {
  readonly token: TokenType;
  readonly sign: Sign;
  /** Short sentences without a full stop; empty when nothing is stated or nothing is declared. */
  lines(model: DesignModel, name: string): readonly string[];
}

export const KINDS_SHOWN: Readonly<Record<NamedKind, KindShown>> = {
  site: { token: "namespace", sign: "Field", lines: ({ lookup }, name) => siteLines(lookup.site(name)) },
  hop: { token: "function", sign: "Class", lines: hopLines },
  demand: {
    token: "variable",
    sign: "Event",
    lines: (model, name) => demandLines(model.demand(name)?.demand),
  },
  radio: { token: "class", sign: "Struct", lines: ({ lookup }, name) => radioLines(lookup.radio(name)) },
  antenna: {
    token: "class",
    sign: "Struct",
    lines: ({ lookup }, name) => antennaLines(lookup.antenna(name)),
  },
  coupler: {
    token: "class",
    sign: "Struct",
    lines: ({ lookup }, name) => couplerLines(lookup.coupler(name)),
  },
  feeder: { token: "class", sign: "Struct", lines: ({ lookup }, name) => feederLines(lookup.feeder(name)) },
  cable: { token: "class", sign: "Struct", lines: ({ lookup }, name) => cableLines(lookup.cable(name)) },
  chassis: {
    token: "class",
    sign: "Struct",
    lines: ({ lookup }, name) => chassisLines(lookup.chassis(name)),
  },
  card: { token: "class", sign: "Struct", lines: ({ lookup }, name) => cardLines(lookup.card(name)) },
  objective: {
    token: "interface",
    sign: "Interface",
    lines: ({ lookup }, name) => objectiveLines(lookup.objective(name)),
  },
  plan: {
    token: "enum",
    sign: "Enum",
    lines: ({ lookup }, name) => planLines(plansNamed(name, lookup.plans())),
  },
};

function hopLines(model: DesignModel, name: string): string[] {
  const ends = siteNamesOfEnds(model.declarations(`hop ${name}`)[0]?.fact.facts ?? []);
  return ends.length > 0 ? [ends.join(" to ")] : [];
}

function couplerLines(coupler: Coupler | undefined): string[] {
  if (!coupler) return [];
  const { kind, mainLossDb, standbyLossDb, secondMainLossDb, secondStandbyLossDb } = coupler;
  const second = [secondMainLossDb, secondStandbyLossDb].flatMap((lossDb) =>
    lossDb === undefined ? [] : [write.decibels(lossDb)],
  );
  const standby = standbyLossDb === undefined ? "" : `, standby arm ${write.decibels(standbyLossDb)}`;
  return [
    kind,
    mainLossDb === undefined ? undefined : `main arm ${write.decibels(mainLossDb)}${standby}`,
    second.length > 0 ? `second polarization ${second.join(", ")}` : undefined,
    band(coupler.band),
  ].filter(isText);
}

function feederLines(feeder: Feeder | undefined): string[] {
  const losses = feeder?.loss.map(
    ({ lossDbPerM, frequencyHz }) => `${write.trimmed(lossDbPerM, 3)} dB/m${at(frequencyHz)}`,
  );
  return [feeder?.kind, losses?.join(", ") || undefined, band(feeder?.band)].filter(isText);
}

function siteLines(site: Site | undefined): string[] {
  if (!site) return [];
  const { position, groundM, structure } = site;
  return [
    position && positionText(position),
    groundM === undefined ? undefined : `ground ${write.metres(groundM)} above sea level`,
    structure && `${structure.kind} ${write.metres(structure.heightM)}`,
  ].filter(isText);
}

function radioLines(radio: Radio | undefined): string[] {
  if (!radio) return [];
  const widths = [...new Set(radio.modes.map((mode) => mode.bandwidthHz))].sort((a, b) => a - b);
  return [
    radio.tuning && `tunes ${range(radio.tuning)}`,
    radio.duplexSpacingHz === undefined
      ? undefined
      : `duplex spacing ${write.frequency(radio.duplexSpacingHz)}`,
    radio.modes.length > 0
      ? `${radio.modes.length} modes at ${widths.map(write.bandwidth).join(", ")}`
      : undefined,
    radio.noiseFigureDb === undefined ? undefined : `noise figure ${write.decibels(radio.noiseFigureDb)}`,
    radio.overloadDbm === undefined ? undefined : `overload ${write.dbm(radio.overloadDbm)}`,
  ].filter(isText);
}

function antennaLines(antenna: Antenna | undefined): string[] {
  if (!antenna) return [];
  const gain = antenna.gain.map(({ gainDbi, frequencyHz }) => `${write.dbi(gainDbi)}${at(frequencyHz)}`);
  return [
    antenna.diameterM === undefined ? undefined : `${write.trimmed(antenna.diameterM, 2)} m`,
    gain.join(", ") || undefined,
    band(antenna.band),
    antenna.polarizations && `${antenna.polarizations} polarized`,
  ].filter(isText);
}

function objectiveLines(objective: Objective | undefined): string[] {
  if (!objective) return [];
  const { availabilityPercent, capacityBps, fadeMarginDb, clearance } = objective;
  return [
    availabilityPercent === undefined
      ? undefined
      : `availability ${write.availability(availabilityPercent)} (${write.yearly(100 - availabilityPercent)} out)`,
    capacityBps === undefined ? undefined : `capacity ${write.bitRate(capacityBps)}`,
    fadeMarginDb === undefined ? undefined : `margin ${write.decibels(fadeMarginDb)}`,
    ...clearance.map(
      (one) => `clearance ${write.fresnelAsked(one.fresnelFraction)} at ${write.kFactor(one.kFactor)}`,
    ),
  ].filter(isText);
}

function planLines(plans: readonly ChannelPlan[]): string[] {
  return plans.map(({ id, band: name, rows, documents }) => {
    const widths = [...new Set(rows.map((row) => row.widthMHz))]
      .sort((a, b) => a - b)
      .map((width) => write.trimmed(width, 3));
    return [id, name, widths.length > 0 ? `${widths.join(", ")} MHz` : "", documents.join("; ")]
      .filter(Boolean)
      .join(", ");
  });
}

function band(found: FrequencyRange | undefined): string | undefined {
  return found && `band ${range(found)}`;
}

function range({ fromHz, toHz }: FrequencyRange): string {
  return `${write.frequency(fromHz)} to ${write.frequency(toHz)}`;
}

function at(frequencyHz: number | undefined): string {
  return frequencyHz === undefined ? "" : ` at ${write.frequency(frequencyHz)}`;
}

function isText(line: string | undefined): line is string {
  return line !== undefined && line !== "";
}
