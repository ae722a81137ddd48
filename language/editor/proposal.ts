/** What completion offers. */
import type { TextRange } from "./text-range.js";

export type CompletionKind = "property" | "value" | "unit" | "name" | "rule" | "label";

export interface CompletionItem {
  readonly label: string;
  readonly kind: CompletionKind;
  readonly insertText: string;
  /** Whether the inserted text holds tab stops, `${1:24}`. */
  readonly snippet?: boolean;
  readonly replace: TextRange;
  readonly detail?: string;
  /** Markdown. */
  readonly documentation?: string;
  /** 0 for the first; items of equal order keep the order of the list. */
  readonly sortOrder: number;
}

/** An item before it knows its place: what the parts of completion give out. */
export type Proposal = Omit<CompletionItem, "replace" | "sortOrder"> & {
  /** Lower comes first. */
  readonly rank?: number;
  readonly replace?: TextRange;
};
