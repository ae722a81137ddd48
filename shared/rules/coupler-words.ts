import type { CouplerKind } from "../design/design.js";

export const COUPLER_WORDS: Readonly<Record<CouplerKind, string>> = {
  hybrid: "a hybrid coupler",
  omt: "an orthomode transducer",
  "dual-polarized": "a dual-polarized coupler",
  splitter: "a transmit relay with a receive splitter",
};
