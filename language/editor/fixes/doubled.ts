/** One of two that say the same thing. */
import type { Fact } from "../../facts/fact.js";
import { nameRange } from "../../model/source-file.js";
import { head, type Statement } from "../../syntax/tree.js";
import { removeFact } from "./edits.js";
import type { QuickFix, TextToMend } from "./fix.js";

/** Removes this line, as the first counts, or the first; where both are the same there is nothing to choose. */
export function keepOneFact({ model, file, problem }: TextToMend): readonly QuickFix[] {
  const pair = doubledAt(file.facts, problem.start);
  if (!pair) return [];
  const [first, second] = pair;
  const same = wordsOf(file.text, first.statement) === wordsOf(file.text, second.statement);
  const remove = (fact: Fact, which: string, certain?: true): QuickFix[] => {
    const edit = removeFact(model, file.path, fact);
    const title = `Remove ${which}: ${shortened(wordsOf(file.text, fact.statement))}`;
    return edit ? [{ title, edits: [edit], rule: problem.rule, changesDecision: false, certain }] : [];
  };
  if (same) return remove(second, "this repetition", true);
  return [...remove(second, "this one"), ...remove(first, "the first one")];
}

/** A declaration that says word for word what the first of its name says. */
export function removeCopy({ model, file, problem }: TextToMend): readonly QuickFix[] {
  const entry = file.declarations.find(
    ({ fact }) => fact.statement.start <= problem.start && problem.start < fact.statement.end,
  );
  const first = entry && model.declarations(entry.key)[0];
  const other = first && model.file(first.file);
  if (!entry || !first || !other || first === entry) return [];
  if (wordsOf(file.text, entry.fact.statement) !== wordsOf(other.text, first.fact.statement)) return [];
  const edit = removeFact(model, file.path, entry.fact);
  const title = `Remove this copy of ${entry.key}`;
  return edit ? [{ title, edits: [edit], rule: problem.rule, changesDecision: false, certain: true }] : [];
}

/** Where two say different things: the second under a name of its own, or gone, as the first counts. */
export function otherName({ model, file, problem }: TextToMend): readonly QuickFix[] {
  const entry = file.declarations.find(
    ({ fact }) => fact.statement.start <= problem.start && problem.start < fact.statement.end,
  );
  const first = entry && model.declarations(entry.key)[0];
  const other = first && model.file(first.file);
  if (!entry || !first || !other || first === entry || entry.name === "" || entry.kind === "hop") return [];
  if (wordsOf(file.text, entry.fact.statement) === wordsOf(other.text, first.fact.statement)) return [];
  const taken = new Set(model.names(entry.kind));
  let number = 2;
  while (taken.has(`${entry.name}-${number}`)) number++;
  const name = `${entry.name}-${number}`;
  const remove = removeFact(model, file.path, entry.fact);
  const fix = (title: string, edit: QuickFix["edits"][number]): QuickFix => ({
    title,
    edits: [edit],
    rule: problem.rule,
    changesDecision: true,
  });
  return [
    fix(`Name this one ${name}`, { file: file.path, ...nameRange(entry), newText: name }),
    ...(remove ? [fix(`Remove this ${entry.key}: the first counts`, remove)] : []),
  ];
}

function doubledAt(facts: readonly Fact[], at: number): readonly [Fact, Fact] | undefined {
  for (const fact of facts) {
    const first = facts.find((one) => one.property === fact.property);
    if (first && first !== fact && head(fact.statement).start === at) return [first, fact];
    const inner = doubledAt(fact.facts, at);
    if (inner) return inner;
  }
  return undefined;
}

function wordsOf(text: string, { start, end }: Statement): string {
  return text.slice(start, end).replace(/\s+/g, " ");
}

function shortened(words: string): string {
  return words.length > 50 ? `${words.slice(0, 47)}...` : words;
}
