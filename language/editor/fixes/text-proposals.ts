/** Which problems of the text have fixes beside those that reading itself offers. */
import type { TextRule } from "../../facts/fact.js";
import { otherChannel, otherModeWidth } from "./channels.js";
import { declareName, entriesOfTemplate } from "./declare.js";
import { keepOneFact, otherName, removeCopy } from "./doubled.js";
import { nameOtherEnd } from "./ends.js";
import type { QuickFix, TextToMend } from "./fix.js";
import { oneSide } from "./merge.js";
import { closeWhatIsOpen } from "./open.js";
import { markAsOpen } from "./placeholder.js";

/** Proposals in the order in which they are offered, the likeliest first. */
export const TEXT_PROPOSALS: Readonly<
  Partial<Record<TextRule, (toMend: TextToMend) => readonly QuickFix[]>>
> = {
  syntax: (toMend) => [...oneSide(toMend), ...closeWhatIsOpen(toMend)],
  "missing-value": markAsOpen,
  "doubled-fact": keepOneFact,
  "doubled-name": (toMend) => [...removeCopy(toMend), ...otherName(toMend)],
  "unknown-name": declareName,
  "template-used": entriesOfTemplate,
  "unknown-channel": otherChannel,
  "unknown-mode": otherModeWidth,
  "hop-ends": nameOtherEnd,
};
