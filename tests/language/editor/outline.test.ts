import { describe, expect, test } from "vitest";
import { foldingRanges } from "../../../language/editor/folding.js";
import { fuzzyRank } from "../../../language/editor/fuzzy.js";
import { semanticTokens } from "../../../language/editor/semantic-tokens.js";
import {
  type DocumentSymbol,
  documentSymbols,
  MOST_SYMBOLS,
  workspaceSymbols,
} from "../../../language/editor/symbols.js";
import { fixture, ROOT, shown } from "../../support/fixture.js";

function outline(symbols: readonly DocumentSymbol[], depth = 0): string[] {
  return symbols.flatMap(({ kind, name, detail, children }) => [
    `${"  ".repeat(depth)}${kind} ${name}${detail ? ` (${detail})` : ""}`,
    ...outline(children, depth + 1),
  ]);
}

describe("symbols of a file", () => {
  test("nested: the network with what holds for it, hops with their ends", () => {
    const { model, file } = fixture(`
network "Eskerfold" {
  terrain "t"
  climate { rain 30 mm/h }
  objective trunk "Ring" { margin 3 dB }
  defaults hop { polarization vertical }
}
template radio T { }
hop A-B "A to B" {
  radio R
  A { antenna X at 4 m; transmits high }
  B { }
}
`);
    expect(outline(documentSymbols(model.file(file)!))).toEqual([
      "network Eskerfold (network)",
      "  climate climate",
      "  objective trunk (objective, Ring)",
      "  defaults defaults hop",
      "radio T (template radio)",
      "hop A-B (hop, A to B)",
      "  end A (end, X, high)",
      "  end B (end)",
    ]);
  });

  test("the name lies inside its symbol, on half-typed text too", () => {
    const { model, file } = fixture('site\nhop\nradio "x\ndefaults\nnetwork\nsite A {\nhop B { C {');
    const check = ({ start, end, nameRange, name, children }: DocumentSymbol) => {
      expect(name).not.toBe("");
      expect(nameRange.start).toBeGreaterThanOrEqual(start);
      expect(nameRange.end).toBeLessThanOrEqual(end);
      children.forEach(check);
    };
    const symbols = documentSymbols(model.file(file)!);
    expect(symbols.length).toBeGreaterThan(4);
    symbols.forEach(check);
  });
});

describe("symbols of a design", () => {
  const { model } = fixture(
    '//- a.hop\nsite KELD "Keld quarry" { }\nsite TARN { }\n//- b.hop\nhop KELD-TARN { KELD { } }\n',
  );
  const names = (query: string) =>
    workspaceSymbols(model, query).map(
      ({ kind, name, file }) => `${kind} ${name} ${file.slice(ROOT.length + 1)}`,
    );

  test("letters in their order, the nearer match first", () => {
    expect(names("keld")).toEqual(["site KELD a.hop", "hop KELD-TARN b.hop"]);
    expect(names("kt")).toEqual(["hop KELD-TARN b.hop"]);
    expect(names("quarry")).toEqual(["site KELD a.hop"]);
    expect(names("tk")).toEqual([]);
    expect(names("")).toHaveLength(3);
  });

  test("a long list is cut", () => {
    const many = fixture(Array.from({ length: MOST_SYMBOLS + 50 }, (_, i) => `site S${i} { }`).join("\n"));
    expect(workspaceSymbols(many.model, "s")).toHaveLength(MOST_SYMBOLS);
  });

  test("a whole name before a beginning, before a middle, before scattered letters", () => {
    const ranks = ["TARN", "TARNHOW", "KELD-TARN", "T-ARN"].map((name) => fuzzyRank("tarn", name));
    expect(ranks).toEqual([0, 1, 2, expect.any(Number)]);
    expect(ranks[3]).toBeGreaterThan(2);
    expect(fuzzyRank("tarn", "TARS")).toBeUndefined();
  });
});

test("blocks and comments fold, single lines do not", () => {
  const { model, file } = fixture(`// one
// two

// alone
site A { at 1 2 }
hop H {
  A {
    power 3 dBm // not folded
  }
}
/* several
   lines */
`);
  const text = model.file(file)!.text;
  expect(
    foldingRanges(model.file(file)!).map(({ start, end, kind }) => [kind, text.slice(start, end)]),
  ).toEqual([
    ["comment", "// one\n// two"],
    ["block", "{\n  A {\n    power 3 dBm // not folded\n  }"],
    ["block", "{\n    power 3 dBm // not folded"],
    ["comment", "/* several\n   lines */"],
  ]);
});

describe("colours", () => {
  function tokens(source: string): string[] {
    const { model, file } = fixture(source);
    const text = model.file(file)!.text;
    return semanticTokens(model.file(file)!).map(
      ({ start, length, type, modifiers }) =>
        `${text.slice(start, start + length)} ${type}${modifiers.length > 0 ? "!" : ""}`,
    );
  }

  test("of a hop", () => {
    expect(
      tokens('hop A-B "t" {\n  channel F.595 / 55 MHz / 4\n  A { antenna X at 4 m; transmits high }\n}'),
    ).toEqual([
      "hop keyword",
      "A-B function!",
      '"t" string',
      "channel property",
      "F.595 enum",
      "/ operator",
      "55 number",
      "MHz type",
      "/ operator",
      "4 number",
      "A namespace",
      "antenna property",
      "X class",
      "at keyword",
      "4 number",
      "m type",
      "transmits property",
      "high enumMember",
    ]);
  });

  test("of templates, inheritance, positions, acceptances", () => {
    expect(tokens("template radio T { }\nradio R like T { }")).toEqual([
      "template keyword",
      "radio keyword",
      "T class!",
      "radio keyword",
      "R class!",
      "like keyword",
      "T class",
    ]);
    expect(tokens(`site A { at 54°27'12.4"N 3°04'51.0"W }`).slice(2)).toEqual([
      "at property",
      `54°27'12.4"N number`,
      `3°04'51.0"W number`,
    ]);
    expect(tokens('hop H { accept clearance until 2027-05-01 because "x" }').slice(2)).toEqual([
      "accept property",
      "clearance event",
      "until keyword",
      "2027-05-01 number",
      "because keyword",
      '"x" string',
    ]);
  });

  test("a comment of several lines is a token a line", () => {
    expect(tokens("/* a\r\n b */ // c")).toEqual(["/* a comment", " b */ comment", "// c comment"]);
  });

  test("what is not understood keeps the colour of its looks", () => {
    expect(tokens('wibble 4 "x" { wobble 2027-01-01 }')).toEqual([
      "4 number",
      '"x" string',
      "2027-01-01 number",
    ]);
  });

  test("a phrase is coloured word by word", () => {
    expect(tokens("hop H { arrangement 1+1 hot-standby }").slice(2)).toEqual([
      "arrangement property",
      "1+1 enumMember",
      "hot-standby enumMember",
    ]);
  });

  test("only what touches the range asked for", () => {
    const { model, file } = fixture("site A { }\nsite B { }\n// c");
    expect(semanticTokens(model.file(file)!, { start: 11, end: 21 }).map(({ start }) => start)).toEqual([
      11, 16,
    ]);
  });
});

test("fixtures put marks under the columns of the line above", () => {
  const { marks, model } = fixture("site KELD { }\n//   ^^^^ here\n//^^ there\n");
  expect(shown(marks, model)).toEqual(["main.hop:1 te | there", "main.hop:1 KELD | here"]);
});
