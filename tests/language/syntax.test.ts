/** The grammar says what the shapes of the language are; reading follows it without Langium's parser. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { File, Statement as GrammarStatement } from "../../language/generated/ast.js";
import { parse } from "../../language/syntax/parse.js";
import { createSyntaxServices } from "../../language/syntax/services.js";
import type { Statement } from "../../language/syntax/tree.js";

const SAMPLES = join(import.meta.dirname, "../../samples");
const { LangiumParser } = createSyntaxServices().parser;

/** Each statement as where it starts, the number of its atoms, its block likewise, and where it ends. */
type Shape = [number, number, Shape[] | undefined, number | undefined];

function ours({ atoms, block, start, end }: Statement, mended: boolean): Shape {
  const inner = block?.statements.map((statement) => ours(statement, mended));
  return [start, atoms.length, inner, mended ? undefined : end];
}

function grammars(statement: GrammarStatement, mended: boolean): Shape {
  const { offset, end } = statement.$cstNode!;
  const inner = statement.block?.statements.map((one) => grammars(one, mended));
  return [offset, statement.atoms.length, inner, mended ? undefined : end];
}

function expectSame(text: string): void {
  const parsed = LangiumParser.parse<File>(text);
  expect(parsed.parserErrors, text).toEqual([]);
  const { statements, problems } = parse(text);
  // Where a brace was missing, the end of its block is for each to choose.
  const mended = problems.length > 0;
  expect(
    statements.map((one) => ours(one, mended)),
    text,
  ).toEqual(parsed.value.statements.map((one) => grammars(one, mended)));
}

describe("statements and blocks are those of the grammar", () => {
  test.each(
    readdirSync(SAMPLES, { recursive: true, encoding: "utf8" }).filter((path) => path.endsWith(".hop")),
  )("in %s", (path) => expectSame(readFileSync(join(SAMPLES, path), "utf8")));

  test("in any text of the language's pieces", () => {
    const piece = fc.constantFrom(
      ...'{ } ; / site KELD hop 24 m "a b" "open 54°27\'N 2027-05-01 // /* */ \n'.split(" "),
      "\n",
      "\nsite A {\n",
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 30 }), (pieces) => expectSame(pieces.join(" "))),
      { numRuns: 2000 },
    );
  });

  test("in nests deeper than any stack", () => {
    const depth = 50_000;
    const { problems, statements } = parse(`${"a {".repeat(depth)}${"}".repeat(depth)}\nb`);
    expect(problems.map(({ message }) => message)).toEqual([
      "blocks are nested more than 64 deep here; what lies deeper is not read",
    ]);
    expect(statements.map(({ atoms }) => atoms[0]!.text)).toEqual(["a", "b"]);
  });
});

test("an angle ends with its line", () => {
  const { statements } = parse(`site A {\n  at 47°41'15"N 30°28\n'06 W\n}\n`);
  expect(statements[0]?.block?.statements.map(({ atoms }) => atoms.length)).toEqual([3, 2]);
});

describe("what no editor shows", () => {
  test("the byte order mark that a file may begin with is no part of its first word", () => {
    const { statements, problems } = parse("\ufeffsite A {}\n");
    expect(problems).toEqual([]);
    expect(statements[0]?.atoms[0]).toMatchObject({ text: "site", start: 1 });
  });

  test("a control character is told at its place, and costs nothing but itself", () => {
    const { statements, problems } = parse("site A { at 47\u0001 -30 }\nsite B {}\n");
    expect(problems).toEqual([expect.objectContaining({ start: 14, end: 15 })]);
    expect(problems[0]?.message).toContain("U+0001");
    expect(statements).toHaveLength(2);
  });

  test.each(["a", '"', "a/", '"\\'])("a line of millions of %s costs that line", (piece) => {
    const endless = piece + piece.at(-1)!.repeat(12_000_000);
    const { statements, problems } = parse(`site A {}\n${endless}\nsite B {}\n`);
    expect(problems).toEqual([expect.objectContaining({ start: 10, end: 11 })]);
    expect(statements.map(({ atoms }) => atoms[1]?.text)).toEqual(["A", "B"]);
  });
});
