import { type Address, address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import { branchesAt, FURTHER, feedersStated, type Stand, standsOf } from "../equipment/stands.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { type FactCode, type FactName, STEPS, type Step } from "./account/lack.js";
import { missing, type Trace } from "./account/trace.js";
import { capacityVerdict } from "./level/judged-mode.js";
import { radiatesBoth } from "./level/polarization.js";
import { zoneFrequencyHz } from "./path/criteria.js";

/** A fact that the design does not state yet and that a budget cannot do without. */
export interface MissingFact {
  readonly fact: FactName;
  /** Where it would stand. */
  readonly at: Address;
  /** What cannot be computed without it. */
  readonly of: readonly Step[];
}

/** What comes out otherwise at another frequency. */
const OF_FREQUENCY: readonly Step[] = ["zone", "level", "rain", "multipath", "standby"];

const OF_MODE: readonly Step[] = ["level", "threshold", "capacity"];

/**
 * Facts of a hop that are still to be written, in the order in which an engineer decides them. Climate,
 * terrain and objective are not among them: they have findings of their own.
 */
export function missingFacts(hop: Hop): readonly MissingFact[] {
  const facts: MissingFact[] = [];
  const lacks = (code: FactCode, of: readonly Step[], ...steps: string[]) =>
    facts.push({ fact: { code }, of, at: address("hop", hop.name, ...steps) });
  const lacksAt = (site: string, code: FactCode, of: readonly Step[], step: string) =>
    facts.push({ fact: { code, site }, of, at: address("hop", hop.name, site, step) });
  const zone: readonly Step[] = zoneFrequencyHz(hop) === undefined ? ["zone"] : [];

  for (const end of hop.ends) {
    if (end.site.position === undefined) {
      const at = address("site", end.site.name, "at");
      facts.push({ fact: { code: "position", site: end.site.name }, of: ["path"], at });
    }
  }
  if (hop.radio === undefined) lacks("radio", ["level", "threshold", "capacity", ...zone], "radio");
  else if (hop.modes.length === 0 && !hop.channelUnknown) lacks("mode", OF_MODE, "mode");
  for (const end of hop.ends) {
    // A half of a channel that no plan has: the channel itself was told already.
    const ofChannel = hop.channelUnknown && end.transmits !== undefined;
    if (end.transmitFrequencyHz === undefined && !ofChannel) {
      lacksAt(end.site.name, "transmit-frequency", ["level", ...zone], "transmits");
    }
  }
  if (hop.polarization === undefined && !radiatesBoth(hop)) lacks("polarization", ["rain"], "polarization");
  for (const end of hop.ends) {
    const name = end.site.name;
    if (end.antenna === undefined) lacksAt(name, "antenna", ["level"], "antenna");
    if (end.antennaHeightM === undefined) lacksAt(name, "antenna-height", ["heights"], "antenna.at");
    for (const { lengthM, fact } of feedersStated(end))
      if (lengthM === undefined) lacksAt(name, "feeder-length", ["level"], `${fact}.length`);
  }
  return facts;
}

/** What is stated and cannot be used is told as such, and is not missing. */
function notStated({ unusable = [] }: Hop, facts: readonly MissingFact[]): readonly MissingFact[] {
  if (unusable.length === 0) return facts;
  return facts.filter(({ fact: { site }, at }) => {
    // For example `hop KELD-TARN / TARN / antenna.at`; several modes are stated by another word than one.
    const word = at.split(" / ").at(-1)!.split(".")[0];
    return !unusable.some(
      (one) => one.site === site && (one.fact === word || (word === "mode" && one.fact === "modes")),
    );
  });
}

/** Of an arrangement with further antennas: those that units lack, and heights of those that they hang on. */
function missingOfFurther(hop: Hop): readonly MissingFact[] {
  const { name, objective, ends } = hop;
  return ends.flatMap((end): MissingFact[] => {
    const facts = factsAt(hop, end);
    if (facts === undefined || facts.transceivers === 1 || end.antenna === undefined) return [];
    const site = end.site.name;
    const stands = standsOf(end, facts);
    const units = branchesAt(end, facts).map(({ antenna: at }, unit) => ({
      at,
      // What only a switched unit needs is missed where something is asked of it.
      step: facts.hotStandby && unit % 2 === 1 ? ("standby" as const) : ("level" as const),
    }));
    const lacking = (isLacking: (stand: Stand | undefined) => boolean, more: readonly Step[] = []) => {
      const steps = units.filter(({ at }) => at > 1 && isLacking(stands[at - 1])).map(({ step }) => step);
      const told = objective === undefined ? steps.filter((step) => step === "level") : steps;
      return told.length === 0 ? [] : [...new Set([...told, ...more])];
    };
    const hole = stands.find(({ antenna }) => antenna === undefined)?.fact;
    const next = FURTHER[stands.length - 1];
    // With all of them stated a unit still lacks a place at one.
    const further = facts.spaceDiversity
      ? "diversity-antenna"
      : (hole ?? (next === undefined ? stands.at(-1)!.fact : `${next}-antenna`));
    const antennas = lacking((stand) => stand?.antenna === undefined);
    const lacksHeight = (stand: Stand | undefined) =>
      stand?.antenna !== undefined && stand.heightM === undefined;
    const heights = lacking(lacksHeight, ["further antennas"]);
    // The height of the first is a fact of its own.
    const low = stands.slice(1).find(lacksHeight);
    const lack = (code: FactCode, property: string, of: readonly Step[]) =>
      of.length === 0
        ? []
        : [{ fact: { code, site, property }, of, at: address("hop", name, site, property) }];
    return [
      ...lack("further-antenna", further, antennas),
      ...(low === undefined ? [] : lack("further-antenna-height", low.fact, heights)),
    ];
  });
}

/** A carrier or a unit on standby may hang there. */
const FURTHER_STEPS: readonly Step[] = ["level", "standby", "further antennas"];

/** What the facts of a hop and of its ends go into; others spoil no figure. */
const STEPS_WITH: Readonly<Record<string, readonly Step[] | undefined>> = {
  at: ["path"],
  radio: ["level", "standby", "threshold", "capacity", "zone"],
  mode: ["level", "threshold", "capacity"],
  modes: ["level", "threshold", "capacity"],
  arrangement: ["level", "standby", "capacity"],
  climate: ["level", "standby", "rain", "multipath"],
  polarization: ["rain"],
  "measured-rain": ["rain"],
  degradation: ["threshold"],
  obstacle: ["profile"],
  antenna: ["heights", "level"],
  height: ["heights"],
  "diversity-antenna": FURTHER_STEPS,
  ...Object.fromEntries(
    FURTHER.flatMap((which) =>
      ["antenna", "coupler", "feeder"].map((what) => [`${which}-${what}`, FURTHER_STEPS]),
    ),
  ),
  coupler: ["level", "standby"],
  feeder: ["level", "standby"],
  mounting: ["level", "standby"],
  "extra-loss": ["level", "standby"],
  power: ["level", "standby"],
  transmits: ["level", "zone"],
};

/**
 * Tells what the design itself lacks.
 * @param beyond what of it was left out, since it cannot be believed
 */
export function missInputs(hop: Hop, beyond: readonly string[], trace: Trace): void {
  for (const what of beyond)
    missing(trace, { code: "beyond reason", of: STEPS, reason: { code: "beyond-reason", what } });
  for (const { fact, at, of } of notStated(hop, [...missingFacts(hop), ...missingOfFurther(hop)]))
    missing(trace, { code: "fact", of, reason: { code: "not-stated" }, fact, at });
  for (const { fact, site, open, inherited } of hop.unusable ?? []) {
    const of = STEPS_WITH[fact];
    const reason = { code: "unusable", property: fact, site, open } as const;
    if (of) missing(trace, { code: "unusable", of, reason, told: inherited ? undefined : true });
  }
  if (hop.openChannel !== undefined) {
    const { number, count } = hop.openChannel;
    missing(trace, {
      code: "channel open",
      of: OF_FREQUENCY,
      reason: { code: "channel-open", number, count },
      at: address("hop", hop.name, "channel"),
    });
  }
  if (hop.channelUnknown) {
    const told = hop.unusable?.some(({ fact, inherited }) => fact === "channel" && inherited)
      ? undefined
      : true;
    // Which modes a hop has that states none, the width of its channel says.
    const of: readonly Step[] = ["level", "zone", ...(hop.modes.length === 0 ? OF_MODE : [])];
    missing(trace, { code: "fact", of: [...new Set(of)], reason: { code: "channel-unknown" }, told });
  }
  if (capacityVerdict(hop) !== "open") return;
  for (const { modulation, bitRateBps } of hop.modes) {
    const reason = { code: "mode-without-rate", modulation } as const;
    if (bitRateBps === undefined) missing(trace, { code: "catalogue", of: ["capacity"], reason });
  }
}
