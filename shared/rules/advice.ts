/** What a finding proposes: changes that act on its cause, of which those are given that were tried and are enough. */

import type { Antenna, Radio, RadioMode } from "../design/catalogue.js";
import {
  type Change,
  changeWords,
  counterparts,
  modesOfWidth,
  type Stock,
  withSpaceDiversity,
} from "../design/change.js";
import type { Hop, HopEnd } from "../design/design.js";
import type { HopResult } from "../evaluate/account/result.js";
import { askedMode } from "../evaluate/level/judged-mode.js";
import { radiatesBoth } from "../evaluate/level/polarization.js";
import { SPEED_OF_LIGHT_M_PER_S } from "../propagation/constants.js";
import { antennaGain } from "../radio/antenna-gain.js";
import { carriers } from "../radio/arrangements.js";
import type { HopContext } from "./rule.js";
import type { Tried } from "./trials.js";

/** A kind of change, by what it acts on. */
export type Means =
  /** Rain takes least of the vertical. */
  | "vertical polarization"
  | "a larger antenna at one end"
  | "larger antennas at both ends"
  | "antennas with more discrimination"
  | "space diversity"
  | "another radio"
  | "a lower mode";

export interface Mending {
  readonly change: Change;
  /** The hop with it. */
  readonly result: HopResult;
}

/** More attempts than this are not made with one kind of change: each is an evaluation. */
const MOST_ATTEMPTS = 4;

/**
 * The smallest change of each kind with which the rule finds nothing any more and no error comes.
 * @param lackDb margin that is missing in both directions, where it is known: changes that gain less are not tried
 * @returns empty where the host lends nothing to try with
 */
export function mending(
  { hop, tried }: Pick<HopContext, "hop" | "tried">,
  rule: string,
  means: readonly Means[],
  lackDb?: number,
): Mending[] {
  if (tried === undefined) return [];
  const found: Mending[] = [];
  for (const kind of means) {
    for (const change of CANDIDATES[kind](hop, tried, lackDb).slice(0, MOST_ATTEMPTS)) {
      // An antenna that is enough at one end is not proposed for both.
      if (change.kind === "antenna" && found.some((one) => isOfAntenna(one.change, change.antenna))) break;
      const attempt = tried.attempt(rule, change);
      if (!attempt?.mends || attempt.brings.length > 0) continue;
      found.push({ change, result: attempt.result });
      break;
    }
  }
  return found;
}

function isOfAntenna(change: Change, name: string): boolean {
  return change.kind === "antenna" && change.antenna === name;
}

/** @param figure what the change makes of the figure that was missed */
export function triedWords(
  found: readonly Mending[],
  figure: (result: HopResult) => string | undefined,
): string | undefined {
  if (found.length === 0) return undefined;
  const each = found.map(({ change, result }) => {
    const made = figure(result);
    return made === undefined ? changeWords(change) : `${changeWords(change)}, ${made}`;
  });
  return `Tried and enough: ${each.join("; ")}.`;
}

export function changesOf(found: readonly Mending[]): readonly Change[] | undefined {
  return found.length === 0 ? undefined : found.map(({ change }) => change);
}

/** Sentences of a help text; undefined when there is none. */
export function sentences(...parts: readonly (string | undefined)[]): string | undefined {
  const told = parts.filter((part) => part !== undefined);
  return told.length === 0 ? undefined : told.join(" ");
}

type Candidates = (hop: Hop, tried: Tried, lackDb: number | undefined) => readonly Change[];

const CANDIDATES: Readonly<Record<Means, Candidates>> = {
  "vertical polarization": (hop) =>
    hop.polarization === undefined || hop.polarization === "vertical" || radiatesBoth(hop)
      ? []
      : [{ kind: "polarization", to: "vertical" }],
  "a larger antenna at one end": (hop, { stock }, lackDb = 0) =>
    bySize(stock).flatMap((one) =>
      hop.ends
        .filter((end) => isLarger(one, end) && gainOver(one, end, hop) >= lackDb)
        .map((end) => changeAt([end], one)),
    ),
  "larger antennas at both ends": (hop, { stock }, lackDb = 0) => {
    const [a, b] = hop.ends;
    return bySize(stock)
      .filter((one) => isLarger(one, a) && isLarger(one, b))
      .filter((one) => gainOver(one, a, hop) + gainOver(one, b, hop) >= lackDb)
      .map((one) => changeAt(hop.ends, one));
  },
  "antennas with more discrimination": (hop, { stock }) =>
    bySize(stock)
      .filter((one) => hop.ends.every((end) => discriminatesMore(one, end)))
      .map((one) => changeAt(hop.ends, one)),
  "space diversity": spaceDiversity,
  "another radio": (hop, { stock }, lackDb) => otherRadios(hop, stock.radios, lackDb),
  "a lower mode": lowerModes,
};

function frequenciesHz({ ends }: Hop): number[] {
  return ends.flatMap(({ transmitFrequencyHz: hz }) => hz ?? []);
}

function bySize({ antennas }: Stock): readonly Antenna[] {
  return antennas.toSorted((a, b) => (a.diameterM ?? 0) - (b.diameterM ?? 0) || (a.name < b.name ? -1 : 1));
}

function isLarger(one: Antenna, { antenna: own }: HopEnd): boolean {
  return own !== undefined && isMore(one.diameterM, own.diameterM) && isSameKind(one, own);
}

/** At no loss of size: the level must not suffer. */
function discriminatesMore(one: Antenna, { antenna: own }: HopEnd): boolean {
  return (
    own !== undefined &&
    isMore(one.crossPolarDiscriminationDb, own.crossPolarDiscriminationDb) &&
    !isMore(own.diameterM, one.diameterM) &&
    isSameKind(one, own)
  );
}

function isMore(one: number | undefined, own: number | undefined): boolean {
  return one !== undefined && own !== undefined && one > own;
}

/** One for two bands hangs with another hop; one polarization is no replacement for two. */
function isSameKind(one: Antenna, own: Antenna): boolean {
  return (
    one.mount?.secondBand === undefined &&
    own.mount?.secondBand === undefined &&
    (own.polarizations !== "dual" || one.polarizations === "dual")
  );
}

/** What an antenna gains over that of an end at the worse of the hop's frequencies, dB. */
function gainOver(one: Antenna, { antenna }: HopEnd, hop: Hop): number {
  const each = frequenciesHz(hop).map((hz) => {
    const [a, b] = [antennaGain(one, hz), antenna && antennaGain(antenna, hz)];
    return a === undefined || b === undefined ? Number.NEGATIVE_INFINITY : a.gainDbi - b.gainDbi;
  });
  return Math.min(...each);
}

function changeAt(ends: readonly HopEnd[], { name }: Antenna): Change {
  return { kind: "antenna", sites: ends.map(({ site }) => site.name), antenna: name };
}

/** 150 to 200 wavelengths are a customary least spacing: the larger, to a whole metre. Common practice. */
const SPACING_WAVELENGTHS = 200;

/** A second antenna like the first at each end, below it where there is room, else above. */
function spaceDiversity(hop: Hop): Change[] {
  if (withSpaceDiversity(hop) === undefined) return [];
  const frequencies = frequenciesHz(hop);
  if (frequencies.length === 0) return [];
  const spacingM = Math.ceil((SPACING_WAVELENGTHS * SPEED_OF_LIGHT_M_PER_S) / Math.min(...frequencies));
  const second = hop.ends.flatMap(({ site, antenna, antennaHeightM }) => {
    if (antenna === undefined || antennaHeightM === undefined) return [];
    const radiusM = (antenna.diameterM ?? 0) / 2;
    const below = antennaHeightM - spacingM;
    const above = antennaHeightM + spacingM;
    const heightM =
      below >= Math.max(radiusM, 2) ? below : above <= (site.structure?.heightM ?? 0) ? above : undefined;
    return heightM === undefined ? [] : [{ site: site.name, antenna: antenna.name, heightM }];
  });
  return second.length < 2 ? [] : [{ kind: "space-diversity", second }];
}

/** Those that have the modes in use, the smallest improvement of the judged one first. */
function otherRadios(hop: Hop, radios: readonly Radio[], lackDb = Number.NEGATIVE_INFINITY): Change[] {
  const own = askedMode(hop);
  return radios
    .flatMap((radio) => {
      const modes = radio.name === hop.radio?.name ? undefined : counterparts(hop.modes, radio);
      if (modes === undefined) return [];
      return [{ radio, betterDb: systemGainDb(modes[hop.modes.indexOf(own!)]) - systemGainDb(own) }];
    })
    .filter(({ betterDb }) => Number.isNaN(betterDb) || betterDb >= lackDb)
    .toSorted((a, b) => a.betterDb - b.betterDb || (a.radio.name < b.radio.name ? -1 : 1))
    .map(({ radio }) => ({ kind: "radio", radio: radio.name }));
}

/** What lies between power and threshold; NaN where one is not stated. */
function systemGainDb(mode: RadioMode | undefined): number {
  return (mode?.transmitPowerDbm ?? Number.NaN) - (mode?.thresholdDbm ?? Number.NaN);
}

/** From just below the lowest in use on, as long as the capacity asked for is carried. */
function lowerModes(hop: Hop, _tried: Tried, lackDb = 0): Change[] {
  const { radio, modes, objective, arrangement } = hop;
  const [lowest, highest] = [modes[0], modes.at(-1)];
  if (radio === undefined || lowest === undefined || highest === undefined) return [];
  const { bandwidthHz } = lowest;
  if (modes.some((mode) => mode.bandwidthHz !== bandwidthHz)) return [];
  const all = modesOfWidth(radio, bandwidthHz);
  const below = all.slice(
    0,
    all.findIndex(({ modulation }) => modulation === lowest.modulation),
  );
  const carried = (mode: RadioMode) => carriers(arrangement.name) * (mode.bitRateBps ?? 0);
  return below
    .toReversed()
    .filter((mode) => objective?.capacityBps === undefined || carried(mode) >= objective.capacityBps)
    .filter((mode) => !(systemGainDb(mode) - systemGainDb(lowest) < lackDb))
    .map(({ modulation }) => ({
      kind: "modes",
      bandwidthHz,
      lowest: modulation,
      highest: highest.modulation,
    }));
}
