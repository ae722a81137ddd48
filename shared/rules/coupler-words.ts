import type { CouplerKind } from "../design/catalogue.js";

import type { ArrangementFacts } from "../radio/arrangements.js";

export const COUPLER_WORDS: Readonly<Record<CouplerKind, string>> = {
  hybrid: "a hybrid coupler",
  omt: "an orthomode transducer",
  "dual-polarized": "a dual-polarized coupler",
  splitter: "a transmit relay with a receive splitter",
};

/** What joins so many units of an arrangement to one antenna. */
export function joinWords({ coupler }: ArrangementFacts, units: number): string {
  if (coupler === undefined) return "nothing";
  const small = coupler === "dual-polarized" && units <= 2;
  return small ? `${COUPLER_WORDS.omt} or ${COUPLER_WORDS[coupler]}` : COUPLER_WORDS[coupler];
}
