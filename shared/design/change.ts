/**
 * A change of what a hop decides, as data: a finding proposes it, the judge has tried it on a copy, the language writes
 * it into the text.
 */
import { metres, trimmed } from "../format/numbers.js";
import type { Antenna, Coupler, Radio, RadioMode } from "./catalogue.js";
import type { Hop, HopEnd, Polarization } from "./design.js";
import type { FrequencyRange } from "./frequency-range.js";

/** Equipment of the catalogue that could stand in for a hop's own; templates are not in it. */
export interface Stock {
  readonly antennas: readonly Antenna[];
  readonly radios: readonly Radio[];
  readonly couplers: readonly Coupler[];
}

/** What of a stock is for the frequencies of a hop. What states no range is not in it: nobody knows whether it suits. */
export function suiting({ antennas, radios, couplers }: Stock, hop: Hop): Stock {
  const frequencies = hop.ends.flatMap(({ transmitFrequencyHz: hz }) => hz ?? []);
  const covers = (range: FrequencyRange | undefined) =>
    range !== undefined &&
    frequencies.length > 0 &&
    frequencies.every((hz) => range.fromHz <= hz && hz <= range.toHz);
  return {
    antennas: antennas.filter(({ band }) => covers(band)),
    radios: radios.filter(({ tuning }) => covers(tuning)),
    couplers: couplers.filter(({ band }) => covers(band)),
  };
}

export type Change =
  | { readonly kind: "polarization"; readonly to: Polarization }
  /** The same antenna at one end or at both. */
  | { readonly kind: "antenna"; readonly sites: readonly string[]; readonly antenna: string }
  | { readonly kind: "radio"; readonly radio: string }
  /** Modes of the radio in use, in the width that they have already. */
  | {
      readonly kind: "modes";
      readonly bandwidthHz: number;
      readonly lowest: string;
      readonly highest: string;
    }
  | { readonly kind: "space-diversity"; readonly second: readonly SecondAntenna[] }
  /** Transmit power of an end, in every mode. */
  | { readonly kind: "power"; readonly site: string; readonly powerDbm: number };

interface SecondAntenna {
  readonly site: string;
  readonly antenna: string;
  readonly heightM: number;
}

/**
 * What one carrier becomes with a second antenna and a standby unit at each end; undefined where there is no such
 * arrangement, or an end has one of its own, which somebody chose.
 */
export function withSpaceDiversity({ arrangement, ends }: Hop): string | undefined {
  if (ends.some((end) => end.arrangement !== undefined)) return undefined;
  return WITH_SPACE_DIVERSITY.get(arrangement.name);
}

const WITH_SPACE_DIVERSITY: ReadonlyMap<string, string> = new Map([
  ["1+0", "1+1 space-diversity"],
  ["all-indoor 1+0", "all-indoor 1+1 space-diversity"],
]);

/** The hop with a change; undefined where the stock has not what it takes, or the hop has no place for it. */
export function withChange(hop: Hop, change: Change, { antennas, radios }: Stock): Hop | undefined {
  switch (change.kind) {
    case "polarization":
      return { ...hop, polarization: change.to };
    case "antenna": {
      const antenna = antennas.find(({ name }) => name === change.antenna);
      return antenna && atEnds(hop, change.sites, () => ({ antenna }));
    }
    case "radio": {
      const radio = radios.find(({ name }) => name === change.radio);
      const modes = radio && counterparts(hop.modes, radio);
      return modes && { ...hop, radio, modes };
    }
    case "modes": {
      const modes = modesBetween(hop, change);
      return modes && { ...hop, modes };
    }
    case "space-diversity": {
      const name = withSpaceDiversity(hop);
      if (name === undefined) return undefined;
      const second = new Map(change.second.map((one) => [one.site, one]));
      const sites = [...second.keys()];
      return {
        ...atEnds(hop, sites, ({ antenna, site }) => ({
          diversityAntenna: antenna,
          diversityHeightM: second.get(site.name)!.heightM,
        })),
        arrangement: { name },
      };
    }
    case "power":
      return atEnds(hop, [change.site], () => ({ transmitPowerDbm: change.powerDbm }));
  }
}

function atEnds(hop: Hop, sites: readonly string[], change: (end: HopEnd) => Partial<HopEnd>): Hop {
  const changed = (end: HopEnd) => (sites.includes(end.site.name) ? { ...end, ...change(end) } : end);
  return { ...hop, ends: [changed(hop.ends[0]), changed(hop.ends[1])] };
}

/** The same modes of another radio; undefined when it lacks one. */
export function counterparts(modes: readonly RadioMode[], radio: Radio): readonly RadioMode[] | undefined {
  const found = modes.map((mode) => radio.modes.find((one) => isSame(one, mode)));
  return found.every((mode) => mode !== undefined) ? found : undefined;
}

function isSame(a: RadioMode, b: RadioMode): boolean {
  return a.modulation === b.modulation && Math.abs(a.bandwidthHz - b.bandwidthHz) < 1000;
}

/** Modes of the radio in one width, lowest rate first. */
export function modesOfWidth({ modes }: Radio, bandwidthHz: number): readonly RadioMode[] {
  return modes
    .filter((mode) => Math.abs(mode.bandwidthHz - bandwidthHz) < 1000)
    .toSorted((a, b) => (a.bitRateBps ?? 0) - (b.bitRateBps ?? 0));
}

function modesBetween(
  { radio }: Hop,
  { bandwidthHz, lowest, highest }: Extract<Change, { kind: "modes" }>,
): readonly RadioMode[] | undefined {
  const all = radio === undefined ? [] : modesOfWidth(radio, bandwidthHz);
  const [from, to] = [lowest, highest].map((name) => all.findIndex(({ modulation }) => modulation === name));
  return from! < 0 || to! < 0 ? undefined : all.slice(from, to! + 1);
}

/** As it is told: `antenna DISH120-18 at KELD`. */
export function changeWords(change: Change): string {
  switch (change.kind) {
    case "polarization":
      return `${change.to} polarization`;
    case "antenna":
      return `antenna ${change.antenna} at ${change.sites.join(" and ")}`;
    case "radio":
      return `radio ${change.radio}`;
    case "modes":
      return modesStatement(change);
    case "space-diversity": {
      const at = change.second.map(({ site, heightM }) => `${metres(heightM)} at ${site}`);
      return `space diversity with a second antenna at ${at.join(" and ")}`;
    }
    case "power":
      return `power ${trimmed(change.powerDbm, 1)} dBm at ${change.site}`;
  }
}

/** As the language writes it: `modes 55 MHz QPSK to 128QAM`. */
export function modesStatement({ bandwidthHz, lowest, highest }: Extract<Change, { kind: "modes" }>): string {
  const width = `${trimmed(bandwidthHz / 1e6, 3)} MHz`;
  return lowest === highest ? `mode ${width} ${lowest}` : `modes ${width} ${lowest} to ${highest}`;
}
