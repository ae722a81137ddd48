/** What is wrong with a text is said at the right range, and the rest of the file is still read. */
import { describe, expect, it } from "vitest";
import { fixture } from "../support/fixture.js";

/** Problems of every file of the fixture, each with the marked columns it stands at. */
function problems(source: string): string[] {
  const { model } = fixture(source);
  return [...model.allFiles()].flatMap((file) =>
    model
      .problemsOf(file.path)
      .map(
        (problem) => `${problem.rule}: ${file.text.slice(problem.start, problem.end)}: ${problem.message}`,
      ),
  );
}

function firstFixApplied(source: string): string {
  const { model } = fixture(source);
  const [file] = [...model.allFiles()];
  const fix = model.problemsOf(file!.path)[0]!.fixes![0]!;
  return file!.text.slice(0, fix.start) + fix.newText + file!.text.slice(fix.end);
}

/** A case holds one problem, standing on exactly `at`, whose message contains `says`; its first fix makes `mended` of the text. */
const CASES: readonly {
  name: string;
  text: string;
  rule: string;
  at: string;
  says: string;
  mended?: string;
}[] = [
  {
    name: "a second channel is one more line of channel",
    text: "site K {}\nsite L {}\nhop A {\n  second-channel F.595 / 55 MHz / 6\n  K {}\n  L {}\n}",
    rule: "unknown-word",
    at: "second-channel",
    says: "channel",
    mended: "site K {}\nsite L {}\nhop A {\n  channel F.595 / 55 MHz / 6\n  K {}\n  L {}\n}",
  },
  {
    name: "a wrong dimension lists the right units",
    text: "site KELD {\n  ground 4 GHz\n}",
    rule: "wrong-dimension",
    at: "4 GHz",
    says: "a length is wanted here: m, km",
  },
  {
    name: "a number without unit",
    text: "site KELD {\n  ground 412\n}",
    rule: "unit-missing",
    at: "412",
    says: "412 needs a unit",
  },
  {
    name: "a misspelt unit",
    text: "site KELD {\n  ground 412 mtr\n}",
    rule: "unit-missing",
    at: "mtr",
    says: "not a unit",
  },
  {
    name: "a misspelt glued unit",
    text: "radio R {\n  duplex 1010MHzz\n}",
    rule: "unit-missing",
    at: "MHzz",
    says: "not a unit",
  },
  {
    name: "a decimal comma",
    text: "site KELD {\n  ground 412,5 m\n}",
    rule: "value-range",
    at: "412,5",
    says: "write 412.5",
  },
  {
    name: "latitude 95",
    text: "site KELD {\n  at 95 -3.1\n}",
    rule: "value-range",
    at: "95 -3.1",
    says: "beyond 90",
  },
  {
    name: "minutes of 61",
    text: `site KELD {\n  at 54°61'N 3°W\n}`,
    rule: "value-range",
    at: "54°61'N 3°W",
    says: "not below 60",
  },
  {
    name: "negative height",
    text: "hop A {\n  K {\n    height -4 m\n  }\n  L {}\n}\nsite K {}\nsite L {}",
    rule: "value-range",
    at: "-4 m",
    says: "the least is 0 m",
  },
  {
    name: "0 GHz",
    text: "radio R {\n  tuning 0 GHz to 19 GHz\n}",
    rule: "value-range",
    at: "0 GHz",
    says: "the least is 1 GHz",
  },
  {
    name: "an infinite value",
    text: "site KELD {\n  ground 1e999 m\n}",
    rule: "value-range",
    at: "1e999 m",
    says: "not a possible",
  },
  {
    name: "31 April",
    text: 'site K {}\nsite L {}\nhop A {\n  accept clearance until 2027-04-31 because "x"\n  K {}\n  L {}\n}',
    rule: "value-range",
    at: "2027-04-31",
    says: "not a day",
  },
  {
    name: "an unknown word",
    text: "site KELD {\n  groud 412 m\n}",
    rule: "unknown-word",
    at: "groud",
    says: "did you mean ground?",
  },
  {
    name: "a word of the trade that the language calls otherwise",
    text: "site KELD {\n  elevation 412 m\n}",
    rule: "unknown-word",
    at: "elevation",
    says: "did you mean ground?",
    mended: "site KELD {\n  ground 412 m\n}",
  },
  {
    name: "a choice where its property belongs",
    text: "site KELD {\n  tower 30 m\n}",
    rule: "unknown-word",
    at: "tower",
    says: "did you mean structure tower?",
    mended: "site KELD {\n  structure tower 30 m\n}",
  },
  {
    name: "a word of the trade that is a property elsewhere",
    text: "radio R {\n  band 17.7 GHz to 19.7 GHz\n}",
    rule: "unknown-word",
    at: "band",
    says: "did you mean tuning?",
    mended: "radio R {\n  tuning 17.7 GHz to 19.7 GHz\n}",
  },
  {
    name: "a threshold without its minus",
    text: "radio R {\n  mode 55 MHz 128QAM threshold 70 dBm\n}",
    rule: "value-range",
    at: "70 dBm",
    says: "the most is 0 dBm; is -70 dBm meant?",
    mended: "radio R {\n  mode 55 MHz 128QAM threshold -70 dBm\n}",
  },
  {
    name: "a depth where a height belongs",
    text: "defaults end {\n  height -24 m\n}",
    rule: "value-range",
    at: "-24 m",
    says: "is 24 m meant?",
    mended: "defaults end {\n  height 24 m\n}",
  },
  {
    name: "a number without its minus",
    text: 'network "N" {\n  climate {\n    logK 4.2\n  }\n}',
    rule: "value-range",
    at: "4.2",
    says: "is -4.2 meant?",
    mended: 'network "N" {\n  climate {\n    logK -4.2\n  }\n}',
  },
  {
    name: "a misspelt declaration",
    text: "stie KELD {\n  ground 412 m\n}",
    rule: "unknown-word",
    at: "stie",
    says: "did you mean site?",
  },
  {
    name: "a fact in the wrong block",
    text: "site KELD {\n  radio R18\n}",
    rule: "misplaced",
    at: "radio",
    says: "belongs at the left margin or in a hop",
  },
  {
    name: "a block where none belongs",
    text: "site KELD {\n  ground 4 m {\n  }\n}",
    rule: "misplaced",
    at: "{",
    says: "ground has no block",
  },
  {
    name: "a value missing",
    text: "site KELD {\n  structure mast\n}",
    rule: "missing-value",
    at: "structure mast",
    says: "a length in m",
  },
  {
    name: "a label without value",
    text: "antenna A {\n  gain 38 dBi at\n}",
    rule: "missing-value",
    at: "at",
    says: "at needs a frequency",
  },
  {
    name: "a value too many",
    text: "site KELD {\n  ground 4 m 5 m\n}",
    rule: "unexpected-value",
    at: "5 m",
    says: "ends before it",
  },
  {
    name: "a misspelt label",
    text: "antenna A {\n  gain 38 dBi att 18 GHz\n}",
    rule: "unexpected-value",
    at: "att 18 GHz",
    says: "may go on with at",
  },
  {
    name: "a string where a quantity belongs",
    text: 'site KELD {\n  ground "high"\n}',
    rule: "unexpected-value",
    at: '"high"',
    says: "a length",
  },
  {
    name: "an unknown choice",
    text: "site KELD {\n  structure mats 30 m\n}",
    rule: "unknown-choice",
    at: "mats",
    says: "did you mean mast? Possible: mast, tower",
  },
  {
    name: "an ambiguous short form",
    text: "defaults hop {\n  arrangement 1+1\n}",
    rule: "unknown-choice",
    at: "1+1",
    says: "can mean several things",
  },
  {
    name: "a choice in other letters",
    text: "defaults hop {\n  arrangement 2+0 XPIC\n}",
    rule: "unknown-choice",
    at: "2+0 XPIC",
    says: "did you mean 2+0 xpic?",
    mended: "defaults hop {\n  arrangement 2+0 xpic\n}",
  },
  {
    name: "a choice of one word in other letters",
    text: "defaults hop {\n  polarization Vertical\n}",
    rule: "unknown-choice",
    at: "Vertical",
    says: "did you mean vertical?",
  },
  {
    name: "a long choice misspelt",
    text: "defaults hop {\n  arrangement 1+1 hot-stanby\n}",
    rule: "unknown-choice",
    at: "1+1 hot-stanby",
    says: "did you mean 1+1 hot-standby?",
  },
  {
    name: "slashes without blanks",
    text: "site K {}\nsite L {}\nhop A {\n  channel F.595/55 MHz/3\n  K {}\n  L {}\n}",
    rule: "unexpected-value",
    at: "F.595/55 MHz/3",
    says: "put blanks around each /: channel F.595 / 55 MHz / 3",
    mended: "site K {}\nsite L {}\nhop A {\n  channel F.595 / 55 MHz / 3\n  K {}\n  L {}\n}",
  },
  {
    name: "one slash without blanks",
    text: "site K {}\nsite L {}\nhop A {\n  channel F.595 / 55 MHz/3\n  K {}\n  L {}\n}",
    rule: "unexpected-value",
    at: "F.595 / 55 MHz/3",
    says: "put blanks",
    mended: "site K {}\nsite L {}\nhop A {\n  channel F.595 / 55 MHz / 3\n  K {}\n  L {}\n}",
  },
  {
    name: "an angle without its signs",
    text: "site K {\n  at 47 41 15 N 30 28 6 W\n}",
    rule: "value-range",
    at: "47 41 15 N 30 28 6 W",
    says: "write the signs for degrees, minutes and seconds, 47°41'15\"N",
  },
  {
    name: "a name of which only the beginning is written",
    text: "defaults hop {\n  radio R1\n}\nradio R18-HIGH {}\nradio R18-LOW {}\nradio R2-LONG {}",
    rule: "unknown-name",
    at: "R1",
    says: "did you mean R18-HIGH or R18-LOW?",
    mended: "defaults hop {\n  radio R18-HIGH\n}\nradio R18-HIGH {}\nradio R18-LOW {}\nradio R2-LONG {}",
  },
  {
    name: "a fact stated twice",
    text: "site KELD {\n  ground 4 m\n  ground 5 m\n}",
    rule: "doubled-fact",
    at: "ground",
    says: "the first one counts",
  },
  {
    name: "a name declared twice",
    text: "site KELD {}\nsite KELD {}",
    rule: "doubled-name",
    at: "KELD",
    says: "declared twice",
  },
  {
    name: "an unknown name",
    text: "defaults hop {\n  radio R19\n}\nradio R18 {}",
    rule: "unknown-name",
    at: "R19",
    says: "did you mean R18?",
  },
  {
    name: "a name of the wrong kind",
    text: "defaults hop {\n  radio KELD\n}\nsite KELD {}",
    rule: "wrong-kind",
    at: "KELD",
    says: "KELD is a site, but a radio is wanted",
  },
  {
    name: "a template installed",
    text: "defaults hop {\n  radio BASE\n}\ntemplate radio BASE {}",
    rule: "template-used",
    at: "BASE",
    says: "is a template",
  },
  {
    name: "a template of what has none",
    text: "template site KELD {}",
    rule: "misplaced",
    at: "site",
    says: "no templates of a site",
  },
  {
    name: "a loop of like",
    text: "radio A like B {}\nradio B like C {}\nradio C like B {}\nradio D {}",
    rule: "inheritance-loop",
    at: "B",
    says: "inherits from itself",
  },
  {
    name: "an unclosed brace",
    text: "site KELD {\n  ground 4 m\nsite TARN {\n  ground 5 m\n}",
    rule: "syntax",
    at: "{",
    says: "never closed",
  },
  {
    name: "an unclosed inner brace",
    text: "hop KELD-TARN {\n  KELD {\n    transmits high\n  TARN {\n    transmits low\n  }\n}\nsite KELD {}\nsite TARN {}",
    rule: "syntax",
    at: "{",
    says: "never closed",
  },
  {
    name: "a brace too many",
    text: "site KELD {\n}\n}\nsite TARN {}",
    rule: "syntax",
    at: "}",
    says: "closes nothing",
  },
  {
    name: "an unclosed string",
    text: 'site KELD "Keld {\n',
    rule: "syntax",
    at: '"Keld {',
    says: "not closed",
  },
  {
    name: "an unclosed comment",
    text: "site KELD {}\n/* half\n",
    rule: "syntax",
    at: "/*",
    says: "comment is not closed",
  },
  { name: "a block without a name", text: "{\n}\n", rule: "syntax", at: "{", says: "needs a name" },
  {
    name: "three ends",
    text: "site A {}\nsite B {}\nsite C {}\nhop H {\n  A {}\n  B {}\n  C {}\n}",
    rule: "hop-ends",
    at: "C",
    says: "has 3 ends",
  },
  {
    name: "twice the same end",
    text: "site A {}\nhop H {\n  A {}\n  A {}\n}",
    rule: "hop-ends",
    at: "A",
    says: "both ends of H are A",
  },
  {
    name: "one end yet",
    text: "site A {}\nhop H {\n  A {}\n}",
    rule: "hop-ends",
    at: "H",
    says: "one end yet, A",
  },
  {
    name: "a mode the radio has not",
    text: "radio R {\n  mode 55 MHz QPSK\n}\nhop H {\n  radio R\n  mode 55 MHz QPSKK\n  A {}\n  B {}\n}\nsite A {}\nsite B {}",
    rule: "unknown-mode",
    at: "QPSKK",
    says: "did you mean QPSK? It has QPSK",
  },
  {
    name: "a width the radio has not",
    text: "radio R {\n  mode 55 MHz QPSK\n}\nhop H {\n  radio R\n  mode 28 MHz QPSK\n  A {}\n  B {}\n}\nsite A {}\nsite B {}",
    rule: "unknown-mode",
    at: "28 MHz",
    says: "it has 55 MHz",
  },
  {
    name: "a channel off the plan",
    text: "hop H {\n  channel F.595 / 55 MHz / 99\n  A {}\n  B {}\n}\nsite A {}\nsite B {}",
    rule: "unknown-channel",
    at: "99",
    says: "has no channel 99",
  },
  {
    name: "an impossible width",
    text: "hop H {\n  channel F.595 / 56 MHz / 1\n  A {}\n  B {}\n}\nsite A {}\nsite B {}",
    rule: "unknown-channel",
    at: "56 MHz",
    says: "no channel of F.595 is 56 MHz wide",
  },
  {
    name: "55 GHz instead of MHz",
    text: "hop H {\n  channel F.595 / 55 GHz / 1\n  A {}\n  B {}\n}\nsite A {}\nsite B {}",
    rule: "value-range",
    at: "55 GHz",
    says: "the most is 5 GHz",
  },
  {
    name: "an obstacle from elsewhere",
    text: "hop H {\n  obstacle 14 m at 2 km from C\n  A {}\n  B {}\n}\nsite A {}\nsite B {}\nsite C {}",
    rule: "hop-ends",
    at: "C",
    says: "is not an end of this hop",
  },
  {
    name: "a survey from elsewhere",
    text: 'hop H {\n  survey "x.csv" from C by field\n  A {}\n  B {}\n}\nsite A {}\nsite B {}\nsite C {}',
    rule: "hop-ends",
    at: "C",
    says: "is not an end of this hop",
  },
  {
    name: "a survey made in a way that there is not",
    text: 'hop H {\n  survey "x.csv" by air\n  A {}\n  B {}\n}\nsite A {}\nsite B {}',
    rule: "unknown-choice",
    at: "air",
    says: "write one of: field, map",
  },
  {
    name: "ground below any land",
    text: "site A {\n  ground -501 m\n}",
    rule: "value-range",
    at: "-501 m",
    says: "the least is -500 m",
  },
  {
    name: "ground above any land",
    text: "site A {\n  ground 9001 m\n}",
    rule: "value-range",
    at: "9001 m",
    says: "the most is 9000 m",
  },
  {
    name: "bridges wider than anybody can answer for",
    text: 'network "N" {\n  bridge-gaps 1.1 km\n}',
    rule: "value-range",
    at: "1.1 km",
    says: "the most is 1 km",
  },
  {
    name: "a second network",
    text: 'network "A" {}\nnetwork "B" {}',
    rule: "many-networks",
    at: "network",
    says: "one network",
  },
];

describe("problems of a text", () => {
  it.each(CASES)("$name", ({ text, rule, at, says, mended }) => {
    const found = problems(text);
    const wanted = found.filter((line) => line.startsWith(`${rule}: ${at}`));
    expect(wanted, found.join("\n")).not.toHaveLength(0);
    expect(wanted.join("\n")).toContain(says);
    // One cause, one finding. (A loop is said at each entry that is in it or leads to it.)
    if (rule !== "inheritance-loop" && rule !== "syntax") expect(found).toHaveLength(1);
    if (mended !== undefined) expect(firstFixApplied(text)).toBe(mended);
  });

  it("finds nothing in the example of each fact", () => {
    const text = `
network "N" {
  climate {
    rain 34 mm/h at 0.01 %
    logK -4.2
    dN75 12 N/km
    k 1.33
    temperature 10 degC
  }
  objective trunk "Trunk" {
    availability 99.995 %
    clearance 1 F1 at k 1.33
  }
}
site KELD "Keld quarry" { at 54°27'12.4"N 3°04'51.0"W; structure mast 30 m }
site TARN { at 54.5 -3.2 }
template radio BASE { noise-figure 6 dB; mode 55 MHz QPSK rate 78 Mbit/s power 24 dBm snr 6 dB }
radio R18 like BASE { overload -20dBm }
antenna A18 { gain 38 dBi at 18.7GHz }
coupler H { kind hybrid; main-loss 1.6 dB; standby-loss 6.4 dB }
feeder F { loss 1.1 dB/m at 18 GHz }
hop KELD-TARN {
  objective trunk
  channel F.595 / 55 MHz / 4
  arrangement 1+1 hot-standby
  radio R18
  modes 55 MHz QPSK to QPSK
  KELD { antenna A18 at 24 m; coupler H direct; feeder F length 1.2 m; transmits high }
  TARN { antenna A18 at 28 m; transmits 17.7825 GHz }
  obstacle "spruce" 14 m at 6.2 km from TARN
  accept clearance until 2027-05-01 because "felled"
}
`;
    expect(problems(text)).toEqual([]);
  });

  it("judges the rest of a file with an error in the middle", () => {
    const { model } = fixture(
      "site A {\n  at 95 0\n}\nsite B {\n  ground 5 m\n}\nsite {\n  ground 4\nsite C {\n  ground 7 m\n}\n",
    );
    expect(model.lookup.site("B")?.groundM).toBe(5);
    expect(model.lookup.site("C")?.groundM).toBe(7);
  });
});
