import { describe, expect, test } from "vitest";
import type { FolderEntry } from "../../../language/editor/complete-paths.js";
import { completionAt } from "../../../language/editor/completion.js";
import type { JudgedHop } from "../../../language/editor/results.js";
import { lineSnippet } from "../../../language/editor/snippet.js";
import { applyEdits } from "../../../language/editor/text-range.js";
import { readSource } from "../../../language/model/source-file.js";
import { PROPERTIES } from "../../../language/schema/index.js";
import { fixture } from "../../support/fixture.js";
import { PREAMBLE } from "./judged.js";

function allItems(source: string) {
  const { model, file, offset } = fixture(source);
  return completionAt(model, file, offset).items;
}

/** Without the word for what is still open, which stands last wherever a hop decides something. */
function items(source: string) {
  return allItems(source).filter(({ label }) => label !== "?");
}

function labels(source: string): string[] {
  return items(source).map(({ label }) => label);
}

/** The text after choosing an item; tab stops stay as they are. */
function chosen(source: string, label: string): string {
  const { model, file, offset } = fixture(source);
  const item = completionAt(model, file, offset).items.find((one) => one.label === label);
  if (!item) throw new Error(`${label} is not offered`);
  return applyEdits(model.file(file)!.text, [{ file, ...item.replace, newText: item.insertText }]);
}

const inHop = (line: string) => `${PREAMBLE}
hop KELD-TARN {
  radio R18
  channel F.595 / 55 MHz / 4
  ${line}
}
site MOSS { at 47.6 -30.2 }
`;

const inEnd = (line: string, more = "") =>
  inHop(`${more}KELD {
    ${line}
  }`);

test("what a hop decides may be left open; it stands last, and an entry of the catalogue has no such word", () => {
  const last = (source: string) => allItems(source).at(-1)?.label;
  for (const line of ["polarization $0", "radio $0", "objective $0", "arrangement $0"])
    expect(last(inHop(line)), line).toBe("?");
  for (const line of ["antenna $0", "transmits $0"]) expect(last(inEnd(line)), line).toBe("?");
  expect(chosen(inHop("polarization $0"), "?")).toContain("  polarization ?\n");
  expect(allItems("coupler H {\n  kind $0\n}").map(({ label }) => label)).not.toContain("?");
});

describe("statements", () => {
  test("at the left margin: what can be declared", () => {
    const found = labels("$0");
    expect(found).toEqual(
      expect.arrayContaining(["network", "site", "hop", "radio", "template", "defaults"]),
    );
    expect(found).not.toContain("rain");
  });

  test("a declaration comes as a block with its name to be filled in", () => {
    expect(chosen("si$0", "site")).toBe(`site \${1:KELD} "\${2:Keld quarry}" {\n  $0\n}`);
  });

  test("behind `template` only what can be inherited", () => {
    expect(labels("template $0")).toEqual([
      "objective",
      "radio",
      "antenna",
      "coupler",
      "feeder",
      "cable",
      "chassis",
      "card",
    ]);
    expect(labels("template ra$0")).toEqual(["radio"]);
  });

  test("on an empty line in a block: its properties, given ones left out", () => {
    const found = labels("site KELD {\n  ground 4 m\n  $0\n}");
    expect(found.slice(0, 2)).toEqual(["at", "structure"]);
    expect(found).not.toContain("ground");
  });

  test("repeatable properties stay", () => {
    expect(labels("radio R { mode 55 MHz QPSK\n  $0 }")).toContain("mode");
  });

  test("in a hop: properties, and sites that are no end yet, the one in its name first", () => {
    const found = labels(inHop("KELD { }\n  $0"));
    expect(found[0]).toBe("TARN");
    expect(found).toContain("MOSS");
    expect(found).toContain("polarization");
    // A hop of several carriers has further channels.
    expect(found).toContain("channel");
    for (const given of ["KELD", "radio"]) expect(found).not.toContain(given);
  });

  test("the second end takes the other half", () => {
    expect(chosen(inHop("KELD { transmits high }\n  TA$0"), "TARN")).toContain("transmits low\n}");
  });

  test("no third end", () => {
    expect(labels(inHop("KELD { }\n  TARN { }\n  $0"))).not.toContain("MOSS");
  });

  test("a fixed mode closes the adaptive range", () => {
    expect(labels(inHop("mode 55 MHz QPSK\n  $0"))).not.toContain("modes");
  });

  test("in an end: what an end may state", () => {
    const found = labels(inEnd("antenna DISH60-18 at 4 m\n    $0"));
    expect(found).toEqual(expect.arrayContaining(["height", "coupler", "feeder", "transmits", "power"]));
    expect(found).not.toContain("antenna");
    expect(found).not.toContain("radio");
  });

  test("behind a semicolon a statement begins", () => {
    expect(labels("site KELD { ground 4 m; $0 }").slice(0, 2)).toEqual(["at", "structure"]);
  });

  test("in a block that is not closed, with another declaration behind it", () => {
    const begun = labels("site KELD {\n  ground 4 m\n  $0\nsite TARN { at 1 2 }");
    expect(begun.slice(0, 2)).toEqual(["at", "structure"]);
  });

  test("in blocks not closed at the end of the file", () => {
    expect(labels(`${PREAMBLE}\nhop A {\n  KELD {\n    trans$0`)).toContain("transmits");
  });

  test("climate of the network and of a hop", () => {
    expect(labels('network "N" {\n  climate {\n    $0\n  }\n}')).toContain("rain");
    expect(labels(inHop("climate { $0 }"))).toContain("logK");
  });

  test("the letters typed are replaced, and the rest of the word with them", () => {
    expect(chosen("site KELD { gro$0un 4 m }", "ground")).toBe(`site KELD { ground \${1:412} m 4 m }`);
  });
});

describe("nothing is offered", () => {
  test.each([
    ["in a line comment", "site KELD { // gro$0\n}"],
    ["behind a line comment's last letter", "// site $0"],
    ["in a block comment", "/* site\n $0 */"],
    ["in quotes", 'site KELD "Ke$0ld" { }'],
    ["in quotes that are not closed", 'terrain "te$0'],
    ["in a path", 'network "N" { terrain "te$0rrain" }'],
    ["for a name being declared", "site $0"],
    ["behind an unknown word", "site KELD { wibble $0 }"],
    ["in a block of unknown meaning", "wibble KELD { $0 }"],
    ["behind a complete statement", "site KELD { ground 4 m $0 }"],
    ["in an empty file that is not there", "//- a.hop\n// $0"],
  ])("%s", (_, source) => {
    expect(labels(source)).toEqual([]);
  });
});

describe("units", () => {
  test.each([
    ["behind a number", inEnd("antenna DISH60-18 at 24 $0")],
    ["with the unit begun", inEnd("antenna DISH60-18 at 24 m$0")],
    ["with more of the line behind it", inHop("obstacle 14 $0 at 3 km from KELD")],
  ])("of the dimension %s", (_, source) => {
    expect(labels(source)[0]).toBe("m");
    expect(labels(source)).not.toContain("GHz");
  });

  test("glued to the number they are written with a space", () => {
    expect(chosen("site KELD { ground 412$0 }", "412 m")).toBe("site KELD { ground 412 m }");
  });

  test("rain rate has one unit", () => {
    expect(labels('network "N" { climate { rain 34 $0 } }')).toEqual(["mm/h"]);
  });
});

describe("values and labels", () => {
  test("words of a choice with their meaning", () => {
    expect(items(inHop("polarization $0")).map(({ label, detail }) => `${label}: ${detail}`)).toEqual([
      "horizontal: electric field horizontal",
      "vertical: electric field vertical",
      "slant: linear at 45 degrees",
    ]);
  });

  test("phrases of several words", () => {
    expect(labels(inHop("arrangement $0"))).toContain("1+1 hot-standby");
    expect(chosen(inHop("arrangement 1+1 $0"), "1+1 space-diversity")).toContain(
      "  arrangement 1+1 space-diversity\n",
    );
    expect(chosen(inHop("arrangement 1+1 sp$0"), "1+1 space-diversity")).toContain(
      "  arrangement 1+1 space-diversity\n",
    );
  });

  test("labels still free", () => {
    expect(labels(inHop("accept clearance $0"))).toEqual(["until", "because"]);
    expect(labels(inHop('accept clearance $0 because "x"'))).toEqual(["until"]);
    expect(labels("radio A {}\nradio B $0")).toEqual(["like"]);
    expect(labels("radio R { mode 55 MHz QPSK rate 3 Mbit/s $0 }")).toEqual(["power", "threshold", "snr"]);
  });

  test("labels of several words, from the first and from the second", () => {
    expect(labels("objective o { clearance 1 F1 $0 }")).toEqual(["at k"]);
    expect(labels("objective o { clearance 1 F1 at $0 }")).toEqual(["k"]);
  });

  test("a half or a frequency", () => {
    expect(labels(inEnd("transmits $0")).slice(0, 2)).toEqual(["high", "low"]);
  });

  test("rule identifiers behind accept, those about acceptances left out", () => {
    const found = labels(inHop("accept $0"));
    expect(found).toContain("clearance");
    expect(found).not.toContain("acceptance-unused");
    const atSite = labels("site S { accept $0 }");
    expect(atSite).toContain("rack-full");
    expect(atSite).not.toContain("clearance");
  });
});

describe("names", () => {
  test("of the right kind only, with their titles", () => {
    const source = 'radio R { }\nobjective o "Ring" { }\nhop H { objective $0 }';
    expect(items(source).map(({ label, detail }) => [label, detail])).toEqual([["o", "Ring"]]);
  });

  test("equipment for the hop's frequency first", () => {
    expect(labels(inEnd("antenna $0"))).toEqual(["DISH60-18", "DISH120-7"]);
  });

  test("couplers for the arrangement first", () => {
    expect(labels(inHop("arrangement 2+0 xpic\n  KELD { coupler $0 }"))[0]).toBe("O18");
  });

  test("of an end's own arrangement: those that go with the other end's first, couplers for it", () => {
    const first = (source: string, count: number) => labels(source).slice(0, count);
    const three = ["1+0", "1+1 hot-standby", "1+1 hot-standby two-antennas", "1+1 space-diversity"];
    expect(first(inEnd("arrangement $0"), 4)).toEqual(three);
    expect(first(inEnd("arrangement $0", "arrangement 2+0 xpic\n  "), 2)).toEqual([
      "1+1 xpic four-units",
      "2+0 xpic",
    ]);
    // What the other end states of its own comes before what the hop states.
    const far = inEnd("arrangement $0\n", "arrangement 2+0 xpic\n  TARN { arrangement all-outdoor 1+0 }\n  ");
    expect(first(far, 2)).toEqual(["all-outdoor 1+0", "all-outdoor 1+1 hot-standby"]);
    const coupler = (own: string) => labels(inEnd(`arrangement ${own}\n    coupler $0`))[0];
    expect(coupler("1+1 hot-standby")).toBe("H18-E");
    expect(coupler("2+0 xpic")).toBe("O18");
  });

  test("templates only behind like, and never the entry itself", () => {
    const source = (line: string) => `template radio T { }\nradio A { }\n${line}`;
    expect(labels(source("hop H { radio $0 }"))).toEqual(["A"]);
    expect(labels(source("radio B like $0 { }"))).toEqual(["T", "A"]);
  });

  test("from counts from an end of the hop", () => {
    const source = inHop('KELD { }\n  TARN { }\n  obstacle "wood" 14 m at 3 km from $0');
    expect(labels(source)).toEqual(["KELD", "TARN"]);
  });

  test("a survey is by field or by map, and a network bridges gaps", () => {
    expect(labels(inHop('survey "x.csv" from KELD by $0'))).toEqual(["field", "map"]);
    expect(labels('network "N" {\n  brid$0\n}')).toContain("bridge-gaps");
  });

  test("a word typed in the middle of a name replaces all of it", () => {
    expect(chosen(inEnd("antenna DISH60$0-x at 4 m"), "DISH60-18")).toContain(
      "    antenna DISH60-18 at 4 m\n",
    );
  });
});

describe("channel and modes", () => {
  const own =
    'plan P18 "raster" {\n  centre 18.7 GHz\n  row 55 MHz go -1000 MHz return 10 MHz channels 1 to 3\n}\n';
  const channel = (line: string) =>
    `${own}radio R18 { tuning 17.7 GHz to 19.7 GHz; mode 55 MHz QPSK rate 78 Mbit/s power 24 dBm\n mode 27.5 MHz 16QAM }\nhop H { radio R18\n ${line}\n}`;

  test("plans that the radio can tune to come first, the design's own with them", () => {
    const found = labels(channel("channel $0"));
    expect(found).toContain("F.637");
    expect(found.indexOf("P18")).toBeLessThan(found.indexOf("F.637"));
    expect(found.indexOf("F.595-17700-19700")).toBeLessThan(found.indexOf("F.637"));
  });

  test("widths of the plan, with the slash while it is missing", () => {
    expect(labels(channel("channel P18 / $0"))).toEqual(["55 MHz"]);
    expect(chosen(channel("channel P18 $0"), "/ 55 MHz")).toContain("channel P18 / 55 MHz\n");
  });

  test("numbers with the frequencies they stand for", () => {
    const found = items(channel("channel P18 / 55 MHz / $0"));
    expect(found.map(({ label }) => label)).toEqual(["1", "2", "3"]);
    // f(n) = 18.7 GHz - 1000 MHz + n 55 MHz, f'(n) = 18.7 GHz + 10 MHz + n 55 MHz
    expect(found[1]?.detail).toBe("low 17.81 GHz, high 18.82 GHz");
  });

  test("of a short name that several plans share, the channels of the one the radio works in", () => {
    const r15 = "radio R15 { tuning 14.4 GHz to 15.35 GHz; duplex 490 MHz; mode 28 MHz QPSK }\n";
    const hop = (line: string) => `${r15}hop H { radio R15\n ${line}\n}`;
    const found = items(hop("channel F.636 / 28 MHz / $0"));
    // f(1) = 11701 + 2786 + 28 MHz, and 490 MHz above it.
    expect(found[0]).toMatchObject({ label: "1", detail: "low 14.515 GHz, high 15.005 GHz, not confirmed" });
    // Its reference frequency lies far below the band.
    const plans = labels(hop("channel $0"));
    expect(plans.indexOf("F.636-14500-15350-490")).toBeLessThan(plans.indexOf("F.637"));
  });

  test("widths and modulations of the hop's radio", () => {
    expect(labels(channel("mode $0"))).toEqual(["27.5 MHz", "55 MHz"]);
    expect(items(channel("mode 55 MHz $0")).map(({ label, detail }) => `${label}: ${detail}`)).toEqual([
      "QPSK: 78 Mbit/s, 24.0 dBm",
    ]);
    expect(labels(channel("modes 27.5 MHz 16QAM to $0"))).toEqual(["16QAM"]);
  });

  test("the radio may come from the defaults", () => {
    const source = "defaults hop { radio R }\nradio R { mode 7 MHz QPSK }\nhop H { mode 7 MHz $0 }";
    expect(labels(source)).toEqual(["QPSK"]);
  });
});

test("a long list is cut, and what is typed decides which part of it is shown", () => {
  const sites = Array.from({ length: 500 }, (_, i) => `site S${i} { }`).join("\n");
  const at = (source: string) => {
    const { model, file, offset } = fixture(source);
    return completionAt(model, file, offset!);
  };
  const all = at(`${sites}\nhop H { $0 }`);
  expect(all.items).toHaveLength(400);
  expect(all.cut).toBe(true);
  const few = at(`${sites}\nhop H { S49$0 }`);
  expect(few.items.map(({ label }) => label)).toContain("S499");
  expect(few.cut).toBe(false);
});

test("what a snippet inserts, its tab stops at their first values, reads without a problem of form", () => {
  for (const property of PROPERTIES) {
    for (const context of property.in) {
      const snippet = lineSnippet(property, context);
      const filled = snippet
        .replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, "$1")
        .replace(/\$\{\d+:((?:\\.|[^}\\])*)\}/g, (_, text: string) => text.replace(/\\(.)/g, "$1"))
        .replace(/\$[1-9]/g, "NAME1")
        .replace("$0", "");
      const wrapped: Record<string, (inner: string) => string> = {
        file: (inner) => inner,
        climate: (inner) => `network "N" { climate {\n${inner}\n} }`,
        network: (inner) => `network "N" {\n${inner}\n}`,
        end: (inner) => `hop H { KELD {\n${inner}\n} }`,
        interference: (inner) => `interference {\n${inner}\n}`,
        others: (inner) => `others "x.csv" {\n${inner}\n}`,
        licence: (inner) => `licence "F-1" of H from S {\n${inner}\n}`,
        "as-built": (inner) => `hop H { KELD { as-built {\n${inner}\n} } }`,
        spectrum: (inner) => `radio R { spectrum {\n${inner}\n} }`,
        service: (inner) => `site S { service "mill" 1 GE {\n${inner}\n} }`,
        "site chassis": (inner) => `site S { chassis C {\n${inner}\n} }`,
        "defaults hop": (inner) => `defaults hop {\n${inner}\n}`,
        "defaults end": (inner) => `defaults end {\n${inner}\n}`,
        traffic: (inner) => `traffic {\n${inner}\n}`,
        "defaults demand": (inner) => `defaults demand {\n${inner}\n}`,
        "defaults site": (inner) => `defaults site {\n${inner}\n}`,
      };
      const text = (wrapped[context] ?? ((inner: string) => `${context} X {\n${inner}\n}`))(filled);
      expect(readSource("/x.hop", text).problems, text).toEqual([]);
    }
  }
});

describe("what leads on", () => {
  const sites = `site FELL { at 47.5 -30.3 }\nsite MOSS { at 47.52 -30.3 }\nsite OXER { at 47.6 -30.3 }\nsite FAR { at 10 10 }\n`;

  test("a new hop is named by two sites that none joins yet, the nearest first, and comes with its ends", () => {
    const text = `${sites}hop FELL-MOSS { FELL {}; MOSS {} }\nhop $0`;
    expect(labels(text)).toEqual(["MOSS-OXER", "FELL-OXER"]);
    expect(chosen(text, "MOSS-OXER")).toMatch(
      /hop MOSS-OXER \{\n {2}MOSS \{\n[^}]*\}[\s\S]*OXER \{[\s\S]*transmits low/,
    );
    expect(chosen(`${sites}hop F$0 { }`, "FELL-OXER")).toContain("hop FELL-OXER { }");
  });

  test("modes come with the width of the channel and what the radio has there", () => {
    expect(chosen(inHop("mod$0"), "modes")).toContain("modes 55 MHz ${1|QPSK,128QAM|} to ${2|128QAM,QPSK|}");
    expect(chosen(inHop("mod$0"), "mode")).toContain("mode 55 MHz ${1|QPSK,128QAM|}");
  });

  test("of units the usual one comes first", () => {
    expect(labels(inHop("mode 55 $0"))[0]).toBe("MHz");
    expect(labels("site A { ground 412 $0 }")[0]).toBe("m");
    expect(labels("radio R { tuning 17.7 $0 }")[0]).toBe("GHz");
  });

  test("what says what a word is for ends at the end of its sentence", () => {
    const details = [...PROPERTIES].map(({ meaning }) => meaning).filter((meaning) => /\.\S/.test(meaning));
    expect(details.length).toBeGreaterThan(0);
    const found = items('network "x" { climate { $0 } }').find(({ label }) => label === "dN75");
    expect(found?.detail).toMatch(/0\.1 %/);
  });

  test("`accept` offers what was found there first", () => {
    const { model, file, offset } = fixture(inHop("accept $0"));
    const finding = {
      rule: "overload",
      severity: "error",
      at: "hop KELD-TARN",
      message: "too loud",
    } as const;
    const judged = { findings: [finding] } as unknown as JudgedHop;
    const [first] = completionAt(model, file, offset, { results: () => judged }).items;
    expect([first?.label, first?.detail]).toEqual(["overload", "too loud"]);
  });

  test("paths are those of the disk that the property can read", () => {
    const folders: Record<string, readonly FolderEntry[]> = {
      "/design": [
        { name: "survey", isFolder: true },
        { name: ".git", isFolder: true },
        { name: "a.csv", isFolder: false },
        { name: "N47.hgt", isFolder: false },
      ],
      "/design/survey": [{ name: "keld.csv", isFolder: false }],
      "/": [{ name: "other", isFolder: true }],
    };
    const offered = (source: string) => {
      const { model, file, offset } = fixture(source);
      const found = completionAt(model, file, offset, { list: (folder) => folders[folder] }).items;
      const text = model.file(file)!.text;
      return found.map((one) => applyEdits(text, [{ file, ...one.replace, newText: one.insertText }]));
    };
    expect(offered('hop H { survey "$0" }')).toEqual([
      'hop H { survey "a.csv" }',
      'hop H { survey "survey" }',
      'hop H { survey ".." }',
    ]);
    expect(offered('hop H { survey "survey/k$0" }')).toEqual(['hop H { survey "survey/keld.csv" }']);
    expect(offered('network "N" { terrain "$0" }')).toContain('network "N" { terrain "N47.hgt" }');
    expect(offered('network "N" { catalogue "../$0" }')).toContain('network "N" { catalogue "../other" }');
    expect(offered('network "N" { catalogue "nowhere/$0" }')).toEqual([]);
    // Titles are nothing to look up.
    expect(offered('site A "$0"')).toEqual([]);
  });

  test("nothing is offered twice", () => {
    const places = [
      inHop("$0"),
      inHop("mode $0"),
      inHop("mode 55$0"),
      inEnd("$0"),
      inEnd("antenna $0"),
      "$0",
    ];
    for (const place of [...places, "radio R { $0 }", 'network "N" { $0 }', "hop H { accept $0 }"]) {
      const texts = items(place).map(({ insertText }) => insertText);
      expect(new Set(texts).size, place).toBe(texts.length);
    }
  });
});
