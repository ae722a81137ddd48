import type { Address } from "../../design/address.js";
import type { RadioMode } from "../../design/catalogue.js";
import type { OpenLead } from "../../equipment/guide-to-choose.js";
import type { RefusalReason } from "../../propagation/remark.js";
import type { ProfileGap } from "../../terrain/profile.js";
import type { LeftOut } from "./note.js";

/** Steps of the computation. */
export const STEPS = [
  "path",
  /** Ground and antennas at both ends. */
  "heights",
  /** Frequency of the Fresnel zone. */
  "zone",
  /** Ground under the path. */
  "profile",
  /** Rays over antennas beside the first. */
  "further antennas",
  "level",
  /** Levels in the states with a unit on standby. */
  "standby",
  "threshold",
  "rain",
  "multipath",
  "cross-polar",
  "capacity",
  "link availability",
  "link quality",
] as const;

export type Step = (typeof STEPS)[number];

/** What the clearance of a ray takes. */
export const RAY_STEPS: readonly Step[] = ["path", "heights", "profile", "zone"];

/** What a level and its margin take: an obstruction on unknown ground would take from them. */
export const LEVEL_STEPS: readonly Step[] = ["path", "heights", "profile", "level", "threshold"];

/**
 * Why it does not:
 * - `fact`: the hop or a site does not state it;
 * - `catalogue`: an entry of the catalogue does not;
 * - `climate`, `terrain`: they do not tell;
 * - `refusal`: a method refuses its input;
 * - `bound`: a method only bounds the figure, and the bound does not tell;
 * - `left out`: the design leaves out the method;
 * - `beyond reason`: what is stated cannot be believed;
 * - `unusable`: what is stated has a name that nothing bears, or cannot be read;
 * - `off path`: an obstacle stands where the path does not lead;
 * - `no receiver`: both ends transmit where neither receives;
 * - `ends apart`: what one end is built as does not work with the other;
 * - `no coupler`: nothing that is stated joins the units to their antenna;
 * - `other band`: a part in the way of the signal is built for another band;
 * - `power not had`: more power is stated than the transmitter has.
 */
type LackCode =
  | "fact"
  | "catalogue"
  | "climate"
  | "terrain"
  | "refusal"
  | "bound"
  | "left out"
  | "beyond reason"
  | "channel open"
  | "unusable"
  | "off path"
  | "no receiver"
  | "ends apart"
  | "no coupler"
  | "other band"
  | "power not had";

/** Something is stated, or needed, and not counted: a figure without it may be better than the hop is, or another. */
export const NOT_COUNTED: ReadonlySet<LackCode> = new Set([
  "channel open",
  "beyond reason",
  "unusable",
  "off path",
  "no receiver",
  "ends apart",
  "no coupler",
  "other band",
  "power not had",
]);

export function countsAll(missing: readonly Lack[], steps: readonly Step[]): boolean {
  return !missing.some(({ code, of }) => NOT_COUNTED.has(code) && of.some((step) => steps.includes(step)));
}

/** Which mode, without what it can do. */
export function modeNamed({ modulation, bandwidthHz }: NonNullable<Lack["mode"]>): Lack["mode"] {
  return { modulation, bandwidthHz };
}

/** A fact of a hop or of one of its ends. */
export type FactCode =
  | "position"
  | "radio"
  | "mode"
  | "transmit-frequency"
  | "polarization"
  | "antenna"
  | "antenna-height"
  | "feeder-length"
  | "repair-time"
  /** To join radio and antenna. */
  | "waveguide"
  | "further-antenna"
  | "further-antenna-height";

/** For example the antenna height at TARN. */
export interface FactName {
  readonly code: FactCode;
  readonly site?: string;
  /** Of a further antenna: the property that states it, for example `diversity-antenna`. */
  readonly property?: string;
}

/** What exactly is not known, with the figures and names that tell it. */
export type LackReason =
  /** The fact of the lack. */
  | { readonly code: "not-stated" }
  | { readonly code: "beyond-reason"; readonly what: string }
  /** A property of the text; still to be chosen, else stated and of no use. */
  | { readonly code: "unusable"; readonly property: string; readonly site?: string; readonly open?: true }
  | { readonly code: "channel-unknown" }
  /** Figures are those of this channel meanwhile. */
  | { readonly code: "channel-open"; readonly number: number; readonly count: number }
  | { readonly code: "refused"; readonly reason: RefusalReason; readonly of?: ModeRefused }
  | { readonly code: "evaluation-failed"; readonly hop: string; readonly why: string }
  // Path and ground.
  | { readonly code: "latitude-beyond-pole" }
  | { readonly code: "same-place"; readonly sites: readonly [string, string] }
  | { readonly code: "ground-level-unknown"; readonly site: string; readonly of: "terrain" | "survey" }
  /** The host's own reason: a file that is not there or cannot be read. */
  | { readonly code: "no-profile"; readonly why?: string }
  | { readonly code: "profile-of-other-length"; readonly profileM: number; readonly pathM: number }
  | {
      readonly code: "heights-unknown";
      readonly of: "terrain" | "survey";
      readonly gaps: readonly ProfileGap[];
    }
  | { readonly code: "no-height-known" }
  | { readonly code: "ground-under-obstacle-unknown"; readonly obstacle: string }
  | { readonly code: "mean-terrain-unknown" }
  | { readonly code: "obstacle-off-path"; readonly obstacle: string }
  // Equipment.
  | { readonly code: "mode-without-rate"; readonly modulation: string }
  | { readonly code: "mode-without-power"; readonly modulation: string; readonly site: string }
  | { readonly code: "mode-without-threshold"; readonly modulation: string }
  | { readonly code: "coupler-without-loss"; readonly coupler: string; readonly site: string }
  | { readonly code: "feeder-without-loss"; readonly feeder: string; readonly site: string }
  | { readonly code: "antenna-without-gain"; readonly antenna: string; readonly site: string }
  | OpenLead
  | { readonly code: "transmit-alike"; readonly sites: readonly [string, string] }
  | {
      readonly code: "arrangement-apart";
      readonly site: string;
      readonly own: string;
      readonly other: string;
    }
  | {
      readonly code: "part-of-other-band";
      readonly part: string;
      readonly site: string;
      readonly frequencyHz: number;
    }
  | { readonly code: "power-above-mode"; readonly site: string; readonly modulation?: string }
  /** Without `coupler` none is stated; of a further antenna the property that states it. */
  | {
      readonly code: "units-not-joined";
      readonly site: string;
      readonly coupler?: string;
      readonly property?: string;
    }
  | { readonly code: "no-diffraction-figure"; readonly further?: true }
  // Climate and methods.
  | { readonly code: "no-gradients"; readonly needs: "logK-and-dN75" | "dN1" }
  | { readonly code: "no-rain-rate" }
  | { readonly code: "rain-rate-elsewhere"; readonly timePercent: number }
  | { readonly code: "law-of-rain-ends"; readonly atPercent: number }
  | { readonly code: "rain-turned-from-slant" }
  | { readonly code: "rain-of-other-polarization" }
  | { readonly code: "method-left-out"; readonly method: LeftOut }
  // Failures of equipment.
  | { readonly code: "no-mtbf"; readonly radio: string }
  | { readonly code: "no-repair-time" }
  | { readonly code: "failures-unknown" };

/** Which figure of a mode a method refuses. */
export interface ModeRefused {
  readonly figure: "selective-fading" | "cross-polar";
  readonly modulation: string;
}

/** Something that could not be computed, and what for want of. Words: `shared/words/lacks.ts`. */
export interface Lack {
  readonly code: LackCode;
  /** The steps that come to no figure for it. */
  readonly of: readonly Step[];
  readonly reason: LackReason;
  /** Of a fact: what it is, and where it would stand. */
  readonly fact?: FactName;
  readonly at?: Address;
  /** The text has an error at the hop that tells it. */
  readonly told?: true;
  /** The mode that it is about; undefined: every one. */
  readonly mode?: Pick<RadioMode, "modulation" | "bandwidthHz">;
}
