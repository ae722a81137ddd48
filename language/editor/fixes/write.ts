/** Changes of facts written into the text of a design: the one place that knows where in it they go. */
import type { FactChange } from "../../../shared/design/fact-change.js";
import { argument, type Fact, factNamed, factsNamed, wordOf } from "../../facts/fact.js";
import { hasStates } from "../../facts/states.js";
import type { DesignModel } from "../../model/design-model.js";
import type { TextEdit } from "../text-range.js";
import {
  type BlockInText,
  declarationInText,
  endInText,
  hopInText,
  insertLines,
  removeFact,
  replaceArgument,
} from "./edits.js";

/** New lines of a block, with the word that says where they go. */
interface NewLines {
  readonly block: BlockInText;
  readonly word: string;
  readonly lines: readonly string[];
}

type Written = TextEdit | NewLines;

/** @returns undefined where one of the changes finds no place, or none of them is left to be made */
export function editsOf(model: DesignModel, changes: readonly FactChange[]): readonly TextEdit[] | undefined {
  const written = changes.map((change) => writtenOf(model, change));
  if (written.some((one) => one === undefined)) return undefined;
  const all = (written as (readonly Written[])[]).flat();
  const edits: (TextEdit | undefined)[] = all.filter((one) => "newText" in one);
  // Lines that go to one place are one edit, in their order.
  const lines = all.filter((one) => "lines" in one);
  const places = Map.groupBy(lines, ({ block, word }) => {
    const place = insertLines(model, block, word, [""]);
    return place && `${place.file} ${place.start}`;
  });
  for (const group of places.values()) edits.push(...inOnePlace(model, group));
  return edits.length === 0 || edits.some((edit) => edit === undefined) ? undefined : (edits as TextEdit[]);
}

/** One edit: a statement that gets its block is whole before lines that come behind it. */
function inOnePlace(model: DesignModel, lines: readonly NewLines[]): readonly (TextEdit | undefined)[] {
  const blocks = [...Map.groupBy(lines, ({ block }) => block.fact).values()];
  const written = blocks
    .toSorted(([a], [b]) => Number(hasBlock(a!)) - Number(hasBlock(b!)))
    .map((own) =>
      insertLines(
        model,
        own[0]!.block,
        own[0]!.word,
        own.flatMap((one) => one.lines),
      ),
    );
  const known = written.filter((edit) => edit !== undefined);
  if (known.length < written.length || known.length < 2) return written;
  return [{ ...known[0]!, newText: known.map(({ newText }) => newText).join("") }];
}

function hasBlock({ block }: NewLines): boolean {
  return block.fact.statement.block !== undefined;
}

/** @returns undefined where it finds no place; nothing where it may be left out */
function writtenOf(model: DesignModel, change: FactChange): readonly Written[] | undefined {
  switch (change.do) {
    case "state":
      return stated(model, change);
    case "add": {
      const block = blockAt(model, change.in);
      const word = wordOfLine(change.lines[0]);
      if (!block || (change.once && factNamed(block.fact.facts, word))) return undefined;
      return [{ block, word, lines: change.lines }];
    }
    case "first": {
      for (const one of change.of) {
        const written = writtenOf(model, one);
        if (written) return written;
      }
      return undefined;
    }
    case "replace":
    case "rename":
    case "append":
    case "remove":
      return changed(model, change);
  }
}

function stated(
  model: DesignModel,
  { in: at, line, instead, where, bare }: Extract<FactChange, { do: "state" }>,
): readonly Written[] | undefined {
  const block = blockAt(model, at);
  if (!block) return undefined;
  const word = wordOfLine(line);
  const fact = (instead ?? [word])
    .flatMap((one) => factsNamed(block.fact.facts, one))
    .find((one) => where === undefined || wordOf(one, where.argument) === where.is);
  if (!fact) return [{ block, word, lines: [line] }];
  if (bare && hasStates(fact)) return undefined;
  const { start, end } = fact.statement;
  return [{ file: block.file, start, end, newText: line }];
}

/** A change of a statement that stands there. */
function changed(
  model: DesignModel,
  change: Extract<FactChange, { at: string }>,
): readonly Written[] | undefined {
  const found = factAt(model, change.at);
  if (!found) return "optional" in change && change.optional ? [] : undefined;
  const { block, fact } = found;
  switch (change.do) {
    case "replace": {
      const arg = argument(fact, change.argument);
      return arg && [replaceArgument(block.file, arg, change.by)];
    }
    case "rename": {
      const word = fact.statement.atoms[0];
      if (!word || factNamed(block.fact.facts, change.to)) return undefined;
      return [{ file: block.file, start: word.start, end: word.end, newText: change.to }];
    }
    case "append": {
      const { end } = fact.statement;
      return [{ file: block.file, start: end, end, newText: ` ${change.words}` }];
    }
    case "remove": {
      const edit = removeFact(model, block.file, fact);
      return edit && [edit];
    }
  }
}

function wordOfLine(line = ""): string {
  return line.split(" ", 1)[0]!;
}

/** `hop KELD-TARN / TARN / channel#1`: the block before the last step, and in it the fact that the step names. */
function factAt(
  model: DesignModel,
  at: string,
): { readonly block: BlockInText; readonly fact: Fact } | undefined {
  const steps = at.split(" / ");
  const block = blockAt(model, steps.slice(0, -1).join(" / "));
  const fact = block && nthFact(block.fact, steps.at(-1)!);
  return fact && { block, fact };
}

/** The block of a hop, an end, a site, a demand, or what has a block at a site: a chassis, a service. */
function blockAt(model: DesignModel, at: string): BlockInText | undefined {
  const [top = "", step] = at.split(" / ");
  if (top.startsWith("hop ")) {
    const hop = top.slice("hop ".length);
    return step === undefined ? hopInText(model, hop) : endInText(model, hop, step);
  }
  const whole = declarationInText(model, top);
  if (!whole || step === undefined) return whole;
  const inner = nthFact(whole.fact, step);
  const context = inner?.property.block;
  return inner && context && { ...whole, fact: inner, context };
}

/** `channel#2`: the third of the name. */
function nthFact({ facts }: Fact, step: string): Fact | undefined {
  const [name = "", index] = step.split("#");
  return factsNamed(facts, name)[Number(index ?? 0)];
}
