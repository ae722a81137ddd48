/**
 * Where an argument goes in the design: `radio.mtbfHours`, `site.structure.kind`. Bound to the types of `shared/design/`,
 * so that a field that is not there, or does not take such a value, does not compile in the row that names it.
 * `language/resolve/fields.ts` reads facts by it.
 */
import type { AsBuilt } from "../../shared/design/as-built.js";
import type { Antenna, Coupler, Feeder, Radio, RadioMode } from "../../shared/design/catalogue.js";
import type { Climate } from "../../shared/design/climate.js";
import type { Demand, TrafficTerms } from "../../shared/design/demand.js";
import type { Design, Hop, HopEnd, Site } from "../../shared/design/design.js";
import type {
  AntennaMount,
  Cable,
  Card,
  Chassis,
  Installation,
  LineFacts,
  PortClaim,
  SiteEquipment,
  UnitFacts,
} from "../../shared/design/equipment.js";
import type {
  CarrierToInterference,
  InterferenceAtSite,
  InterferenceTerms,
  ModeSpectrum,
  SpectrumPoint,
} from "../../shared/design/interference.js";
import type { Licence } from "../../shared/design/licence.js";
import type { ClearanceCriterion, Objective } from "../../shared/design/objective.js";

/** What is filled from all facts of a block, each statement at most once. Several may be filled from one block. */
export interface Things {
  readonly site: Site;
  readonly equipment: SiteEquipment;
  readonly radio: Radio;
  readonly unit: UnitFacts;
  readonly antenna: Antenna;
  readonly mount: AntennaMount;
  readonly coupler: Coupler;
  readonly feeder: Feeder;
  readonly line: LineFacts;
  readonly cable: Cable;
  readonly chassis: Chassis;
  readonly card: Card;
  readonly objective: Objective;
  readonly climate: Climate;
  readonly network: Pick<Design, "groundingEveryM" | "labels" | "magneticDay">;
  readonly interference: InterferenceTerms;
  readonly interferenceAt: InterferenceAtSite;
  readonly spectrum: ModeSpectrum;
  readonly hop: Hop;
  readonly end: HopEnd;
  readonly installation: Installation;
  readonly asBuilt: AsBuilt;
  readonly licence: Licence;
  readonly demand: Demand;
  readonly traffic: TrafficTerms;
}

/** What a single statement makes; there may be several of them. */
export interface Entries {
  readonly mode: RadioMode;
  readonly rssi: UnitFacts["rssi"][number];
  readonly gain: Antenna["gain"][number];
  readonly pattern: Antenna["pattern"][number];
  readonly spectrumPoint: SpectrumPoint;
  readonly carrierToInterference: CarrierToInterference;
  readonly loss: Feeder["loss"][number];
  readonly criterion: ClearanceCriterion;
  readonly claim: PortClaim;
  readonly port: NonNullable<Chassis["ports"]>[number];
  readonly need: NonNullable<Chassis["needs"]>[number];
}

/** Fields that one statement fills as a whole. */
export interface Parts {
  readonly "site.structure": NonNullable<Site["structure"]>;
  readonly "radio.tuning": Range;
  readonly "radio.lowHalf": Range;
  readonly "radio.highHalf": Range;
  readonly "unit.ifLimit": NonNullable<UnitFacts["ifLimit"]>;
  readonly "unit.branching": NonNullable<UnitFacts["branching"]>;
  readonly "antenna.band": Range;
  readonly "mount.secondBand": Range;
  readonly "coupler.band": Range;
  readonly "feeder.band": Range;
  readonly "objective.availabilityClass": NonNullable<Objective["availabilityClass"]>;
  readonly "objective.quality": NonNullable<Objective["quality"]>;
  readonly "hop.measuredRain": NonNullable<Hop["measuredRain"]>;
}

type Range = NonNullable<Radio["tuning"]>;
type Key<T> = keyof T & string;
type RequiredKey<T> = { [K in Key<T>]-?: undefined extends T[K] ? never : K }[Key<T>];

/** Without one of these a statement makes nothing. A field that the type asks for and that is not here does not compile. */
export const NEEDED: {
  readonly [E in keyof (Entries & Parts)]: Readonly<Record<RequiredKey<(Entries & Parts)[E]>, true>>;
} = {
  mode: { bandwidthHz: true, modulation: true },
  rssi: { levelDbm: true, voltageV: true },
  gain: { gainDbi: true },
  pattern: { angleDeg: true, copolarDb: true },
  spectrumPoint: { offsetHz: true, attenuationDb: true },
  carrierToInterference: { offsetHz: true, for1Db: true, for3Db: true },
  loss: { lossDbPerM: true },
  criterion: { fresnelFraction: true, kFactor: true },
  claim: { slot: true, port: true },
  port: { count: true, type: true },
  need: { count: true, kind: true },
  "site.structure": { kind: true, heightM: true },
  "radio.tuning": { fromHz: true, toHz: true },
  "radio.lowHalf": { fromHz: true, toHz: true },
  "radio.highHalf": { fromHz: true, toHz: true },
  "unit.ifLimit": { lossDb: true, frequencyHz: true },
  "unit.branching": { filterDb: true, passDb: true },
  "antenna.band": { fromHz: true, toHz: true },
  "mount.secondBand": { fromHz: true, toHz: true },
  "coupler.band": { fromHz: true, toHz: true },
  "feeder.band": { fromHz: true, toHz: true },
  "objective.availabilityClass": { portion: true },
  "objective.quality": { portion: true },
  "hop.measuredRain": { attenuation001Db: true, frequencyHz: true },
};

/** Each place with the type of what stands there. A thing need not have what a statement says: the statement may be missing. */
type PlacesIn<Of, Only> = {
  [T in Key<Of>]: {
    [F in Key<Of[T]> as undefined extends Of[T][F]
      ? `${T}.${F}`
      : Only extends "optional"
        ? never
        : `${T}.${F}`]: NonNullable<Of[T][F]>;
  };
}[Key<Of>];
type Together<U> = (U extends unknown ? (one: U) => void : never) extends (all: infer I) => void ? I : never;
type Places = Together<PlacesIn<Things, "optional">> & Together<PlacesIn<Entries & Parts, "all">>;

/** Places that take every such value. */
export type Into<V> = { [P in keyof Places]: V extends Places[P] ? P : never }[keyof Places];
/** Places of words, each with the words that it takes. */
export type WordPlaces = {
  [P in keyof Places as Places[P] extends string ? (string extends Places[P] ? never : P) : never]: Places[P];
};
