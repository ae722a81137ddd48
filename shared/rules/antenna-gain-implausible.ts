import { address, nth } from "../design/address.js";
import type { Antenna } from "../design/catalogue.js";
import { antennasStated } from "../equipment/stands.js";
import { apart, dbi, frequency, metres, trimmed } from "../format/numbers.js";
import { parabolicGainDbi } from "../radio/antenna-gain.js";
import { usedFrequenciesHz } from "../radio/used-frequencies.js";
import { exampleHop } from "./example-preamble.js";
import { gathering, type Report } from "./rule.js";

/** Below this share of the aperture a figure is hardly that of a dish: usual are 50 to 65 %. */
const LEAST_EFFICIENCY = 0.3;

export const antennaGainImplausible = gathering<readonly InUse[]>({
  scope: "network",
  id: "antenna-gain-implausible",
  severity: "error",
  title: "A gain and a diameter must be of one antenna",
  checks:
    "Each stated gain of an antenna in use, stated or inherited, against its diameter: more than the whole aperture gives is an error, less than 30 % of it a warning. A gain without a frequency counts at those of the hops.",
  why: "A gain of another size or frequency makes the level wrong at both ends, and the pattern with it. It is often inherited together with all the rest where only the diameter was changed.",
  fix: "Look gain and diameter up again; an antenna of another size states its own gain.",
  source:
    "aperture theory: 10 lg (pi D / lambda)^2; the 30 % are our own limit, usual are 50 to 65 % (common practice)",
  good: exampleHop(),
  bad: `antenna DISH30-18 like DISH60-18 {\n  diameter 0.3 m\n}\n\n${exampleHop({
    keld: "antenna DISH30-18 at 40 m\n    transmits high",
  })}`,
  each: "hop",
  note(hop) {
    const told: InUse[] = [];
    for (const { antenna } of hop.ends.flatMap(antennasStated)) {
      if (antenna === undefined || told.some((one) => one.antenna === antenna)) continue;
      // Only a gain that holds everywhere has to be held against every hop.
      if (antenna.gain.some(({ frequencyHz }) => frequencyHz === undefined))
        told.push({ antenna, usedHz: rangeOf(usedFrequenciesHz(hop)) });
      else if (impossibleAnywhere(antenna) !== undefined) told.push({ antenna, usedHz: undefined });
    }
    return told.length === 0 ? undefined : told;
  },
  tell(noted, { report }) {
    const inUse = new Map<string, InUse>();
    for (const { antenna, usedHz } of noted.flatMap(({ note }) => note)) {
      const known = inUse.get(antenna.name);
      const all = rangeOf([...(known?.usedHz ?? []), ...(usedHz ?? [])]);
      inUse.set(antenna.name, { antenna: known?.antenna ?? antenna, usedHz: all });
    }
    for (const { antenna, usedHz } of inUse.values()) {
      const told = implausible(antenna, usedHz);
      if (told !== undefined) report(told);
    }
  },
});

interface InUse {
  readonly antenna: Antenna;
  /** Lowest and highest frequency that it is used at. */
  readonly usedHz: readonly [number, number] | undefined;
}

const judged = new WeakMap<Antenna, Report | undefined>();

/** Of an antenna that states frequencies with all its gains, whatever it is used at; each is judged once. */
function impossibleAnywhere(antenna: Antenna): Report | undefined {
  if (!judged.has(antenna)) judged.set(antenna, implausible(antenna, undefined));
  return judged.get(antenna);
}

function rangeOf(frequenciesHz: readonly number[]): readonly [number, number] | undefined {
  return frequenciesHz.length === 0 ? undefined : [Math.min(...frequenciesHz), Math.max(...frequenciesHz)];
}

function implausible({ name, diameterM, gain }: Antenna, usedHz: InUse["usedHz"]): Report | undefined {
  if (diameterM === undefined || !(diameterM > 0)) return undefined;
  const points = gain.flatMap(({ gainDbi, frequencyHz }, index) =>
    // A plan that is mistyped puts its channels anywhere.
    (frequencyHz === undefined ? (usedHz ?? []).filter((hz) => hz > 0) : [frequencyHz]).map((hz) => {
      const mostDbi = parabolicGainDbi(diameterM, hz, 1);
      return { index, gainDbi, hz, mostDbi, overDb: gainDbi - mostDbi };
    }),
  );
  const greatest = points.toSorted((a, b) => b.overDb - a.overDb)[0];
  const least = points.toSorted((a, b) => a.overDb - b.overDb)[0];
  if (greatest === undefined || least === undefined) return undefined;
  const at = (index: number) => address("antenna", name, nth("gain", index));
  const related = [{ at: address("antenna", name, "diameter"), message: `diameter of ${name}` }];
  if (greatest.overDb > ROUNDING_DB) {
    const [stated, most] = apart(dbi, greatest.gainDbi, greatest.mostDbi);
    return {
      at: at(greatest.index),
      message: `${name} states ${stated} at ${frequency(greatest.hz)}; a dish of ${metres(diameterM)} has ${most} at most`,
      related,
    };
  }
  if (least.overDb >= 10 * Math.log10(LEAST_EFFICIENCY) - ROUNDING_DB) return undefined;
  const share = trimmed(100 * 10 ** (least.overDb / 10), 1);
  return {
    at: at(least.index),
    message: `${name} states ${dbi(least.gainDbi)} at ${frequency(least.hz)}, ${share} % of the ${dbi(least.mostDbi)} that a dish of ${metres(diameterM)} can have; is it of another size?`,
    severity: "warning",
    related,
  };
}

/** What binary fractions make of a figure that lies on the limit. */
const ROUNDING_DB = 1e-9;
