/**
 * What went into the figures of a hop: codes with values in SI, and where each came from. Names and written values
 * stand in `shared/words/inputs.ts`.
 */
import type { Polarization } from "../../design/design.js";

export type Input =
  // Path.
  | { readonly code: "path-length"; readonly lengthM: number }
  | { readonly code: "straight-distance"; readonly lengthM: number }
  | { readonly code: "ground"; readonly site: string; readonly heightM: number }
  | { readonly code: "median-k"; readonly kFactor: number }
  /** The lower of both directions. */
  | { readonly code: "zone-frequency"; readonly frequencyHz: number }
  // Level.
  | {
      readonly code: "antenna-gain";
      readonly antenna: string;
      readonly gainDbi: number;
      /** Set where the catalogue has several points: each frequency has a gain of its own. */
      readonly ofPointsAtHz?: number;
      /** Set where it is estimated from the diameter. */
      readonly estimatedAtHz?: number;
    }
  /** Of a piece that is still to be chosen: the greatest usual loss of its band. */
  | {
      readonly code: "guide-loss";
      readonly site: string;
      readonly lossDb: number;
      readonly lengthM: number;
      readonly band: string;
    }
  | ({ readonly code: "pressure"; readonly pressureHPa: number } & OfStandardAir)
  | ({ readonly code: "temperature"; readonly temperatureK: number } & OfStandardAir)
  | ({ readonly code: "water-vapour"; readonly densityGm3: number } & OfStandardAir)
  // Rain.
  | { readonly code: "rain-rate"; readonly rateMmPerH: number; readonly zone?: string }
  | { readonly code: "measured-rain"; readonly attenuationDb: number; readonly frequencyHz: number }
  /** `both`: both are on the air, and this is the worse. */
  | { readonly code: "polarization"; readonly polarization: Polarization; readonly both?: true }
  | { readonly code: "rain-height"; readonly heightM: number }
  | { readonly code: "rain-probability"; readonly timePercent: number }
  // Multipath.
  | { readonly code: "log-k"; readonly logK: number }
  | { readonly code: "dn75"; readonly dN75: number }
  | { readonly code: "dn1"; readonly dN1: number }
  | { readonly code: "mean-terrain"; readonly heightM: number }
  | { readonly code: "terrain-roughness"; readonly roughnessM: number }
  | {
      readonly code: "signature";
      readonly modulation: string;
      readonly widthHz: number;
      readonly depthDb: number;
      readonly referenceDelayNs: number;
    }
  | { readonly code: "dispersive-margin"; readonly modulation: string; readonly marginDb: number }
  // Diversity.
  | { readonly code: "channel-distance"; readonly separationHz: number }
  | { readonly code: "diversity-spacing"; readonly site: string; readonly spacingM: number }
  // Cross-polar interference.
  | { readonly code: "antenna-discrimination"; readonly discriminationDb: number }
  | { readonly code: "canceller-gain"; readonly gainDb: number }
  | {
      readonly code: "required-ratio";
      readonly modulation: string;
      readonly ratioDb: number;
      readonly from: "snr" | "threshold";
    }
  // Equipment and objectives.
  | { readonly code: "mtbf"; readonly mtbfHours: number }
  | { readonly code: "repair-time"; readonly repairHours: number }
  | { readonly code: "national-share"; readonly sharePercent: number }
  // Cables and supply of units.
  | {
      readonly code: "cable-length";
      readonly site: string;
      readonly cable: string;
      readonly lengthM: number;
    }
  | {
      readonly code: "cable-loss";
      readonly cable: string;
      readonly lossDbPerM: number;
      readonly frequencyHz: number;
    }
  | {
      readonly code: "if-limit";
      readonly radio: string;
      readonly lossDb: number;
      readonly frequencyHz: number;
    }
  | { readonly code: "loop-resistance"; readonly cable: string; readonly ohmPerM: number }
  | { readonly code: "service-voltage"; readonly voltageV: number }
  | { readonly code: "least-supply"; readonly radio: string; readonly voltageV: number }
  | {
      readonly code: "rssi-point";
      readonly radio: string;
      readonly levelDbm: number;
      readonly voltageV: number;
    }
  // What a site draws, and what it has for it.
  | { readonly code: "consumption"; readonly part: string; readonly drawsW: number }
  | { readonly code: "plant-power"; readonly site: string; readonly powerW: number }
  | { readonly code: "chassis-supply"; readonly chassis: string; readonly powerW: number }
  | { readonly code: "heat-limit"; readonly chassis: string; readonly powerW: number }
  | { readonly code: "air-warming"; readonly riseK: number }
  | { readonly code: "battery"; readonly capacityAh: number; readonly nominalV: number }
  | { readonly code: "depth-of-discharge"; readonly share: number }
  | { readonly code: "end-of-life"; readonly share: number }
  | { readonly code: "autonomy"; readonly hours: number }
  // What hangs on its structure.
  | { readonly code: "basic-wind"; readonly speedMPerS: number; readonly terrainClass: string }
  | { readonly code: "drag"; readonly part: string; readonly coefficient: number }
  | { readonly code: "wind-limit"; readonly forceN: number }
  | { readonly code: "weight-limit"; readonly massKg: number };

interface OfStandardAir {
  /** Where the air is, above sea level: set where the standard atmosphere gives the figure. */
  readonly atHeightM?: number;
}

export type InputCode = Input["code"];

export type InputOf<C extends InputCode> = Extract<Input, { readonly code: C }>;

export type InputOrigin =
  | "design"
  | "network climate"
  | "hop climate"
  | "catalogue"
  | "terrain"
  | "map"
  | "standard atmosphere"
  | "default"
  | "survey";

/**
 * How far a figure can be leant on that nobody stated or measured for the place: `assumed` out of the blue,
 * `estimated` from something else, `superseded` by a newer way to get it.
 */
type InputStanding = "assumed" | "estimated" | "superseded";

/** Where a figure of the climate was read. */
export type ReadFrom =
  | { readonly code: "map"; readonly file: string; readonly date: string; readonly recommendation: string }
  /** The spread of so many heights around the path's middle. */
  | { readonly code: "heights-around"; readonly heights: number };

/** Where an input came from, and how far it can be leant on. */
export interface InputBasis {
  readonly origin: InputOrigin;
  readonly standing?: InputStanding;
  readonly readFrom?: ReadFrom;
}

/** An input with its basis, for the explanation of a figure. */
export type InputUsed = Input & InputBasis;

/** Whether two tell of the same thing: of one site, antenna or mode, and of one frequency where that matters. */
export function isSameInput(a: Input, b: Input): boolean {
  if (a.code !== b.code) return false;
  const [one, other] = [a as Subject, b as Subject];
  return (
    one.site === other.site &&
    one.antenna === other.antenna &&
    one.modulation === other.modulation &&
    one.ofPointsAtHz === other.ofPointsAtHz
  );
}

interface Subject {
  readonly site?: string;
  readonly antenna?: string;
  readonly modulation?: string;
  readonly ofPointsAtHz?: number;
}
