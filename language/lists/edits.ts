/** Facts of a list, stated in the text that is there: argument by argument, so that all else stays as it is written. */
import type { ListedChange, Statement } from "../../shared/lists/state.js";
import { lineOf } from "../../shared/lists/state.js";
import {
  type BlockInText,
  endInText,
  hopInText,
  insertLine,
  replaceArgument,
} from "../editor/fixes/edits.js";
import type { TextEdit } from "../editor/text-range.js";
import { argument, type Fact, factNamed, factsNamed } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import { quote } from "../syntax/tree.js";

/** @returns undefined where the change finds no place in the text */
export function changeEdits(
  model: DesignModel,
  { at, statement }: ListedChange,
): readonly TextEdit[] | undefined {
  const block = blockOf(model, at);
  if (!block) return undefined;
  if (statement.word === "") return titleEdit(block, statement.args[0]!.text);
  // Readings stand beside each other.
  if (statement.word === "measured") {
    const line = insertLine(model, block, statement.word, lineOf(statement));
    return line && [line];
  }
  // Of a fact that stands once a state, a list does not say which is meant; of several channels it names the first.
  if (statement.word !== "channel" && factsNamed(block.fact.facts, statement.word).length > 1)
    return undefined;
  const edits = statementEdits(model, block, statement);
  return edits.some((edit) => edit === undefined) ? undefined : (edits as TextEdit[]);
}

function blockOf(model: DesignModel, at: string): BlockInText | undefined {
  const [, hop, site] = /^hop (\S+)(?: \/ (\S+))?$/.exec(at) ?? [];
  if (hop !== undefined) return site === undefined ? hopInText(model, hop) : endInText(model, hop, site);
  const entry = model.declarations(at)[0];
  return entry && { file: entry.file, fact: entry.fact, context: "site" };
}

function titleEdit({ file, fact }: BlockInText, title: string): TextEdit[] {
  const stated = argument(fact, "title");
  if (stated) return [replaceArgument(file, stated, quote(title))];
  const name = argument(fact, "name")!;
  return [{ file, start: name.end, end: name.end, newText: ` ${quote(title)}` }];
}

function statementEdits(
  model: DesignModel,
  block: BlockInText,
  statement: Statement,
): readonly (TextEdit | undefined)[] {
  const { word, args } = statement;
  if (word === "antenna") return antennaEdits(model, block, statement);
  const stated = factNamed(block.fact.facts, word) ?? otherWord(block, word);
  if (!stated) return [insertLine(model, block, word, lineOf(statement))];
  const changed = args.filter((arg) => arg.changed);
  const found = changed.map((arg) => ({ arg, at: argument(stated, arg.name) }));
  // A date that is not said any more goes too.
  if (word !== "state" && stated.property.name === word && found.every(({ at }) => at))
    return found.map(({ arg, at }) => replaceArgument(block.file, at!, arg.text));
  return [wholeEdit(block, stated, statement)];
}

/** A height stands with the antenna where that is stated here, else on a line of its own. */
function antennaEdits(
  model: DesignModel,
  block: BlockInText,
  statement: Statement,
): readonly (TextEdit | undefined)[] {
  const [antenna, at] = statement.args;
  const stated = factNamed(block.fact.facts, "antenna");
  const height = factNamed(block.fact.facts, "height");
  if (!stated && antenna!.changed && !height) return [insertLine(model, block, "antenna", lineOf(statement))];
  const edits: (TextEdit | undefined)[] = [];
  if (antenna!.changed) {
    const name = argument(stated, "antenna");
    edits.push(
      name
        ? replaceArgument(block.file, name, antenna!.text)
        : insertLine(model, block, "antenna", `antenna ${antenna!.text}`),
    );
  }
  if (!at?.changed) return edits;
  const place = argument(stated, "at") ?? argument(height, "value");
  edits.push(
    place
      ? replaceArgument(block.file, place, at.text)
      : insertLine(model, block, "height", `height ${at.text}`),
  );
  return edits;
}

/** One mode and a range of them are two words for one fact. */
function otherWord({ fact }: BlockInText, word: string): Fact | undefined {
  const other = word === "mode" ? "modes" : word === "modes" ? "mode" : undefined;
  return other === undefined ? undefined : factNamed(fact.facts, other);
}

function wholeEdit(
  { file }: BlockInText,
  { statement: { start, end } }: Fact,
  statement: Statement,
): TextEdit {
  return { file, start, end, newText: lineOf(statement) };
}

/** Lines that are put at one place, as one edit in their order. */
export function withoutTouching(edits: readonly TextEdit[]): readonly TextEdit[] {
  const inserts = new Map<string, TextEdit>();
  const others: TextEdit[] = [];
  for (const edit of edits) {
    if (edit.start !== edit.end) {
      others.push(edit);
      continue;
    }
    const key = `${edit.file} ${edit.start}`;
    const before = inserts.get(key);
    inserts.set(key, before ? { ...edit, newText: before.newText + edit.newText } : edit);
  }
  return [...others, ...inserts.values()];
}
