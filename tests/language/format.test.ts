/** The canonical layout: idempotent, keeps comments, and changes nothing that the text means. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatText } from "../../language/format/format.js";
import { readSource } from "../../language/model/source-file.js";
import { parse } from "../../language/syntax/parse.js";
import type { Statement } from "../../language/syntax/tree.js";

function formatted(text: string): string {
  const result = formatText(text);
  if (!result.ok) throw new Error(result.problems.map(({ message }) => message).join("; "));
  return result.text;
}

describe("the formatter", () => {
  it("keeps a k of 4/3 together, and the arguments of a channel apart", () => {
    const text = "objective O {\n  clearance 1 F1 at k 4/3\n}\n";
    expect(formatted(text)).toBe(text);
    expect(formatted(text.replace("4/3", "4 / 3"))).toBe(text);
    const channel = "hop H {\n  channel F.595 / 55 MHz / 4\n}\n";
    expect(formatted(channel)).toBe(channel);
  });

  it("lays out what is said of surveys and of gaps", () => {
    expect(
      formatted(
        'network "N"{catalogue "c";bridge-gaps 200m;terrain "t"}\nhop H{survey "x.csv"   by field  from A}',
      ),
    ).toBe(
      'network "N" {\n  terrain "t"\n  bridge-gaps 200 m\n  catalogue "c"\n}\n\nhop H {\n  survey "x.csv" by field from A\n}\n',
    );
  });

  it("reads a slash at the end of a word alike before and behind what it moves", () => {
    for (const text of [
      "objective O */{ margin 3 dB }",
      "site A/{}",
      "site A/",
      'site A/""',
      'network "N" { rain 34 mm/"" }',
    ]) {
      expect(formatted(formatted(text))).toBe(formatted(text));
    }
  });

  it("leaves a text with a control character as it is, so that nothing of it is lost", () => {
    expect(formatText("site A {\u001b}\n").ok).toBe(false);
  });

  it("puts one fact on a line, in the order of the property table, blocks indented", () => {
    expect(
      formatted(
        'hop H{B {transmits low;antenna X at 20m}\n polarization   vertical; objective t\n channel F.595/55 MHz / 4\n A{}}\nsite A "x"{at 54°27\' 12.4"n 3°04\'51.0"W}',
      ),
    ).toBe(
      `hop H {
  objective t
  channel F.595/55 MHz / 4
  polarization vertical
  B {
    antenna X at 20 m
    transmits low
  }
  A {}
}

site A "x" {
  at 54°27'12.4"N 3°04'51.0"W
}
`,
    );
  });

  it("keeps every comment with what it belongs to", () => {
    const text = `// of the file

/* of the
   site */
site A {  // behind the brace
  // of the structure
  structure mast 30 m // behind it
  ground 4 m
  // at the end
}
// last
`;
    expect(formatted(text)).toBe(`// of the file

/* of the
   site */
site A {  // behind the brace
  ground 4 m
  // of the structure
  structure mast 30 m  // behind it
  // at the end
}
// last
`);
  });

  it("keeps one blank line where there were several, and none at the start of a block", () => {
    expect(formatted("site A {\n\n\n  ground 4 m\n\n\n  structure mast 30 m\n\n}\n\n\n\nsite B {}\n")).toBe(
      "site A {\n  ground 4 m\n\n  structure mast 30 m\n}\n\nsite B {}\n",
    );
  });

  it("leaves text with open braces alone", () => {
    expect(formatText("site A {\n").ok).toBe(false);
  });

  it("joins an opening brace on its own line", () => {
    expect(formatted("site A\n{\nground 4 m\n}\n")).toBe("site A {\n  ground 4 m\n}\n");
  });
});

/** Texts made of the language's own pieces, wild but with closed braces. */
const atom = fc.constantFrom(
  "KELD",
  "DISH60-18",
  "24 m",
  "24m",
  "18.7 GHz",
  '"text"',
  "at",
  "/",
  "1+0",
  "2027-05-01",
  `54°27'12"N`,
  "radio",
  "%",
  "-4.2",
);
const comment = fc.constantFrom("// a comment", "/* block */", "/* two\n   lines */");
const head = fc.constantFrom(
  "site A",
  "hop H",
  "KELD",
  "radio",
  "ground",
  "at",
  "objective t",
  "mode",
  "climate",
  "network",
  "transmits",
  "foo",
  "antenna",
  "template radio B",
);
const statement = fc.letrec<{ block: string; line: string }>((tie) => ({
  line: fc.oneof(
    {
      weight: 4,
      arbitrary: fc
        // Now and then without a blank between two of them, or with a stroke.
        .tuple(
          head,
          fc.array(fc.tuple(fc.constantFrom(" ", " ", " ", "", "/", " / "), atom), { maxLength: 4 }),
        )
        .map(([first, rest]) => first + rest.map(([gap, one], i) => (i === 0 ? " " : gap) + one).join("")),
    },
    { weight: 1, arbitrary: comment },
    { weight: 1, arbitrary: fc.constant("") },
    { weight: 2, arbitrary: tie("block") },
    { weight: 1, arbitrary: fc.tuple(head, comment).map((parts) => parts.join(" ")) },
  ),
  block: fc
    .tuple(head, fc.array(tie("line"), { maxLength: 4 }), fc.constantFrom("\n", "\n  ", "\n\n\n"))
    .map(([first, lines, gap]) => `${first} {${gap}${lines.join(gap)}\n}`),
}));
const text = fc
  .array(statement.line, { maxLength: 6 })
  .map((lines) => lines.join("\n"))
  .filter((source) => parse(source).problems.length === 0);

describe("formatting any text", () => {
  it.each(['rain 34 mm/"a"', 'x/"" ""'])("is idempotent: %s", (line) => {
    const once = formatted(`network "E" {\n${line}\n}\n`);
    expect(formatted(once)).toBe(once);
  });

  it("is idempotent", () => {
    fc.assert(
      fc.property(text, (source) => {
        const once = formatted(source);
        expect(formatted(once)).toBe(once);
      }),
      { numRuns: 500 },
    );
  });

  it("keeps what the text says: the same statements in every block, the same comments", () => {
    fc.assert(
      fc.property(text, (source) => {
        const before = parse(source);
        const after = parse(formatted(source));
        expect(shape(after.statements)).toEqual(shape(before.statements));
        expect(after.comments.map(squeezed).sort()).toEqual(before.comments.map(squeezed).sort());
      }),
      { numRuns: 500 },
    );
  });

  it("keeps the meaning: the same declarations with the same facts", () => {
    fc.assert(
      fc.property(text, (source) => {
        const names = (of: string) =>
          readSource("/f.hop", of)
            .declarations.map(({ key }) => key)
            .sort();
        expect(names(formatted(source))).toEqual(names(source));
      }),
      { numRuns: 200 },
    );
  });
});

/** Statements as text, each block sorted: the order of facts in a block is the formatter's business. */
function shape(statements: readonly Statement[]): unknown {
  const lines = statements.map((one) => {
    const words = one.atoms
      .map((atom) => atom.text)
      .join(" ")
      .replace(/(\d) (?=m\b|GHz)/g, "$1")
      .toUpperCase();
    return JSON.stringify([words, one.block ? shape(one.block.statements) : null]);
  });
  return lines.sort();
}

function squeezed({ text: words }: { readonly text: string }): string {
  return words.replace(/\s+/g, " ");
}
