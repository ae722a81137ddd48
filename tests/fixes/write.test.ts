/** Changes of facts, written: what is asked for stands there, all else is as it was, and what finds no place is not made. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { editsOf } from "../../language/editor/fixes/write.js";
import { applyEdits } from "../../language/editor/text-range.js";
import type { Fact } from "../../language/facts/fact.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import type { FactChange } from "../../shared/design/fact-change.js";

const FILE = "/design/a.hop";

function written(text: string, ...changes: readonly FactChange[]): string | undefined {
  const model = new DesignModel("/design");
  model.setFile(readSource(FILE, text));
  const edits = editsOf(model, changes);
  return edits && applyEdits(text, edits);
}

const HOP = `hop K-T {
  radio R  // ours
  channel F.595 / 55 MHz / 4
  channel F.595 / 55 MHz / 5
  K { antenna A at 20 m; transmits high }
  T {
  }
}
site K {
  chassis C {
    card D
  }
  chassis C {
    slot 3 E
    card D 2
  }
}
demand D {
  committed 200 Mbit/s
  priority 2
}
`;
const at = "hop K-T";

describe.each<readonly [string, readonly FactChange[], string | undefined, string | undefined]>([
  ["states in place", [{ do: "state", in: at, line: "radio S" }], "radio R ", "radio S "],
  [
    "states in a demand",
    [{ do: "state", in: "demand D", line: "latency 5 ms" }],
    "Mbit/s\n  priority",
    "Mbit/s\n  latency 5 ms\n  priority",
  ],
  [
    "replaces in a demand",
    [{ do: "replace", at: "demand D / committed", argument: "rate", by: "300 Mbit/s" }],
    "200 Mbit/s",
    "300 Mbit/s",
  ],
  [
    "states anew where the order has it",
    [{ do: "state", in: at, line: "polarization vertical" }],
    "/ 5\n",
    "/ 5\n  polarization vertical\n",
  ],
  [
    "states in the place of another word",
    [{ do: "state", in: at, line: "mode 55 MHz QPSK", instead: ["modes", "radio"] }],
    "radio R ",
    "mode 55 MHz QPSK ",
  ],
  [
    "states in the place of the one that says so",
    [{ do: "state", in: "site K / chassis#1", line: "card D 3", where: { argument: "card", is: "D" } }],
    "card D 2",
    "card D 3",
  ],
  [
    "states anew where none says so",
    [{ do: "state", in: "site K / chassis", line: "card F", where: { argument: "card", is: "F" } }],
    "card D\n",
    "card D\n    card F\n",
  ],
  [
    "adds to a line of several",
    [{ do: "add", in: `${at} / K`, lines: ["coupler H"] }],
    "at 20 m;",
    "at 20 m; coupler H;",
  ],
  [
    "adds several to one place, in their order",
    [
      { do: "add", in: `${at} / T`, lines: ["antenna A"] },
      { do: "add", in: `${at} / T`, lines: ["second-antenna B at 9 m", "power 3 dBm"] },
    ],
    "  T {\n",
    "  T {\n    antenna A\n    second-antenna B at 9 m\n    power 3 dBm\n",
  ],
  ["adds no second", [{ do: "add", in: at, lines: ["radio ?"], once: true }], undefined, undefined],
  [
    "replaces an argument",
    [{ do: "replace", at: `${at} / K / antenna`, argument: "at", by: "30 m" }],
    "20 m",
    "30 m",
  ],
  [
    "replaces in the second of a name",
    [{ do: "replace", at: `${at} / channel#1`, argument: "number", by: "9" }],
    "MHz / 5\n",
    "MHz / 9\n",
  ],
  [
    "replaces no argument that is not there",
    [{ do: "replace", at: `${at} / T / antenna`, argument: "at", by: "30 m" }],
    undefined,
    undefined,
  ],
  [
    "renames",
    [{ do: "rename", at: `${at} / K / antenna`, to: "second-antenna" }],
    "{ antenna",
    "{ second-antenna",
  ],
  [
    "renames nothing to a word that stands there",
    [{ do: "rename", at: `${at} / K / antenna`, to: "transmits" }],
    undefined,
    undefined,
  ],
  [
    "appends",
    [{ do: "append", at: `${at} / radio`, words: "state planned" }],
    "radio R ",
    "radio R state planned ",
  ],
  ["removes a line with its comment", [{ do: "remove", at: `${at} / radio` }], "  radio R  // ours\n", ""],
  [
    "removes one of several on a line",
    [{ do: "remove", at: `${at} / K / antenna` }],
    "antenna A at 20 m; ",
    "",
  ],
  [
    "leaves out what need not be there",
    [
      { do: "remove", at: `${at} / K / coupler`, optional: true },
      { do: "remove", at: `${at} / K / transmits` },
    ],
    "; transmits high",
    "",
  ],
  [
    "is nothing where all is left out",
    [{ do: "remove", at: `${at} / climate`, optional: true }],
    undefined,
    undefined,
  ],
  [
    "takes the first that finds a place",
    [
      {
        do: "first",
        of: [
          { do: "replace", at: `${at} / mode`, argument: "bandwidth", by: "28 MHz" },
          { do: "state", in: at, line: "radio S" },
        ],
      },
    ],
    "radio R ",
    "radio S ",
  ],
  [
    "makes none where one finds no place",
    [
      { do: "state", in: at, line: "radio S" },
      { do: "remove", at: "hop NONE / radio" },
    ],
    undefined,
    undefined,
  ],
])("%s", (_, changes, was, is) => {
  test("in the text", () => {
    expect(written(HOP, ...changes)).toBe(was === undefined ? undefined : HOP.replace(was, is!));
  });
});

const lineOf = {
  radio: "radio R",
  polarization: "polarization vertical",
  degradation: "degradation 1 dB",
  objective: "objective O",
  "repair-time": "repair-time 4 h",
} as const;
type Word = keyof typeof lineOf;
const words = Object.keys(lineOf) as Word[];
const layouts = fc.constantFrom("\n", "; ", ";", "\n\n  // why\n");

test("whatever stands there and however it is laid out, a stated line is read back and all else with it", () => {
  fc.assert(
    fc.property(
      fc.subarray(words),
      fc.constantFrom(...words),
      layouts,
      fc.boolean(),
      (there, word, between, closed) => {
        const body = there.map((one) => lineOf[one]).join(between);
        const many = between.includes("\n") && !closed;
        const text = many
          ? `hop H {\n${body}\n}\n`
          : `hop H { ${body.replace(/\n\s*(\/\/ why)?\n?/g, "; ")} }\n`;
        const line = lineOf[word].replace(/\d/, "7");
        const once = written(text, { do: "state", in: "hop H", line })!;
        const facts = factsOf(once);
        expect(facts.filter((one) => one.startsWith(word))).toEqual([line]);
        expect(facts.filter((one) => !one.startsWith(word)).sort()).toEqual(
          there
            .filter((one) => one !== word)
            .map((one) => lineOf[one])
            .sort(),
        );
        expect(written(once, { do: "state", in: "hop H", line })).toBe(once);
        const gone = factsOf(written(once, { do: "remove", at: `hop H / ${word}` })!);
        expect(gone).toEqual(facts.filter((one) => !one.startsWith(word)));
      },
    ),
  );
});

/** Statements of the hop, each in its words. */
function factsOf(text: string): string[] {
  const file = readSource(FILE, text);
  expect(file.problems.filter(({ rule }) => rule === "syntax")).toEqual([]);
  const inWords = ({ statement }: Fact) => statement.atoms.map((atom) => atom.text).join(" ");
  return file.facts.flatMap(({ facts }) => facts.map(inWords));
}
