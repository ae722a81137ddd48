/**
 * What a method says of its own validity, and why it refuses: codes with values. Words for them stand in
 * `shared/words/`; nothing here is a sentence.
 */

/** What a stated range is of. */
export type Quantity = "path length" | "frequency" | "path inclination" | "antenna spacing" | "height";

/** A stated range that its input leaves; the figure is given all the same. */
export interface OutsideRange {
  readonly code: "outside-range";
  readonly quantity: Quantity;
  readonly value: number;
  readonly lowest: number;
  readonly highest: number;
  readonly unit: string;
}

export type Remark =
  | OutsideRange
  /** The average year would fade more than its worst month. */
  | { readonly code: "conversion-negative" }
  /** Shallow fades are interpolated for factors from 0.01 to 1000 %. */
  | { readonly code: "interpolation-outside-occurrence" }
  | { readonly code: "no-enhancement-known" }
  | { readonly code: "diversity-does-not-help" }
  | { readonly code: "improvement-below-five" }
  /** 5 % of the frequency or 0.5 GHz is used instead of the separation. */
  | { readonly code: "separation-limited" }
  | { readonly code: "formula-negative" }
  | { readonly code: "rough-below-15-db" }
  | { readonly code: "correlation-limited" }
  | { readonly code: "second-mode" }
  /** P.452 is carried for clear air only. */
  | { readonly code: "rain-scatter-not-considered" };

export type Wanted = "above-zero" | "zero-or-more" | "finite" | "whole";

/** Why a method gives no figure. `input` is the name that the function calls it by. */
export type RefusalReason =
  /** The value is left out where it is no number. */
  | {
      readonly code: "input-unusable";
      readonly input: string;
      readonly value?: number;
      readonly wanted: Wanted;
    }
  | {
      readonly code: "input-outside";
      readonly input: string;
      readonly value?: number;
      readonly lowest: number;
      readonly highest: number;
    }
  | { readonly code: "beyond-numbers" }
  | { readonly code: "antennas-below-mean-terrain" }
  | { readonly code: "sub-refractive-diffraction" }
  | { readonly code: "beyond-fit" }
  | { readonly code: "occurrence-too-high" }
  | { readonly code: "signature-too-wide" }
  | { readonly code: "diversity-outage-too-large" }
  | { readonly code: "branches-correlated" }
  | { readonly code: "discrimination-below-ratio" }
  | { readonly code: "beyond-horizon" }
  | { readonly code: "reflection-point-unseen" }
  | { readonly code: "obstacle-off-path" }
  | { readonly code: "attenuation-too-high" }
  | { readonly code: "period-is-worst-month" }
  | { readonly code: "fade-too-frequent" }
  | { readonly code: "outages-too-large" }
  | { readonly code: "no-worst-month"; readonly q1?: number; readonly beta?: number }
  | { readonly code: "link-too-long" }
  | { readonly code: "hop-longer-than-link" }
  | { readonly code: "no-loss-points" }
  | { readonly code: "line-cannot-deliver" }
  | { readonly code: "below-cut-off" }
  | { readonly code: "level-off-curve" }
  | { readonly code: "neither-gain-nor-diameter" }
  | { readonly code: "gain-below-first-side-lobe" }
  | { readonly code: "antenna-too-small" }
  /** Offsets of a mask fall, or are no numbers of zero or more. */
  | { readonly code: "points-not-rising" }
  | { readonly code: "points-without-width" }
  | { readonly code: "profile-too-short"; readonly points: number; readonly least: number }
  /** Distances that do not rise from 0, or arrays of unequal length. `point` is an index. */
  | { readonly code: "profile-not-rising"; readonly point: number }
  | { readonly code: "profile-height-unknown"; readonly point: number }
  | { readonly code: "profile-zone-unknown"; readonly point: number };
