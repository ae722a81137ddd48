/**
 * Layout changes no meaning and loses no comment, whatever stands between the words. Held on the samples with
 * comments, blanks, line ends and separators thrown in at any place, so that many of the texts are wrong.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Fact } from "../../language/facts/fact.js";
import { formatText } from "../../language/format/format.js";
import { readSource } from "../../language/model/source-file.js";
import { orderOf } from "../../language/schema/index.js";
import type { Context } from "../../language/schema/types.js";
import { parse } from "../../language/syntax/parse.js";
import { head, type Statement } from "../../language/syntax/tree.js";

const SAMPLES = join(import.meta.dirname, "../../samples");
const TEXTS = [
  ...readdirSync(SAMPLES, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".hop"))
    .map((path) => readFileSync(join(SAMPLES, path), "utf8").slice(0, 2500)),
  `site A { at 54° 27' 12.4" n 3° 04′ 51.0″ W; ground 4m }\nobjective O { clearance 1 F1 at k 4 / 3 }\n`,
];

/** What a text says, without where it says it: the facts of each block in the order that the layout gives them. */
function meaning(text: string) {
  const { facts, problems } = readSource("a.hop", text);
  return {
    facts: said(facts, "file"),
    problems: problems.map(({ rule, message }) => `${rule}: ${quoted(message)}`).sort(),
  };
}

/** A message quotes what is written, and an angle may be written in several ways. */
function quoted(message: string): string {
  return message.replace(/\s/g, "").replace(/[′’]/g, "'").replace(/[″”]/g, '"').toUpperCase();
}

function said(facts: readonly Fact[], context: Context): unknown[] {
  const each = facts.map((fact) => ({
    order: context === "file" ? 0 : orderOf(context, head(fact.statement).text),
    is: [fact.property.name, fact.template, fact.args.map(({ spec, value }) => [spec.label, value])],
    holds: fact.context ? said(fact.facts, fact.context) : [],
  }));
  return each.sort((a, b) => a.order - b.order);
}

/** Comments line by line, since a line may stand further in; in no order, since they travel with what they speak of. */
function comments(text: string): string[] {
  return parse(text)
    .comments.map((comment) =>
      comment.text
        .split(/\r?\n|\r/)
        .map((line) => line.trim())
        .join("\n"),
    )
    .sort();
}

function boundaries(statements: readonly Statement[]): number[] {
  return statements.flatMap(({ atoms, block }) => [
    ...atoms.flatMap(({ start, end }) => [start, end]),
    ...(block
      ? [block.start, block.start + 1, ...boundaries(block.statements), block.end - 1, block.end]
      : []),
  ]);
}

const THROWN_IN = [
  " /* a */ ",
  " // b\n",
  " /* c\n     d */ ",
  "\n",
  "   ",
  " ; ",
  "\r\n",
  "\r",
  " /* e */ /* f */ // g\n",
  "\n\n",
  "\u00a0",
  "/* h */; /* i\n*/",
];

const texts = fc
  .record({
    base: fc.constantFrom(...TEXTS),
    places: fc.array(fc.record({ at: fc.nat(), what: fc.constantFrom(...THROWN_IN) }), { maxLength: 8 }),
  })
  .map(({ base, places }) => {
    const at = [0, ...boundaries(parse(base).statements), base.length];
    const sorted = places
      .map(({ at: n, what }) => ({ offset: at[n % at.length]!, what }))
      .sort((a, b) => b.offset - a.offset);
    let text = base;
    for (const { offset, what } of sorted) text = text.slice(0, offset) + what + text.slice(offset);
    return text;
  });

describe("layout", () => {
  test("says what the text said, keeps each comment, and leaves nothing to do", () => {
    fc.assert(
      fc.property(texts, (text) => {
        const laidOut = formatText(text);
        if (!laidOut.ok) {
          expect(readSource("a.hop", text).problems.some(({ rule }) => rule === "syntax")).toBe(true);
          return;
        }
        expect(meaning(laidOut.text)).toEqual(meaning(text));
        expect(comments(laidOut.text)).toEqual(comments(text));
        expect(formatText(laidOut.text)).toEqual({ ok: true, text: laidOut.text });
      }),
      { numRuns: 2000 },
    );
  });

  test.each([
    [
      "a comment over several lines stays behind its statement",
      'hop H {\n  title "x" /* a\n b */\n  objective o\n}\n',
    ],
    ["a comment to the line's end before a brace", "site A // a\n /* b\n c */ {\n  ground 1 m\n}\n"],
    ["an angle whose parts are blanks apart", "site A {\n  at 54 27' 12\"N 3 04' 51\"W\n}\n"],
    ["two numbers that a blank parts in an angle", "site A {\n  at 54°2 7'N 3°04'W\n}\n"],
  ])("%s", (_, text) => {
    const laidOut = formatText(text);
    expect(laidOut.ok).toBe(true);
    if (!laidOut.ok) return;
    expect(meaning(laidOut.text)).toEqual(meaning(text));
    expect(comments(laidOut.text)).toEqual(comments(text));
  });

  test("a conflict is told where it begins, is read once, and is not laid out", () => {
    const text = [
      "site A {",
      "<<<<<<< ours",
      "  ground 1 m",
      "||||||| base",
      "  ground 3 m",
      "=======",
      "  ground 2 m",
      ">>>>>>> theirs",
      "}",
      "",
    ].join("\n");
    const { problems } = readSource("a.hop", text);
    expect(problems.map(({ rule, start, end }) => [rule, text.slice(start, end)])).toEqual([
      ["syntax", "<<<<<<< ours"],
    ]);
    expect(JSON.stringify(meaning(text))).toContain('"base":1');
    expect(formatText(text).ok).toBe(false);
    // One that was half cleaned up.
    for (const left of ["<<<<<<< ours\n", ">>>>>>> theirs\n"]) {
      expect(formatText(`${left}site A {}\n`).ok).toBe(false);
      expect(readSource("a.hop", `${left}site A {}\n`).facts).toHaveLength(1);
    }
  });

  test("lines that end with a carriage return alone are lines", () => {
    const text = 'site A {\r  ground 1 m // b\r  title "x"\r}\r';
    expect(meaning(text)).toEqual(meaning(text.replaceAll("\r", "\n")));
    expect(formatText(text)).toEqual(formatText(text.replaceAll("\r", "\n")));
  });
});
