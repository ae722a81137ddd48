/** Catalogue entries, sites, objectives and climates: from facts to the plain data of the design. */
import type { Antenna, Coupler, Feeder, Radio, RadioMode } from "../../shared/design/catalogue.js";
import type { Climate } from "../../shared/design/climate.js";
import type { Site } from "../../shared/design/design.js";
import type { Objective } from "../../shared/design/objective.js";
import { bandwidth } from "../../shared/format/numbers.js";
import type { ChannelPlan } from "../../shared/spectrum/channel-plans.data.js";
import {
  type Argument,
  argument,
  type Fact,
  factNamed,
  factsNamed,
  numberOf,
  quantityOf,
  wordOf,
} from "../facts/fact.js";
import { stateOf } from "../facts/states.js";
import type { Declaration } from "../model/source-file.js";
import { unitOf } from "./equipment.js";
import { entriesOf, fieldsOf, type Names } from "./fields.js";
import { ascends, isOf, patternFileOf, withSpectra } from "./interference.js";
import type { Lookup } from "./lookup.js";
import { named, unlessEmpty } from "./stated.js";

export function siteOf(entry: Declaration, facts: readonly Fact[], names: Names): Site {
  const stated = fieldsOf("site", facts, names);
  const placed = argument(factNamed(facts, "at"), "position");
  return {
    ...named(entry),
    state: stateOf(entry.fact),
    ...stated,
    ...(placed !== undefined && stated.position === undefined && { positionUnreadable: true as const }),
    ...gridOf(placed),
  };
}

function gridOf(placed: Argument | undefined): Pick<Site, "gridEpsg"> {
  const system = placed?.value?.type === "position" ? placed.value.system : undefined;
  return system === undefined ? {} : { gridEpsg: system.epsg };
}

export function radioOf(entry: Declaration, facts: readonly Fact[], names: Names): Radio {
  return {
    ...named(entry),
    ...fieldsOf("radio", facts, names),
    ...modesWithMore(facts, names),
    unit: unitOf(facts, names),
  };
}

/** Modes with what signatures, dispersive margins and spectra say of them; these name modes by width and modulation. */
function modesWithMore(facts: readonly Fact[], names: Names): Pick<Radio, "modes" | "unknownModes"> {
  const modes = withSpectra(entriesOf("mode", facts, "mode", names), facts, names);
  const said = facts.filter(({ property }) => /^(signature|dispersive-margin|spectrum)$/.test(property.name));
  if (said.length === 0) return { modes };
  const unknown = new Set<string>();
  for (const fact of said) {
    const bandwidthHz = quantityOf(fact, "bandwidth");
    const modulation = wordOf(fact, "modulation");
    if (fact.property.name === "spectrum") {
      const names = [bandwidthHz === undefined ? [] : bandwidth(bandwidthHz), modulation ?? []].flat();
      if (!modes.some((mode) => isOf(mode, { widthHz: bandwidthHz, modulation })) && names.length > 0)
        unknown.add(names.join(" "));
      continue;
    }
    if (bandwidthHz === undefined || modulation === undefined) continue;
    const at = modes.findIndex(
      (mode) => Math.abs(mode.bandwidthHz - bandwidthHz) < 1000 && mode.modulation === modulation,
    );
    if (at < 0) unknown.add(`${bandwidth(bandwidthHz)} ${modulation}`);
    else modes[at] = { ...modes[at]!, ...dispersionOf(fact) };
  }
  return unknown.size === 0 ? { modes } : { modes, unknownModes: [...unknown] };
}

/** Delay of the two-ray channel that signatures are customarily measured with, ns. */
const CUSTOMARY_DELAY_NS = 6.3;

function dispersionOf(fact: Fact): Pick<RadioMode, "signature" | "dispersiveMarginDb"> {
  if (fact.property.name === "dispersive-margin") return { dispersiveMarginDb: quantityOf(fact, "value") };
  const widthHz = quantityOf(fact, "width");
  const depthDb = quantityOf(fact, "depth");
  if (widthHz === undefined || depthDb === undefined) return {};
  return {
    signature: { widthHz, depthDb, referenceDelayNs: quantityOf(fact, "delay") ?? CUSTOMARY_DELAY_NS },
  };
}

export function antennaOf(
  entry: Declaration,
  facts: readonly Fact[],
  names: Names & Pick<Lookup, "declaration">,
): Antenna {
  const pattern = entriesOf("pattern", facts, "pattern", names);
  const patternFile = patternFileOf(entry, facts, names);
  return {
    ...named(entry),
    ...fieldsOf("antenna", facts, names),
    gain: byFrequency(entriesOf("gain", facts, "gain", names)),
    mount: unlessEmpty(fieldsOf("mount", facts, names)),
    pattern: pattern.toSorted((a, b) => a.angleDeg - b.angleDeg),
    ...(!ascends(pattern.map(({ angleDeg }) => angleDeg)) && { patternOutOfOrder: true as const }),
    ...(patternFile !== undefined && { patternFile }),
  };
}

export function couplerOf(entry: Declaration, facts: readonly Fact[], names: Names): Coupler {
  return { ...named(entry), ...fieldsOf("coupler", facts, names) };
}

export function feederOf(entry: Declaration, facts: readonly Fact[], names: Names): Feeder {
  return {
    ...named(entry),
    ...fieldsOf("feeder", facts, names),
    line: unlessEmpty(fieldsOf("line", facts, names)),
    loss: byFrequency(entriesOf("loss", facts, "loss", names)),
  };
}

export function objectiveOf(entry: Declaration, facts: readonly Fact[], names: Names): Objective {
  const ofDiversity = factNamed(facts, "diversity-clearance") !== undefined;
  return {
    ...named(entry),
    ...fieldsOf("objective", facts, names),
    clearance: entriesOf("criterion", facts, "clearance", names),
    diversityClearance: ofDiversity ? entriesOf("criterion", facts, "diversity-clearance", names) : undefined,
  };
}

/** A climate on top of another: what is stated here overrides, fact by fact. */
export function climateOf(facts: readonly Fact[], base: Climate, names: Names): Climate {
  const stated = fieldsOf("climate", facts, names);
  const rainTimePercent = factNamed(facts, "rain") ? (stated.rainTimePercent ?? 0.01) : undefined;
  const known = Object.entries({ ...stated, rainTimePercent }).filter(([, value]) => value !== undefined);
  return { ...base, ...Object.fromEntries(known) };
}

export function planOf(entry: Declaration): ChannelPlan | undefined {
  const centreHz = quantityOf(factNamed(entry.fact.facts, "centre"), "frequency");
  if (centreHz === undefined) return undefined;
  const rows = factsNamed(entry.fact.facts, "row").flatMap((fact) => {
    const width = quantityOf(fact, "width");
    const go = quantityOf(fact, "go");
    const back = quantityOf(fact, "return");
    const first = numberOf(fact, "channels");
    const last = numberOf(fact, "to");
    if (
      width === undefined ||
      go === undefined ||
      back === undefined ||
      first === undefined ||
      last === undefined
    )
      return [];
    const step = quantityOf(fact, "step") ?? width;
    return [
      {
        widthMHz: width / 1e6,
        stepMHz: step / 1e6,
        goMHz: go / 1e6,
        returnMHz: back / 1e6,
        first,
        last,
        standing: "stated" as const,
      },
    ];
  });
  return {
    id: entry.name,
    band: "",
    documents: ["stated in the design"],
    referenceMHz: centreHz / 1e6,
    rows,
  };
}

/** Ascending; a point without a frequency holds everywhere. */
function byFrequency<T extends { readonly frequencyHz?: number }>(points: readonly T[]): readonly T[] {
  return points.toSorted((a, b) => (a.frequencyHz ?? 0) - (b.frequencyHz ?? 0));
}
