/** What mends something, and what there is to mend. */
import type { Finding } from "../../../shared/design/finding.js";
import type { InterferenceFound } from "../../../shared/interference/network.js";
import type { TextProblem } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import type { SourceFile } from "../../model/source-file.js";
import type { JudgedHop } from "../results.js";
import type { TextEdit } from "../text-range.js";

export interface QuickFix {
  /** What it writes, and for a decision what it changes. */
  readonly title: string;
  readonly edits: readonly TextEdit[];
  /** Rule of the problem or finding that it mends. */
  readonly rule: string;
  /** Whether it changes what was decided; such a fix is never part of mending all at once. */
  readonly changesDecision: boolean;
  /** See `TextFix`. */
  readonly certain?: true;
}

/** An engineering finding to be mended, with what its rule may need to know. */
export interface ToMend {
  readonly model: DesignModel;
  readonly finding: Finding;
  /** The hop that the finding stands on; undefined for one about a site or a catalogue entry. */
  readonly judged?: JudgedHop;
  /** Findings on the design as it is, to tell new errors from old ones. */
  readonly before: readonly Finding[];
  /** Of the design as it is; undefined: it was not computed. */
  readonly interference?: InterferenceFound;
}

export interface TextToMend {
  readonly model: DesignModel;
  readonly file: SourceFile;
  readonly problem: TextProblem;
}
