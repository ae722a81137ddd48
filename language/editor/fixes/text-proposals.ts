/** Which problems of the text have fixes beside those that reading itself offers. */
import type { TextProblem, TextRule } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import type { SourceFile } from "../../model/source-file.js";
import type { QuickFix } from "../quick-fixes.js";
import { otherChannel, otherModeWidth } from "./channels.js";
import { declareName, entriesOfTemplate } from "./declare.js";
import { keepOneFact, otherName, removeCopy } from "./doubled.js";
import { nameOtherEnd } from "./ends.js";
import { oneSide } from "./merge.js";
import { closeWhatIsOpen } from "./open.js";
import { markAsOpen } from "./placeholder.js";

export interface TextToMend {
  readonly model: DesignModel;
  readonly file: SourceFile;
  readonly problem: TextProblem;
}

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
