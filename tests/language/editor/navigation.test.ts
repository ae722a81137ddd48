import { describe, expect, test } from "vitest";
import { definitionAt, highlightsAt, referencesAt } from "../../../language/editor/navigation.js";
import { prepareRename, renameAt } from "../../../language/editor/rename.js";
import { applyEdits } from "../../../language/editor/text-range.js";
import { readSource } from "../../../language/model/source-file.js";
import { fixture, ROOT, shown } from "../../support/fixture.js";

/** Places asked for against the places marked in the fixture: a missing and an unexpected one both fail. */
function expectMarked(
  source: string,
  ask: (at: ReturnType<typeof fixture>) => readonly { file?: string; start: number; end: number }[],
) {
  const at = fixture(source);
  const found = ask(at).map(({ file = at.file, start, end }) => ({ file, start, end, text: "" }));
  expect(shown(found, at.model)).toEqual(shown(at.marks, at.model));
}

const definition = (source: string) =>
  expectMarked(source, ({ model, file, offset }) => definitionAt(model, file, offset));
const references = (source: string, includeDeclaration = true) =>
  expectMarked(source, ({ model, file, offset }) =>
    referencesAt(model, file, offset, { includeDeclaration }),
  );

describe("definition", () => {
  test("of a site, from an end of a hop in another file", () => {
    definition(`
//- sites.hop
site KELD "Keld" { at 1 2 }
//   ^^^^
//- hops.hop
hop KELD-TARN { KE$0LD { } }
`);
  });

  test("of an antenna, from the caret behind its last letter", () => {
    definition(`
antenna DISH60-18 { }
//      ^^^^^^^^^
hop H { KELD { antenna DISH60-18$0 at 4 m } }
`);
  });

  test("of what an entry is made like", () => {
    definition(`
template radio BASE { }
//             ^^^^
radio R like BA$0SE { }
`);
  });

  test("of an objective in the network", () => {
    definition(`
network "N" {
  objective trunk { }
//          ^^^^^
}
hop H { objective tr$0unk }
`);
  });

  test("of a plan, from a channel", () => {
    definition(`
plan P18 { centre 18.7 GHz }
//   ^^^
hop H { channel P1$08 / 55 MHz / 4 }
`);
  });

  test("of a modulation: the line of the radio, of its own or of what it is like", () => {
    definition(`
radio BASE {
  mode 55 MHz QPSK rate 3 Mbit/s
  mode 55 MHz 16QAM rate 6 Mbit/s
//     ^^^^^^^^^^^^^^^^^^^^^^^^^^
  mode 28 MHz 16QAM
}
radio R like BASE { overload -20 dBm }
hop H {
  radio R
  mode 55 MHz 16Q$0AM
}
`);
  });

  test("of a name declared twice: both, the one that counts first", () => {
    definition(`
site A { at 1 2 }
//   ^
site A { at 3 4 }
//   ^
hop H { $0A { } }
`);
  });

  test.each([
    "hop H { NOWHERE$0 { } }",
    "site A { gro$0und 4 m }",
    "// site A$0",
    "radio R lik$0e B { }\nradio B { }",
    "$0",
  ])("none: %s", (source) => definition(source));

  test("kinds are told apart", () => {
    definition(`
radio X { }
antenna X { }
//      ^
hop H { A { antenna X$0 } }
`);
  });
});

describe("references", () => {
  test("over all files, in ends, obstacles and surveys", () => {
    references(`
//- catalogue/sites.hop
site KE$0LD { at 1 2 }
//   ^^^^
//- hops/a.hop
hop KELD-TARN {
  KELD { }
//^^^^
  TARN { }
  obstacle "wood" 14 m at 3 km from KELD
//                                  ^^^^
  survey "x.csv" from KELD
//                    ^^^^
}
//- hops/b.hop
hop KELD-MOSS { KELD { } }
//              ^^^^
`);
  });

  test("without the declaration", () => {
    references(
      `
radio R { }
radio Q like R { }
//           ^
hop H { radio R$0 }
//            ^
`,
      false,
    );
  });

  test("in defaults", () => {
    references(`
antenna A$0 { }
//      ^
defaults end { antenna A at 3 m }
//                     ^
`);
  });

  test("highlights stay in the file and tell the declaration", () => {
    const { model, file, offset } = fixture(
      "//- a.hop\nsite A$0 { }\nhop H { A { } }\n//- b.hop\nhop I { A { } }\n",
    );
    expect(highlightsAt(model, file, offset).map(({ start, kind }) => [start, kind])).toEqual([
      [5, "write"],
      [19, "read"],
    ]);
  });
});

/** All files after the rename, and the count of problems in the design before and after. */
function renamed(source: string, newName: string): string {
  const { model, file, offset } = fixture(source);
  const answer = renameAt(model, file, offset, newName);
  if ("problem" in answer) return `refused: ${answer.problem}`;
  const problems = () => [...model.allFiles()].flatMap(({ path }) => model.problemsOf(path)).length;
  const before = problems();
  const texts = [...model.allFiles()].map(({ path, text }) => {
    const edited = applyEdits(
      text,
      answer.edits.filter((edit) => edit.file === path),
    );
    return { path, edited };
  });
  for (const { path, edited } of texts) model.setFile(readSource(path, edited));
  expect(problems()).toBe(before);
  return texts
    .map(({ path, edited }) => (texts.length > 1 ? `//- ${path.slice(ROOT.length + 1)}\n${edited}` : edited))
    .join("");
}

describe("rename", () => {
  test("a site, across files and in every use", () => {
    expect(
      renamed(
        `//- sites.hop
site KELD$0 "Keld" { at 1 2 }
site TARN { at 1 3 }
//- hops.hop
hop KELD-TARN {
  KELD { }
  TARN { }
  obstacle "KELD" 14 m at 3 km from KELD // KELD
}
`,
        "KELD-QUARRY",
      ),
    ).toBe(`//- sites.hop
site KELD-QUARRY "Keld" { at 1 2 }
site TARN { at 1 3 }
//- hops.hop
hop KELD-TARN {
  KELD-QUARRY { }
  TARN { }
  obstacle "KELD" 14 m at 3 km from KELD-QUARRY // KELD
}
`);
  });

  test("a radio from one of its uses, `like` included", () => {
    expect(renamed("template radio R { }\nradio Q like R$0 { }\n", "BASE")).toBe(
      "template radio BASE { }\nradio Q like BASE { }\n",
    );
  });

  test("a plan in the channels that name it", () => {
    expect(renamed("plan P$0 { }\nhop H { channel P / 55 MHz / 1 }", "P18")).toContain(
      "channel P18 / 55 MHz / 1",
    );
  });

  test("both declarations of a doubled name", () => {
    expect(renamed("site A$0 { }\nsite A { }\n", "B")).toBe("site B { }\nsite B { }\n");
  });

  test("to the same name changes nothing", () => {
    expect(renamed("site A$0 { }\n", "A")).toBe("site A { }\n");
  });

  const site = "site A$0 { }\nsite B { }\nhop H { A { }\n obstacle 3 m at 1 km from A }\n";
  test.each([
    ["two words", "A B", /not one word/],
    ["nothing", "", /not one word/],
    ["quotes", '"A"', /not one word/],
    ["braces", "A{", /not one word/],
    ["a number", "18", /not one word/],
    ["a comment", "A//B", /not one word/],
    ["a line end", "A\nB", /not one word/],
    ["a name taken by the same kind", "B", /there is a site B already/],
    ["a property of a hop: the end would be read as one", "radio", /means something else in a hop/],
    ["a property that hops and others share", "climate", /means something else/],
  ])("refuses %s", (_, name, message) => {
    expect(renamed(site, name)).toMatch(message);
  });

  test("refuses a name that is used without being declared", () => {
    expect(renamed("site A$0 { }\nhop H { GHOST { } }", "GHOST")).toMatch(/GHOST is used already/);
  });

  test("a name taken by another kind is free", () => {
    expect(renamed("radio B { }\nsite A$0 { }\n", "B")).toContain("site B");
  });

  test("refuses a label in the place of the name", () => {
    expect(renamed("antenna A$0 { }\nhop H { K { antenna A at 3 m } }", "at")).toMatch(
      /means something else/,
    );
  });

  test("a word that is a property elsewhere is free where it cannot be mistaken", () => {
    expect(renamed("radio A$0 { }\nhop H { radio A }", "height")).toContain("radio height");
  });

  test("refuses the name of a built-in plan, and the renaming of one", () => {
    expect(renamed("plan P$0 { }", "F.595")).toMatch(/built-in/);
    expect(renamed("hop H { channel F.5$095 / 55 MHz / 4 }", "X")).toMatch(/built-in/);
  });

  test("says what is missing where there is no name", () => {
    const { model, file, offset } = fixture("site A { gro$0und 4 m }");
    expect(prepareRename(model, file, offset)).toEqual({ problem: expect.stringMatching(/no name here/) });
    expect(renamed("hop H { NOWHERE$0 { } }", "X")).toMatch(/declares no site NOWHERE/);
  });

  test("names the range and the present name", () => {
    const { model, file, offset } = fixture("hop H { radio R1$08 }\nradio R18 { }");
    expect(prepareRename(model, file, offset)).toEqual({ range: { start: 14, end: 17 }, name: "R18" });
  });
});

describe("a site takes the hops that carry its name along, when asked", () => {
  const text = (name: string) => `site A { at 47 -30 }
site B { at 47 -30.1 }
hop A-B { ${name} { }; B { } }
hop B-A-2 { A { }; B { } }
hop C-B { A { }; B { } }
hop X-A { B { }; A { } }
hop NEW-B { B { }; A { } }
`;

  test("in names whose part it is, unless that name is taken", () => {
    const { model, file } = fixture(text("A"));
    const answer = renameAt(model, file, "site A".length, "NEW");
    if ("problem" in answer) throw new Error(answer.problem);
    const renamed = answer.along.map(({ start, end, newText }) => [
      model.file(file)!.text.slice(start, end),
      newText,
    ]);
    // A-B would become NEW-B, which there is already.
    expect(renamed).toEqual([
      ["B-A-2", "B-NEW-2"],
      ["X-A", "X-NEW"],
    ]);
  });

  test("other things take nothing along", () => {
    const { model, file } = fixture(`${text("A")}antenna A { gain 30 dBi }\n`);
    const answer = renameAt(model, file, model.file(file)!.text.indexOf("antenna A") + 9, "NEW");
    expect("along" in answer && answer.along).toEqual([]);
  });
});
