/**
 * Fixes of engineering findings that need the text itself: heights and figures in the unit that they are written in,
 * positions as they are written, identifiers of rules, surveys of hops that are not resolved too. All others are changes of
 * facts and stand with their rules (`shared/rules/`).
 */
import type { QuickFix, ToMend } from "./fix.js";
import { clearFurtherHeight, clearHeights, lowerToStructure } from "./heights.js";
import { writeLicences } from "./licence.js";
import { mendPosition } from "./positions.js";
import { removeSeverity } from "./remove.js";
import { renameRule } from "./rename-rule.js";
import { stateSurveySource } from "./survey.js";
import { feetAboveStructure, otherUnit } from "./units.js";

/** By rule, in the order in which they are tried, before those of the rule. */
export const IN_TEXT: Readonly<Record<string, ((toMend: ToMend) => readonly QuickFix[]) | undefined>> = {
  "path-length": mendPosition,
  "position-slip": mendPosition,
  clearance: clearHeights,
  "diversity-clearance": clearFurtherHeight,
  "second-antenna-clearance": clearFurtherHeight,
  "diffraction-loss": clearHeights,
  "antenna-above-structure": (toMend) => [...feetAboveStructure(toMend), ...lowerToStructure(toMend)],
  "structure-in-feet": otherUnit,
  "ground-differs-from-terrain": otherUnit,
  "survey-source": stateSurveySource,
  "licence-missing": writeLicences,
  "acceptance-unknown": renameRule,
  "policy-unknown": (toMend) => [...renameRule(toMend), ...removeSeverity(toMend)],
};
