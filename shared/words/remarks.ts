/** What methods say of their validity, and why they refuse: sentences. */
import type { OutsideRange, RefusalReason, Remark, Wanted } from "../propagation/remark.js";

type Words<T extends { readonly code: string }> = {
  readonly [C in T["code"]]: (one: Extract<T, { readonly code: C }>) => string;
};

const REMARKS: Words<Remark> = {
  "outside-range": outsideRange,
  "conversion-negative": () =>
    "The conversion is negative: the average year would fade more than its worst month.",
  "interpolation-outside-occurrence": () =>
    "The interpolation to shallow fades is drawn for occurrence factors from 0.01 to 1000 %.",
  "no-enhancement-known": () =>
    "Hardly any multipath (fades at 0.01 % of time are not positive): the method says nothing of enhancement.",
  "diversity-does-not-help": () => "The improvement is below 1: this diversity does not help.",
  "improvement-below-five": () => "The improvement is below 5, where the method is not meant to be used.",
  "separation-limited": () =>
    "The separation exceeds 5 % of the frequency or 0.5 GHz; that limit is used instead.",
  "formula-negative": () => "The formula is negative here: there is no diffraction loss.",
  "rough-below-15-db": () => "The formula is fair above about 15 dB of loss; below it is rough.",
  "correlation-limited": () => "The correlation exceeds the smaller hop's own outage and is limited to it.",
  "second-mode": () => "A second mode travels at this frequency.",
  "rain-scatter-not-considered": () => "Rain scatter is not considered.",
};

const REFUSALS: Words<RefusalReason> = {
  "input-unusable": ({ input, value, wanted }) => `${input} must be ${WANTED[wanted]}, ${is(value)}.`,
  "input-outside": ({ input, value, lowest, highest }) =>
    `${input} must be from ${lowest} to ${highest}, ${is(value)}.`,
  "beyond-numbers": () => "The inputs lie so far outside the method that it yields no number.",
  "antennas-below-mean-terrain": () =>
    "The antennas do not clear the mean terrain (hc is negative): diffraction dominates, the method does not apply.",
  "sub-refractive-diffraction": () =>
    "The formula exceeds 1000 %: the path fades by sub-refractive diffraction and needs clearance (section 2.2).",
  "beyond-fit": () => "The formula exceeds 1000 %, beyond anything it was fitted to.",
  "occurrence-too-high": () =>
    "The occurrence factor exceeds 2000 %, where the distribution loses its meaning.",
  "signature-too-wide": () => "The signature is too wide for this path: the formula exceeds 1.",
  "diversity-outage-too-large": () => "The outage is too large for the method: with diversity it exceeds 1.",
  "branches-correlated": () => "The branches are fully correlated: there is no diversity to reckon with.",
  "discrimination-below-ratio": () =>
    "The cross-polar discrimination does not reach the carrier to interference ratio.",
  "beyond-horizon": () => "The antennas are beyond each other's horizon over this surface.",
  "reflection-point-unseen": () => "The far antenna does not see the reflection point.",
  "obstacle-off-path": () => "The obstacle does not stand between the ends of the path.",
  "attenuation-too-high": () => "The attenuation must be below 300 dB.",
  "period-is-worst-month": () => "A period of 720 hours is the worst month itself.",
  "fade-too-frequent": () => "The fade is too frequent for the method: it would fill the whole period.",
  "outages-too-large": () => "The hops' outages are too large to be added.",
  "no-worst-month": ({ q1 = "not a number", beta = "not a number" }) =>
    `Q1 ${q1} and beta ${beta} do not describe a worst month.`,
  "link-too-long": () => "The objectives are given for links up to 2500 km.",
  "hop-longer-than-link": () => "The hop is longer than its link.",
  "no-loss-points": () => "A cable needs at least one point of loss.",
  "line-cannot-deliver": () => "The line cannot deliver this power.",
  "below-cut-off": () => "The frequency lies below the guide's cut-off.",
  "level-off-curve": () => "The level lies outside the points of the curve.",
  "neither-gain-nor-diameter": () => "A reference pattern needs the antenna's gain or its diameter.",
  "gain-below-first-side-lobe": () =>
    "The gain lies below the first side lobe of the reference pattern: the pattern does not apply to this antenna.",
  "antenna-too-small": () =>
    "The antenna is smaller than 0.63 wavelengths, where the pattern does not apply.",
  "points-not-rising": () => "The offsets of a mask must be zero or more and may not fall.",
  "points-without-width": () => "A mask needs at least one point away from its centre.",
  "profile-too-short": ({ points, least }) =>
    `The profile has ${points} points; at least ${least} are needed.`,
  "profile-not-rising": ({ point }) =>
    `The distances of the profile must rise from 0, with a height for each; point ${point + 1} does not fit.`,
  "profile-height-unknown": ({ point }) =>
    `The path has no usable height of the ground at point ${point + 1}.`,
  "profile-zone-unknown": ({ point }) =>
    `Point ${point + 1} of the path is neither coastal land, nor inland, nor sea.`,
};

const WANTED: Readonly<Record<Wanted, string>> = {
  "above-zero": "above zero",
  "zero-or-more": "zero or more",
  finite: "a finite number",
  whole: "a whole number",
};

function is(value: number | undefined): string {
  return value === undefined ? "is no number" : `is ${value}`;
}

function outsideRange({ quantity, value, lowest, highest, unit }: OutsideRange): string {
  const named = `${quantity[0]!.toUpperCase()}${quantity.slice(1)}`;
  return `${named} ${value} ${unit} is outside the range of the method, ${lowest} to ${highest} ${unit}.`;
}

/** As a sentence, for the word functions of this folder. */
export function remarkWords(remark: Remark): string {
  return (REMARKS[remark.code] as (one: Remark) => string)(remark);
}

/** As a sentence, for the word functions of this folder. */
export function refusalWords(reason: RefusalReason): string {
  return (REFUSALS[reason.code] as (one: RefusalReason) => string)(reason);
}
