/**
 * From text to the plain syntax tree. Any text yields a tree; what is wrong with it stands in `problems`.
 * Langium's lexer does the words; the statements are put together here in one pass over them, because a
 * general parser with its concrete tree takes four times as long and half of the memory of a large design.
 * A test holds this against the grammar.
 */
import type { IToken } from "chevrotain";
import type { Lexer } from "langium";
import type { HopLexingReport } from "./lexer.js";
import { createSyntaxServices } from "./services.js";
import type { Atom, AtomKind, Statement, SyntaxProblem, SyntaxTree } from "./tree.js";

let lexer: Lexer | undefined;

export function parse(text: string): SyntaxTree {
  lexer ??= createSyntaxServices().parser.Lexer;
  const { tokens, report } = lexer.tokenize(text);
  const { problems, comments } = report as HopLexingReport;
  return { statements: statementsOf(tokens), comments, problems: [...problems, ...openTexts(tokens)] };
}

const ATOM_KIND: Readonly<Record<string, AtomKind>> = {
  WORD: "word",
  STRING: "string",
  NUMBER: "number",
  ANGLE: "angle",
  DATE: "date",
  SLASH: "slash",
};

/** @param tokens with as many closing braces as opening ones, each behind the words it belongs to: the lexer sees to it */
function statementsOf(tokens: readonly IToken[]): readonly Statement[] {
  const around: { readonly statements: Statement[]; readonly atoms: Atom[]; readonly start: number }[] = [];
  let statements: Statement[] = [];
  let atoms: Atom[] = [];
  const finish = (block?: Statement["block"]) => {
    const [first, last] = [atoms[0], atoms.at(-1)];
    if (first && last) statements.push({ atoms, block, start: first.start, end: block?.end ?? last.end });
    atoms = [];
  };
  for (const token of tokens) {
    const start = token.startOffset;
    const kind = ATOM_KIND[token.tokenType.name];
    if (kind) {
      atoms.push({ kind, text: token.image, start, end: start + token.image.length });
    } else if (token.tokenType.name === "{") {
      around.push({ statements, atoms, start });
      statements = [];
      atoms = [];
    } else {
      finish();
      const outer = token.tokenType.name === "}" ? around.pop() : undefined;
      if (!outer) continue;
      // A closing brace that the lexer has added has no width: the block ends where it would stand.
      const end = Math.max(start + token.image.length, outer.start + 1);
      const block = { statements, start: outer.start, end };
      ({ statements, atoms } = outer);
      finish(block);
    }
  }
  finish();
  return statements;
}

function openTexts(tokens: readonly IToken[]): SyntaxProblem[] {
  return tokens.flatMap(({ tokenType, image, startOffset }) => {
    if (tokenType.name !== "STRING" || (image.length > 1 && /(^|[^\\])(\\\\)*"$/.test(image.slice(1))))
      return [];
    const end = startOffset + image.length;
    return [{ start: startOffset, end, message: "this text is not closed", help: 'add the closing "' }];
  });
}
