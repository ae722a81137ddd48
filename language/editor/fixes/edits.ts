/** The pieces that fixes are made of: finding a hop's facts in the text, replacing, inserting and removing lines. */
import { type Argument, type Fact, wordOf } from "../../facts/fact.js";
import type { DesignModel } from "../../model/design-model.js";
import { END, orderOf } from "../../schema/index.js";
import type { Context } from "../../schema/types.js";
import { indentationAt, type TextEdit } from "../text-range.js";

/** The hop that an address lies in. */
export function hopOf(at: string): string | undefined {
  return /^hop (.*?)(?: \/ |$)/.exec(at)?.[1];
}

/** A block of a hop in the text: the hop itself, or one of its ends. */
export interface BlockInText {
  readonly file: string;
  readonly fact: Fact;
  readonly context: Context;
}

export function hopInText(model: DesignModel, hop: string): BlockInText | undefined {
  const entry = model.standing(`hop ${hop}`)[0];
  return entry && { file: entry.file, fact: entry.fact, context: "hop" };
}

/** The hop, the site or the demand that an address lies in: there its findings are accepted. */
export function acceptingInText(model: DesignModel, at: string): BlockInText | undefined {
  const hop = hopOf(at);
  if (hop !== undefined) return hopInText(model, hop);
  return /^(site|demand) /.test(at) ? declarationInText(model, at.split(" / ")[0]!) : undefined;
}

/** What is declared and has no ends: a site, a demand, an entry of the catalogue. */
export function declarationInText(model: DesignModel, key: string): BlockInText | undefined {
  const { file, fact } = model.standing(key)[0] ?? {};
  return file !== undefined && fact?.context ? { file, fact, context: fact.context } : undefined;
}

export function endInText(model: DesignModel, hop: string, site: string): BlockInText | undefined {
  const whole = hopInText(model, hop);
  const fact = whole?.fact.facts.find((one) => one.property === END && wordOf(one, "site") === site);
  return whole && fact && { file: whole.file, fact, context: "end" };
}

export function replaceArgument(file: string, arg: Argument, newText: string): TextEdit {
  return { file, start: arg.start, end: arg.end, newText };
}

export function insertLine(
  model: DesignModel,
  block: BlockInText,
  name: string,
  line: string,
): TextEdit | undefined {
  return insertLines(model, block, name, [line]);
}

/** Several statements of one name, in this order. */
/** The block of a statement that has none yet. */
function newBlock(
  text: string,
  { file, fact: { statement } }: BlockInText,
  lines: readonly string[],
): TextEdit {
  const indentation = indentationAt(text, statement.start);
  const inner = lines.map((line) => `\n${indentation}  ${line}`).join("");
  return { file, start: statement.end, end: statement.end, newText: ` {${inner}\n${indentation}}` };
}

export function insertLines(
  model: DesignModel,
  block: BlockInText,
  name: string,
  lines: readonly string[],
): TextEdit | undefined {
  const text = model.file(block.file)?.text;
  const braces = block.fact.statement.block;
  if (text === undefined) return undefined;
  if (!braces) return newBlock(text, block, lines);
  const order = orderOf(block.context, name);
  const before = block.fact.facts.findLast((fact) => factOrder(block.context, fact) <= order);
  const oneLine = !text.slice(braces.start, braces.end).includes("\n");
  if (oneLine) {
    const isEmpty = braces.end - braces.start === 2;
    const at = before?.statement.end ?? braces.start + 1;
    return {
      file: block.file,
      start: at,
      end: at,
      newText: before
        ? lines.map((line) => `; ${line}`).join("")
        : ` ${lines.join("; ")}${block.fact.facts.length > 0 ? ";" : isEmpty ? " " : ""}`,
    };
  }
  const indentation = before
    ? indentationAt(text, before.statement.start)
    : `${indentationAt(text, block.fact.statement.start)}  `;
  // Behind the comment that a line may carry.
  const from = before?.statement.end ?? braces.start + 1;
  const lineEnd = text.indexOf("\n", from);
  const at = lineEnd < 0 || lineEnd >= braces.end ? from : lineEnd;
  return {
    file: block.file,
    start: at,
    end: at,
    newText: lines.map((line) => `\n${indentation}${line}`).join(""),
  };
}

/** Takes a statement away, and its line with it when nothing else stands there. */
export function removeFact(model: DesignModel, file: string, fact: Fact): TextEdit | undefined {
  const text = model.file(file)?.text;
  if (text === undefined) return undefined;
  const { start, end } = fact.statement;
  const lineStart = text.lastIndexOf("\n", start - 1) + 1;
  const found = text.indexOf("\n", end);
  const lineEnd = found < 0 ? text.length : found;
  const alone = text.slice(lineStart, start).trim() === "" && /^\s*(\/\/.*)?$/.test(text.slice(end, lineEnd));
  if (alone) return { file, start: lineStart, end: Math.min(text.length, lineEnd + 1), newText: "" };
  const behind = /^[ \t]*;[ \t]*/.exec(text.slice(end))?.[0].length ?? 0;
  if (behind > 0) return { file, start, end: end + behind, newText: "" };
  const before = /[ \t]*;[ \t]*$/.exec(text.slice(lineStart, start))?.[0].length ?? 0;
  return { file, start: start - before, end, newText: "" };
}

function factOrder(context: Context, fact: Fact): number {
  return orderOf(context, fact.property.name);
}
