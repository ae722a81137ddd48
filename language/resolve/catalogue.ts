/** Catalogue entries, sites, objectives and climates: from facts to the plain data of the design. */
import type {
  Antenna,
  AvailabilityClass,
  Climate,
  Coupler,
  CouplerKind,
  Feeder,
  Objective,
  QualityShare,
  Radio,
  RadioMode,
  Site,
} from "../../shared/design/design.js";
import { bandwidth } from "../../shared/format/numbers.js";
import type { ChannelPlan } from "../../shared/spectrum/channel-plans.data.js";
import {
  argument,
  type Fact,
  factNamed,
  factsNamed,
  numberOf,
  positionOf,
  quantityOf,
  wordOf,
} from "../facts/fact.js";
import { stateOf } from "../facts/states.js";
import type { Declaration } from "../model/source-file.js";
import { lineOf, mountOf, unitOf } from "./equipment.js";
import { rangeOf } from "./ranges.js";

export function siteOf(entry: Declaration, facts: readonly Fact[]): Site {
  const at = argument(factNamed(facts, "at"), "position");
  const position = positionOf(factNamed(facts, "at"), "position");
  const structure = factNamed(facts, "structure");
  const kind = wordOf(structure, "kind");
  const heightM = quantityOf(structure, "height");
  return {
    ...named(entry),
    state: stateOf(entry.fact),
    position,
    ...(at !== undefined && position === undefined && { positionUnreadable: true as const }),
    groundM: quantityOf(factNamed(facts, "ground"), "level"),
    structure: kind !== undefined && heightM !== undefined ? { kind, heightM } : undefined,
  };
}

export function radioOf(entry: Declaration, facts: readonly Fact[]): Radio {
  return {
    ...named(entry),
    tuning: rangeOf(factNamed(facts, "tuning")),
    lowHalf: rangeOf(factNamed(facts, "low-half")),
    highHalf: rangeOf(factNamed(facts, "high-half")),
    duplexSpacingHz: quantityOf(factNamed(facts, "duplex"), "spacing"),
    noiseFigureDb: quantityOf(factNamed(facts, "noise-figure"), "value"),
    overloadDbm: quantityOf(factNamed(facts, "overload"), "level"),
    xpicGainDb: quantityOf(factNamed(facts, "xpic-gain"), "value"),
    hysteresisDb: quantityOf(factNamed(facts, "hysteresis"), "value"),
    mtbfHours: quantityOf(factNamed(facts, "mtbf"), "value"),
    switchOverHours: quantityOf(factNamed(facts, "switch-over"), "value"),
    ...modesWithDispersion(facts),
    unit: unitOf(facts),
  };
}

/** Modes with what signatures and dispersive margins say of them; either names its mode by width and modulation. */
function modesWithDispersion(facts: readonly Fact[]): Pick<Radio, "modes" | "unknownModes"> {
  const modes = factsNamed(facts, "mode").flatMap((fact) => modeOf(fact) ?? []);
  const said = facts.filter(({ property }) => /^(signature|dispersive-margin)$/.test(property.name));
  if (said.length === 0) return { modes };
  const unknown = new Set<string>();
  for (const fact of said) {
    const bandwidthHz = quantityOf(fact, "bandwidth");
    const modulation = wordOf(fact, "modulation");
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

function modeOf(fact: Fact): RadioMode | undefined {
  const bandwidthHz = quantityOf(fact, "bandwidth");
  const modulation = wordOf(fact, "modulation");
  if (bandwidthHz === undefined || modulation === undefined) return undefined;
  return {
    bandwidthHz,
    modulation,
    bitRateBps: quantityOf(fact, "rate"),
    transmitPowerDbm: quantityOf(fact, "power"),
    thresholdDbm: quantityOf(fact, "threshold"),
    requiredSnrDb: quantityOf(fact, "snr"),
  };
}

export function antennaOf(entry: Declaration, facts: readonly Fact[]): Antenna {
  const polarizations = wordOf(factNamed(facts, "polarizations"), "value");
  return {
    ...named(entry),
    band: rangeOf(factNamed(facts, "band")),
    diameterM: quantityOf(factNamed(facts, "diameter"), "value"),
    gain: pointsOf(facts, "gain", (gainDbi, frequencyHz) => ({ gainDbi, frequencyHz })),
    beamwidthDeg: quantityOf(factNamed(facts, "beamwidth"), "value"),
    frontToBackDb: quantityOf(factNamed(facts, "front-to-back"), "value"),
    crossPolarDiscriminationDb: quantityOf(factNamed(facts, "xpd"), "value"),
    polarizations: polarizations === "dual" ? "dual" : polarizations === "single" ? "single" : undefined,
    mount: mountOf(facts),
    pattern: factsNamed(facts, "pattern")
      .flatMap((fact) => {
        const angleDeg = quantityOf(fact, "angle");
        const copolarDb = quantityOf(fact, "below");
        if (angleDeg === undefined || copolarDb === undefined) return [];
        return [{ angleDeg, copolarDb, crossPolarDb: quantityOf(fact, "cross") }];
      })
      .sort((a, b) => a.angleDeg - b.angleDeg),
  };
}

export function couplerOf(entry: Declaration, facts: readonly Fact[]): Coupler {
  return {
    ...named(entry),
    kind: wordOf(factNamed(facts, "kind"), "value") as CouplerKind | undefined,
    band: rangeOf(factNamed(facts, "band")),
    mainLossDb: quantityOf(factNamed(facts, "main-loss"), "value"),
    standbyLossDb: quantityOf(factNamed(facts, "standby-loss"), "value"),
    transmitLossDb: quantityOf(factNamed(facts, "transmit-loss"), "value"),
    isolationDb: quantityOf(factNamed(facts, "isolation"), "value"),
    interface: wordOf(factNamed(facts, "interface"), "name"),
    weightKg: quantityOf(factNamed(facts, "weight"), "mass"),
  };
}

export function feederOf(entry: Declaration, facts: readonly Fact[]): Feeder {
  return {
    ...named(entry),
    kind: wordOf(factNamed(facts, "kind"), "value"),
    band: rangeOf(factNamed(facts, "band")),
    interface: wordOf(factNamed(facts, "interface"), "name"),
    guide: wordOf(factNamed(facts, "guide"), "size"),
    line: lineOf(facts),
    loss: pointsOf(facts, "loss", (lossDbPerM, frequencyHz) => ({ lossDbPerM, frequencyHz })),
  };
}

export function objectiveOf(entry: Declaration, facts: readonly Fact[]): Objective {
  const ofDiversity = factsNamed(facts, "diversity-clearance");
  return {
    ...named(entry),
    availabilityPercent: quantityOf(factNamed(facts, "availability"), "value"),
    capacityBps: quantityOf(factNamed(facts, "capacity"), "value"),
    fadeMarginDb: quantityOf(factNamed(facts, "margin"), "value"),
    standbyMarginDb: quantityOf(factNamed(facts, "standby-margin"), "value"),
    clearance: criteriaOf(factsNamed(facts, "clearance")),
    diversityClearance: ofDiversity.length > 0 ? criteriaOf(ofDiversity) : undefined,
    availabilityClass: availabilityClassOf(factNamed(facts, "availability-class")),
    quality: qualityOf(factNamed(facts, "quality")),
  };
}

function criteriaOf(facts: readonly Fact[]): Objective["clearance"] {
  return facts.flatMap((fact) => {
    const fresnelFraction = quantityOf(fact, "zone");
    const kFactor = numberOf(fact, "k");
    return fresnelFraction === undefined || kFactor === undefined ? [] : [{ fresnelFraction, kFactor }];
  });
}

function availabilityClassOf(fact: Fact | undefined): Objective["availabilityClass"] {
  const portion = wordOf(fact, "portion") as AvailabilityClass["portion"] | undefined;
  return (
    portion && {
      portion,
      linkLengthM: quantityOf(fact, "length"),
      propagationPercent: quantityOf(fact, "propagation"),
    }
  );
}

function qualityOf(fact: Fact | undefined): Objective["quality"] {
  const portion = wordOf(fact, "portion") as QualityShare["portion"] | undefined;
  return (
    portion && {
      portion,
      linkLengthM: quantityOf(fact, "length"),
      sharePercent: quantityOf(fact, "share"),
      blockRatio: numberOf(fact, "block-ratio"),
    }
  );
}

/** A climate on top of another: what is stated here overrides, fact by fact. */
export function climateOf(facts: readonly Fact[], base: Climate): Climate {
  const rain = factNamed(facts, "rain");
  const stated: Climate = {
    rainRateMmPerH: quantityOf(rain, "rate"),
    rainTimePercent: rain ? (quantityOf(rain, "at") ?? 0.01) : undefined,
    rainZone: wordOf(factNamed(facts, "rain-zone"), "zone"),
    logK: numberOf(factNamed(facts, "logK"), "value"),
    dN75: quantityOf(factNamed(facts, "dN75"), "gradient"),
    dN1: quantityOf(factNamed(facts, "dN1"), "gradient"),
    kFactor: numberOf(factNamed(facts, "k"), "factor"),
    temperatureK: quantityOf(factNamed(facts, "temperature"), "value"),
    pressureHPa: quantityOf(factNamed(facts, "pressure"), "value"),
    waterVapourDensityGm3: quantityOf(factNamed(facts, "vapour"), "density"),
    multipathMethod: wordOf(factNamed(facts, "multipath"), "method") as Climate["multipathMethod"],
    terrainRoughnessM: quantityOf(factNamed(facts, "roughness"), "value"),
    rainHeightM: quantityOf(factNamed(facts, "rain-height"), "height"),
    rainProbabilityPercent: quantityOf(factNamed(facts, "rain-probability"), "value"),
    worstMonthQ1: numberOf(factNamed(facts, "worst-month"), "Q1"),
    worstMonthBeta: numberOf(factNamed(facts, "worst-month"), "beta"),
    uncheckedMethods: wordOf(factNamed(facts, "unchecked-methods"), "value") as Climate["uncheckedMethods"],
    rareRain: wordOf(factNamed(facts, "rare-rain"), "value") as Climate["rareRain"],
  };
  const known = Object.entries(stated).filter(([, value]) => value !== undefined);
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

function named(entry: Declaration): { readonly name: string; readonly title?: string } {
  return { name: entry.name, title: wordOf(entry.fact, "title") };
}

/** Points `value at frequency`, ascending; one without a frequency holds everywhere. */
function pointsOf<T extends { readonly frequencyHz?: number }>(
  facts: readonly Fact[],
  name: string,
  point: (value: number, frequencyHz: number | undefined) => T,
): readonly T[] {
  return factsNamed(facts, name)
    .flatMap((fact) => {
      const value = quantityOf(fact, "value");
      return value === undefined ? [] : [point(value, quantityOf(fact, "at"))];
    })
    .sort((a, b) => (a.frequencyHz ?? 0) - (b.frequencyHz ?? 0));
}
