/** A brace that is forgotten costs its own block and no other. */
import { describe, expect, test } from "vitest";
import { readSource } from "../../language/model/source-file.js";
import { parse } from "../../language/syntax/parse.js";
import type { Statement } from "../../language/syntax/tree.js";

const TEXT = `network "N" {
  climate {
    rain 34 mm/h
    logK -4.2
  }
  objective trunk {
    margin 20 dB
  }
}

hop KELD-TARN {
  objective trunk
  KELD {
    antenna DISH60-18 at 24 m
    transmits high
  }
  TARN {
    antenna DISH60-18 at 28 m
  }
}

site KELD {
  structure mast 30 m
}
`;

/** Words of statements with those of their blocks. */
type Words = readonly [string, readonly Words[]];
const words = ({ atoms, block }: Statement): Words => [
  atoms.map(({ text }) => text).join(" "),
  (block?.statements ?? []).map(words),
];
const shapeOf = (text: string) => parse(text).statements.map(words);

const closing = [...TEXT.matchAll(/^ *}\n/gm)].map(({ index, 0: line }) => ({ index, line }));

describe.each(closing)("without the brace at $index", ({ index, line }) => {
  const text = TEXT.slice(0, index) + TEXT.slice(index + line.length);

  test("every statement stays where it was", () => {
    expect(shapeOf(text)).toEqual(shapeOf(TEXT));
  });

  test("one problem tells it, at the brace that it would close", () => {
    const { problems } = readSource("/a.hop", text).tree;
    expect(problems.map(({ message }) => message)).toEqual(["this { is never closed"]);
    const before = TEXT.slice(0, index).split("\n");
    const opening = before.findLastIndex(
      (one) => one.endsWith("{") && /^ */.exec(one)![0].length === line.indexOf("}"),
    );
    expect(text.slice(0, problems[0]!.start).split("\n").length - 1).toBe(opening);
  });
});

test("a text without any indentation is read as before: up to the next declaration", () => {
  const flat = TEXT.replace(/^ +/gm, "")
    .replace(/objective trunk {[^}]*}\n/, "")
    .replace("transmits high\n}", "transmits high");
  expect(parse(flat).problems.map(({ message }) => message)).toEqual(["this { is never closed"]);
  expect(shapeOf(flat).map(([head]) => head)).toEqual(['network "N"', "hop KELD-TARN", "site KELD"]);
});

test("where braces are whole, indentation says nothing", () => {
  const odd = TEXT.replace("    logK", "logK").replace(
    "    antenna DISH60-18 at 28",
    "antenna DISH60-18 at 28",
  );
  expect(parse(odd).problems).toEqual([]);
  expect(shapeOf(odd)).toEqual(shapeOf(TEXT));
});
