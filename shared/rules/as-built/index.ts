import type { HopRule, NetworkRule } from "../rule.js";
import { asBuiltDiffers } from "./as-built-differs.js";
import { asBuiltLicence } from "./as-built-licence.js";
import { measuredBeforeChange } from "./measured-before-change.js";
import { measuredDoubled } from "./measured-doubled.js";
import { measuredInFuture } from "./measured-in-future.js";
import { measuredMissing } from "./measured-missing.js";
import { measuredNotOfHop } from "./measured-not-of-hop.js";
import { measuredOneLow } from "./measured-one-low.js";
import { measuredOutsideWindow } from "./measured-outside-window.js";
import { measuredPowerControl } from "./measured-power-control.js";
import { measuredSideLobe } from "./measured-side-lobe.js";
import { measuredTurnedFeed } from "./measured-turned-feed.js";

/** What was built and measured, behind all that the design itself can be told. */
export const AS_BUILT_HOP_RULES: readonly HopRule[] = [
  asBuiltDiffers,
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

export const AS_BUILT_NETWORK_RULES: readonly NetworkRule[] = [asBuiltLicence, measuredInFuture];
