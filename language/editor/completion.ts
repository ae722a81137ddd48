/** What may be written at a caret, best first. */
import type { DesignModel } from "../model/design-model.js";
import { caretAt } from "./caret.js";
import { type HeadsOf, headItems } from "./complete-heads.js";
import { type ListFolder, pathItems } from "./complete-paths.js";
import { statementItems } from "./complete-statements.js";
import { valueItems } from "./complete-values.js";
import { expectedAt } from "./expected.js";
import { fuzzyRank } from "./fuzzy.js";
import type { CompletionItem, Proposal } from "./proposal.js";
import type { Results } from "./results.js";
import type { Scene } from "./scene.js";
import type { TextRange } from "./text-range.js";

/** A list is cut here; one that is cut says so, and the editor asks again with more letters. */
const MOST_COMPLETIONS = 400;

export interface Completions {
  readonly items: readonly CompletionItem[];
  /** Whether more would match. */
  readonly cut: boolean;
}

/** What a host lends: results, a look at folders and at the heads of lists. Without it less is offered. */
export interface CompletionHost {
  readonly results?: Results;
  readonly list?: ListFolder;
  readonly heads?: HeadsOf;
  readonly tried?: Scene["tried"];
}

/** Nothing in comments, and in quotes only paths and heads of columns. */
export function completionAt(
  model: DesignModel,
  path: string,
  offset: number,
  { results, list, heads, tried }: CompletionHost = {},
): Completions {
  const file = model.file(path);
  if (!file) return { items: [], cut: false };
  const quoted = (list && pathItems(file, offset, list)) ?? (heads && headItems(file, offset, heads));
  if (quoted) return ordered(quoted, { start: offset, end: offset }, "");
  const caret = caretAt(file, offset);
  if (!caret) return { items: [], cut: false };
  const scene = { model, path, caret, results, ...(tried && { tried }) };
  const expected = caret.before.length > 0 ? expectedAt(caret) : undefined;
  const startsStatement = caret.before.length === 0 || isTemplateWord(caret.before, caret.context);
  const proposals = expected ? valueItems(scene, expected) : startsStatement ? statementItems(scene) : [];
  return ordered(proposals, caret.replace, file.text.slice(caret.replace.start, offset));
}

function isTemplateWord(before: readonly { readonly text: string }[], context: string): boolean {
  return context === "file" && before.length === 1 && before[0]!.text === "template";
}

/** Those that the letters typed so far can become. */
function ordered(proposals: readonly Proposal[], replace: TextRange, typed: string): Completions {
  const seen = new Set<string>();
  const matching = proposals
    .filter((one) => one.replace || fuzzyRank(typed, one.label) !== undefined)
    .toSorted((a, b) => (a.rank ?? 0) - (b.rank ?? 0))
    // What writes the same is offered once, in its better form.
    .filter(({ insertText }) => !seen.has(insertText) && seen.add(insertText));
  const items = matching
    .slice(0, MOST_COMPLETIONS)
    .map(({ rank: _, ...one }, index) => ({ replace, ...one, sortOrder: index }));
  return { items, cut: matching.length > items.length };
}
