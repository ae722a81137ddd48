/** What an editor asks while somebody reads and types, at some place of a file: nothing throws, and no edit lies outside. */
import { completionAt } from "../../language/editor/completion.js";
import { hoverAt } from "../../language/editor/hover.js";
import { inlayHints } from "../../language/editor/inlay-hints.js";
import { semanticTokens } from "../../language/editor/semantic-tokens.js";
import { documentSymbols } from "../../language/editor/symbols.js";
import { fixesAt } from "../../server/lsp/code-actions.js";
import type { Designs } from "../../server/lsp/designs.js";
import type { Chance } from "./chance.js";

/** @returns what is wrong, a line each */
export async function look(designs: Designs, path: string, chance: Chance): Promise<string[]> {
  const wrong: string[] = [];
  const file = designs.file(path);
  const sessions = designs.sessionsOf(path);
  if (!file) return wrong;
  const within = (what: string, { start, end }: { start: number; end: number }, length: number) => {
    if (!(start >= 0 && start <= end && end <= length))
      wrong.push(`${what} replaces ${start} to ${end} of ${length}`);
  };
  for (const session of sessions) {
    const { model } = session;
    const results = (name: string) => session.result(name);
    const [at, to] = [chance.below(file.text.length + 1), chance.below(file.text.length + 1)];
    const range = { start: Math.min(at, to), end: Math.max(at, to) };
    hoverAt(model, path, at, results);
    inlayHints(model, path, range, results);
    for (const { replace } of completionAt(model, path, at, { results }).items)
      within("completion", replace, file.text.length);
    const few = { start: range.start, end: Math.min(range.end, range.start + 200) };
    for (const { title, edits } of (await fixesAt(designs, path, few)).fixes) {
      if (edits.length === 0) wrong.push(`the fix "${title}" changes nothing`);
      for (const edit of edits)
        within("a fix", edit, designs.sessionsOf(path)[0]!.model.file(edit.file)?.text.length ?? -1);
    }
  }
  documentSymbols(file);
  semanticTokens(file);
  return wrong;
}
