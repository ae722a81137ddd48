/** From text to the plain syntax tree. Any text yields a tree; what is wrong with it stands in `problems`. */
import {
  type CompositeCstNode,
  type CstNode,
  isCompositeCstNode,
  isLeafCstNode,
  type LangiumCoreServices,
  type ParseResult,
} from "langium";
import { isBlock, isStatement } from "../generated/ast.js";
import type { HopLexingReport } from "./lexer.js";
import { createSyntaxServices } from "./services.js";
import type { Atom, AtomKind, Block, Statement, SyntaxProblem, SyntaxTree } from "./tree.js";

let services: LangiumCoreServices | undefined;

export function parse(text: string): SyntaxTree {
  services ??= createSyntaxServices();
  return readTree(services.parser.LangiumParser.parse(text));
}

/** The tree of a text that Langium has parsed already. */
export function readTree(parsed: ParseResult): SyntaxTree {
  const report = parsed.lexerReport as HopLexingReport;
  const problems: SyntaxProblem[] = [...report.problems];
  for (const error of parsed.parserErrors) {
    const start = Number.isFinite(error.token.startOffset) ? error.token.startOffset : 0;
    problems.push({
      start,
      end: start + Math.max(1, error.token.image.length),
      message: "this cannot be read here",
    });
  }
  const root = parsed.value.$cstNode;
  const statements = root && isCompositeCstNode(root) ? statementsOf(root, problems) : [];
  return { statements, comments: report.comments, problems };
}

const ATOM_KIND: Readonly<Record<string, AtomKind>> = {
  WORD: "word",
  STRING: "string",
  NUMBER: "number",
  ANGLE: "angle",
  DATE: "date",
  SLASH: "slash",
};

function statementsOf(node: CompositeCstNode, problems: SyntaxProblem[]): Statement[] {
  const statements: Statement[] = [];
  for (const child of node.content) {
    if (isCompositeCstNode(child) && isStatement(child.astNode)) {
      const statement = statementOf(child, problems);
      if (statement) statements.push(statement);
    }
  }
  return statements;
}

function statementOf(node: CompositeCstNode, problems: SyntaxProblem[]): Statement | undefined {
  const atoms: Atom[] = [];
  let block: Block | undefined;
  for (const child of node.content) {
    if (isLeafCstNode(child)) {
      const kind = ATOM_KIND[child.tokenType.name];
      if (!kind) continue;
      const atom: Atom = { kind, text: child.text, start: child.offset, end: child.end };
      checkAtom(atom, problems);
      atoms.push(atom);
    } else if (isCompositeCstNode(child) && isBlock(child.astNode)) {
      block = { statements: statementsOf(child, problems), start: child.offset, end: endOf(child) };
    }
  }
  if (atoms.length === 0) return undefined;
  return { atoms, block, start: atoms[0]!.start, end: block?.end ?? atoms.at(-1)!.end };
}

/** The end of a block whose closing brace was added by the lexer is where that brace would stand. */
function endOf(node: CstNode): number {
  return Math.max(node.end, node.offset + 1);
}

function checkAtom(atom: Atom, problems: SyntaxProblem[]): void {
  if (atom.kind === "string" && (atom.text.length === 1 || !/(^|[^\\])(\\\\)*"$/.test(atom.text.slice(1)))) {
    problems.push({
      start: atom.start,
      end: atom.end,
      message: "this text is not closed",
      help: 'add the closing "',
    });
  }
}
