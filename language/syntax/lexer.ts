/**
 * Mends what half-typed braces would otherwise spoil. An unclosed `{` must not swallow the rest of the
 * file: when a declaration such as `site TARN {` starts at the left margin inside an unclosed block, the
 * block is closed before it and the open brace is reported; an inner block is closed where the indentation says that it
 * ends. The parser then never fails on braces.
 */
import type { IToken, TokenType } from "chevrotain";
import { DefaultLexer, type LexerResult, type LexingReport, type TokenizeOptions } from "langium";
import { withoutConflicts } from "./conflicts.js";
import { Indentation } from "./indentation.js";
import { startsDeclaration } from "./starts-declaration.js";
import type { Comment, SyntaxProblem } from "./tree.js";

/** What the lexer hands past the parser: the problems it mended, and the comments. */
export interface HopLexingReport extends LexingReport {
  readonly problems: readonly SyntaxProblem[];
  readonly comments: readonly Comment[];
}

export class HopLexer extends DefaultLexer {
  override tokenize(text: string, options?: TokenizeOptions): LexerResult {
    const problems: SyntaxProblem[] = [];
    const readable = withoutConflicts(withoutEndlessLines(text, problems), problems);
    const result = super.tokenize(readable, options);
    const types = this.definition as Record<string, TokenType>;
    for (const { offset, length } of result.errors) problems.push(strayCharacters(text, offset, length));
    const tokens = mendBraces(dropOpenComments(result.tokens, problems), types["}"]!, problems);
    const comments = result.hidden.filter(isComment).map(commentOf);
    const report: HopLexingReport = { diagnostics: [], problems, comments };
    return { ...result, tokens, report };
  }
}

/** Expressions run out of stack on words of some million characters, and nobody writes such a line by hand. */
const LONGEST_LINE = 1_000_000;

const LINE_END = /\r\n?|\n/g;

/** The text with blanks in place of each line that is too long to be read. */
function withoutEndlessLines(text: string, problems: SyntaxProblem[]): string {
  if (text.length <= LONGEST_LINE) return text;
  let kept = "";
  for (let start = 0; start < text.length; ) {
    LINE_END.lastIndex = start;
    const end = LINE_END.exec(text) === null ? text.length : LINE_END.lastIndex;
    const isEndless = end - start > LONGEST_LINE;
    kept += isEndless ? `${" ".repeat(end - start - 1)}${text[end - 1]}` : text.slice(start, end);
    if (isEndless) {
      problems.push({
        start,
        end: start + 1,
        message: `this line is longer than ${LONGEST_LINE} characters and is not read`,
        help: "break it, or give the file another ending if it is no design",
      });
    }
    start = end;
  }
  return kept;
}

/** Control characters, which most editors do not show. */
function strayCharacters(text: string, start: number, length: number): SyntaxProblem {
  const code = text.charCodeAt(start).toString(16).toUpperCase().padStart(4, "0");
  const message = `the invisible character U+${code} cannot stand here`;
  return { start, end: start + length, message, help: "remove it" };
}

/** A comment that is not closed costs its line; the lines behind it are still read. */
function dropOpenComments(tokens: IToken[], problems: SyntaxProblem[]): IToken[] {
  if (!tokens.some((_, i) => opensComment(tokens, i))) return tokens;
  let inside = false;
  return tokens.filter((token, i) => {
    if (inside) {
      inside = token.tokenType.name !== "SEP" || token.image === ";";
      return !inside;
    }
    inside = opensComment(tokens, i);
    if (inside) {
      const start = token.startOffset;
      const message = "this comment is not closed";
      problems.push({ start, end: start + 2, message, help: "add */ where it ends" });
    }
    return !inside;
  });
}

function opensComment(tokens: readonly IToken[], i: number): boolean {
  const [slash, next] = [tokens[i]!, tokens[i + 1]];
  return (
    slash.tokenType.name === "SLASH" &&
    next?.startOffset === slash.startOffset + 1 &&
    next.image.startsWith("*")
  );
}

/** The language has blocks in blocks in blocks, and no more; what lies deeper would cost whoever walks it the stack. */
const DEEPEST_BLOCK = 64;

function mendBraces(tokens: readonly IToken[], closingType: TokenType, problems: SyntaxProblem[]): IToken[] {
  const mended: IToken[] = [];
  const open: IToken[] = [];
  const unbalanced = count(tokens, "{") > count(tokens, "}");
  const indentation = unbalanced ? new Indentation(tokens) : undefined;
  let tooDeep = 0;
  tokens.forEach((token, index) => {
    const name = token.tokenType.name;
    if (unbalanced && open.length > 0 && startsDeclaration(tokens, index)) {
      closeAll(open, token.startOffset, closingType, mended, problems);
      tooDeep = 0;
    }
    while (tooDeep === 0 && indentation?.ends(open.at(-1), index)) {
      indentation.closed(index);
      closeAll([open.pop()!], token.startOffset, closingType, mended, problems);
    }
    if (name === "{" && (tooDeep > 0 || open.length === DEEPEST_BLOCK)) {
      if (tooDeep === 0) {
        const message = `blocks are nested more than ${DEEPEST_BLOCK} deep here; what lies deeper is not read`;
        problems.push(problemAt(token, message, "close the blocks that are meant to end"));
      }
      tooDeep++;
    }
    if (tooDeep > 0) {
      if (name === "}") tooDeep--;
      return;
    }
    if (name === "{") {
      // `{` on a line of its own belongs to the statement before it; the formatter joins them.
      while (mended.at(-1)?.tokenType.name === "SEP") mended.pop();
      const before = mended.at(-1)?.tokenType.name;
      if (before === undefined || before === "{" || before === "}") {
        problems.push(
          problemAt(
            token,
            "a block needs a name before its {",
            "write what the block is, for example: site KELD {",
          ),
        );
        return;
      }
      open.push(token);
    }
    if (name === "}") {
      if (open.length === 0) {
        problems.push(problemAt(token, "this } closes nothing", "remove it, or add the { it belongs to"));
        return;
      }
      open.pop();
    }
    mended.push(token);
  });
  const end = tokens.at(-1);
  if (end) closeAll(open, (end.endOffset ?? end.startOffset) + 1, closingType, mended, problems);
  return mended;
}

function closeAll(
  open: IToken[],
  offset: number,
  type: TokenType,
  mended: IToken[],
  problems: SyntaxProblem[],
): void {
  for (let brace = open.pop(); brace; brace = open.pop()) {
    problems.push(problemAt(brace, "this { is never closed", "add } where the block ends"));
    mended.push({
      image: "",
      startOffset: offset,
      endOffset: offset - 1,
      startLine: brace.startLine,
      endLine: brace.endLine,
      startColumn: brace.startColumn,
      endColumn: brace.endColumn,
      tokenType: type,
      tokenTypeIdx: type.tokenTypeIdx!,
    });
  }
}

function count(tokens: readonly IToken[], name: string): number {
  let n = 0;
  for (const token of tokens) if (token.tokenType.name === name) n++;
  return n;
}

function problemAt(token: IToken, message: string, help: string): SyntaxProblem {
  return { start: token.startOffset, end: (token.endOffset ?? token.startOffset) + 1, message, help };
}

function isComment(token: IToken): boolean {
  return token.tokenType.name.endsWith("_COMMENT");
}

function commentOf(token: IToken): Comment {
  const text = token.image.trimEnd();
  return { text, start: token.startOffset, end: token.startOffset + text.length };
}
