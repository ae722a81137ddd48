import type { HopRule } from "../rule.js";
import { measuredBeforeChange } from "./measured-before-change.js";
import { measuredDoubled } from "./measured-doubled.js";
import { measuredMissing } from "./measured-missing.js";
import { measuredNotOfHop } from "./measured-not-of-hop.js";
import { measuredOneLow } from "./measured-one-low.js";
import { measuredOutsideWindow } from "./measured-outside-window.js";
import { measuredPowerControl } from "./measured-power-control.js";
import { measuredSideLobe } from "./measured-side-lobe.js";
import { measuredTurnedFeed } from "./measured-turned-feed.js";

/** What was measured, behind all that the design itself can be told. */
export const AS_BUILT_HOP_RULES: readonly HopRule[] = [
  measuredNotOfHop,
  measuredDoubled,
  measuredPowerControl,
  measuredBeforeChange,
  measuredSideLobe,
  measuredTurnedFeed,
  measuredOneLow,
  measuredOutsideWindow,
  measuredMissing,
];
