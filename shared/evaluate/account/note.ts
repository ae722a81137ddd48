/**
 * What an evaluation remarks beside its figures: codes with typed values. A sentence is made of them where they are
 * shown (`shared/words/notes.ts`); who looks for a remark looks for its code.
 */
import type { SurfaceKind } from "../../design/design.js";
import type { Arm } from "../../equipment/branches.js";
import type { DiffractionRemark } from "../../propagation/p526/delta-bullington.js";
import type { RefusalReason, Remark } from "../../propagation/remark.js";

/** A method that speaks of its own validity. */
export type Speaker =
  | "multipath"
  | "rain"
  | "specific-rain"
  | "rain-scaling"
  | "diversity"
  | "cross-polar-in-rain"
  | "equipment"
  | "rain-in-the-worst-month";

/** A method from memory that a climate with `unchecked-methods leave-out` leaves out. */
export type LeftOut =
  | "selective-fading"
  | "diversity"
  | "rain-scaling-with-polarization"
  | "rain-zone"
  | "rain-in-the-worst-month"
  | "link-availability"
  | "link-quality";

/** A part of the path, distances from the first end of the hop. */
interface Stretch {
  readonly fromM: number;
  readonly toM: number;
}

export type Note =
  | { readonly code: "method-remark"; readonly of: Speaker; readonly remark: Remark }
  | { readonly code: "method-refuses"; readonly of: Speaker; readonly reason: RefusalReason }
  | { readonly code: "method-left-out"; readonly method: LeftOut }
  // Ground and clearance.
  | ({ readonly code: "ground-bridged" } & Stretch)
  | { readonly code: "obstacles-not-counted" }
  | { readonly code: "known-ground-only" }
  // Level.
  | { readonly code: "gain-estimated"; readonly antenna: string; readonly efficiency: number }
  | { readonly code: "gain-of-nearest-point"; readonly antenna: string }
  | { readonly code: "loss-of-nearest-point"; readonly feeder: string }
  | { readonly code: "guide-loss-estimated"; readonly site: string; readonly lossDb: number }
  /** Of `count` channels of the plan, as long as none is chosen. */
  | { readonly code: "channel-open"; readonly plan: string; readonly number: number; readonly count: number }
  | { readonly code: "gases-not-counted"; readonly why: "frequency" | "no-air" }
  | { readonly code: "path-below-sea-level" }
  | { readonly code: "path-above-reference-air" }
  | { readonly code: "diffraction-remark"; readonly remark: DiffractionRemark }
  | { readonly code: "median-diffraction-loss"; readonly kFactor: number }
  /** Arms at the two ends of a carrier that stands on different ones. */
  | {
      readonly code: "carriers-cross";
      readonly ends: readonly [CrossedEnd, CrossedEnd];
    }
  | {
      readonly code: "level-of-weakest-carrier";
      readonly from: string;
      readonly to: string;
      readonly carrier: string;
    }
  | {
      readonly code: "further-ray-loses-more";
      readonly of: "diversity" | "standby" | "carriers";
      /** Which ray, for example `diversity antenna at KELD`. */
      readonly ray: string;
      readonly moreDb: number;
    }
  // Multipath.
  | { readonly code: "multipath-not-on-short-paths" }
  | { readonly code: "quick-method-stands-in"; readonly lacks: "mean-terrain" | "gradients" }
  | { readonly code: "multipath-initial-planning" }
  | { readonly code: "multipath-detailed-preceding" }
  | { readonly code: "multipath-quick" }
  | { readonly code: "multipath-early-planning"; readonly assumedDN1: number }
  | { readonly code: "ducts-likely"; readonly belowDN1: number }
  | { readonly code: "fading-as-of-clear-path" }
  | { readonly code: "selective-fading-not-counted" }
  | { readonly code: "deep-fading-factor" }
  // Diversity.
  | { readonly code: "frequency-diversity-not-counted" }
  | {
      readonly code: "space-diversity-not-counted";
      /** The receiving end. */
      readonly site: string;
      readonly why: "not-stated" | "gain-unknown" | "one-height";
    }
  | { readonly code: "diversity-feeder-assumed" }
  // Cross-polar interference.
  | { readonly code: "cross-polar-not-counted"; readonly modulation?: string }
  // Rain.
  | { readonly code: "both-polarizations" }
  | { readonly code: "rain-zone-superseded"; readonly zone: string }
  | { readonly code: "rain-alone-counted"; readonly reason?: RefusalReason }
  | { readonly code: "wet-snow-counted" }
  | { readonly code: "path-above-precipitation" }
  | { readonly code: "rain-beyond-law" }
  | { readonly code: "rain-below-law-bounded" }
  /** Continued the law takes less than 0.001 %, or never takes the margin. */
  | { readonly code: "rain-below-law-estimated"; readonly never?: true }
  // Availability and capacity.
  | { readonly code: "directions-together" }
  | { readonly code: "higher-mode-after-hysteresis" }
  | { readonly code: "availability-without-equipment" }
  | { readonly code: "availability-beside-equipment" }
  /** Without `radio` it is the repair time that is not stated. */
  | { readonly code: "equipment-not-counted"; readonly radio?: string }
  | { readonly code: "equipment-outage-unknown" }
  | {
      readonly code: "channels-not-stated";
      readonly carriers: number;
      readonly stated: number;
      readonly asked: number;
    }
  // Reflection. Without a reason its height is not known.
  | ({
      readonly code: "surface-not-counted";
      readonly surface: SurfaceKind;
      readonly reason?: RefusalReason;
    } & Stretch)
  // Equipment of ends and sites.
  | { readonly code: "if-loss-equalized" }
  /** The catalogue gives one point only: conductor loss alone. */
  | { readonly code: "cable-of-one-point"; readonly cable: string }
  | { readonly code: "standby-measured-by-switching" }
  /** A sum is too small by these: the catalogue has no figure of them. */
  | { readonly code: "parts-not-counted"; readonly parts: readonly string[] }
  | { readonly code: "structure-planning-aid"; readonly leftOut: readonly string[] }
  | { readonly code: "battery-at-rated-rate" }
  | { readonly code: "ports-searched"; readonly search: "found" | "none" | "given up" };

interface CrossedEnd {
  readonly site: string;
  readonly branch: string;
  readonly arm: Arm;
}

export type NoteCode = Note["code"];

export type NoteOf<C extends NoteCode> = Extract<Note, { readonly code: C }>;
