/** What a named thing is, in a few lines: for hover and for the list of completions. */
import type { Antenna, Objective, Radio, Site } from "../../shared/design/design.js";
import type { FrequencyRange } from "../../shared/design/frequency-range.js";
import * as write from "../../shared/format/numbers.js";
import { plansNamed } from "../../shared/spectrum/channel-plan.js";
import type { ChannelPlan } from "../../shared/spectrum/channel-plans.data.js";
import { wordOf } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import type { NamedKind } from "../schema/kinds.js";
import { positionText } from "./position-text.js";
import { siteNamesOfEnds } from "./scene.js";
import { indoorLines } from "./summary-indoor.js";

/** The title of what counts under that name. */
export function titleOf(model: DesignModel, kind: NamedKind, name: string): string | undefined {
  return wordOf(model.declarations(`${kind} ${name}`)[0]?.fact, "title");
}

/** Short sentences without a full stop; empty when nothing is stated or nothing is declared. */
export function summary(model: DesignModel, kind: NamedKind, name: string): readonly string[] {
  const { lookup } = model;
  switch (kind) {
    case "site":
      return siteLines(lookup.site(name));
    case "radio":
      return radioLines(lookup.radio(name));
    case "antenna":
      return antennaLines(lookup.antenna(name));
    case "coupler": {
      const coupler = lookup.coupler(name);
      if (!coupler) return [];
      const { kind: sort, mainLossDb, standbyLossDb } = coupler;
      const standby = standbyLossDb === undefined ? "" : `, standby arm ${write.decibels(standbyLossDb)}`;
      return [
        sort,
        mainLossDb === undefined ? undefined : `main arm ${write.decibels(mainLossDb)}${standby}`,
        band(coupler.band),
      ].filter(isText);
    }
    case "feeder": {
      const feeder = lookup.feeder(name);
      const losses = feeder?.loss.map(
        ({ lossDbPerM, frequencyHz }) => `${write.trimmed(lossDbPerM, 3)} dB/m${at(frequencyHz)}`,
      );
      return [feeder?.kind, losses?.join(", ") || undefined, band(feeder?.band)].filter(isText);
    }
    case "cable":
    case "chassis":
    case "card":
      return indoorLines(model, kind, name);
    case "objective":
      return objectiveLines(lookup.objective(name));
    case "plan":
      return planLines(plansNamed(name, lookup.plans()));
    case "hop": {
      const ends = siteNamesOfEnds(model.declarations(`hop ${name}`)[0]?.fact.facts ?? []);
      return ends.length > 0 ? [ends.join(" to ")] : [];
    }
  }
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
