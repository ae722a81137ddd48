/** An arrangement that an end states of its own, as written: read, laid out, told, mended. */
import { describe, expect, it } from "vitest";
import { hoverAt } from "../../language/editor/hover.js";
import { formatText } from "../../language/format/format.js";
import { arrangementAt } from "../../shared/radio/arrangement-pairs.js";
import { fixture } from "../support/fixture.js";
import { judge, PREAMBLE } from "./editor/judged.js";

const text = (hop: string, keld: string, tarn = "") => `${PREAMBLE}
hop KELD-TARN {
  objective trunk
  channel P18 / 55 MHz / 4
  polarization vertical
  radio R18
  mode 55 MHz 128QAM
  ${hop}
  KELD {
    antenna DISH60-18 at 40 m
    ${keld}
    transmits high
  }
  TARN {
    antenna DISH60-18 at 40 m
    ${tarn}
    transmits low
  }
}
`;
const read = (hop: string, keld: string, tarn = "") => {
  const { model, file } = fixture(text(hop, keld, tarn));
  const problems = model.problemsOf(file);
  const resolved = model.hop("KELD-TARN")!.hop!;
  return { model, problems, built: resolved.ends.map((end) => arrangementAt(resolved, end)) };
};

describe("what an end is built as", () => {
  it.each([
    ["", "", "", ["1+0", "1+0"]],
    ["arrangement 1+1 hot-standby", "", "", ["1+1 hot-standby", "1+1 hot-standby"]],
    ["", "arrangement 1+1 hot-standby", "", ["1+1 hot-standby", "1+0"]],
    ["", "", "arrangement 1+1 hot-standby", ["1+0", "1+1 hot-standby"]],
    ["arrangement 1+1 space-diversity", "arrangement 1+0", "", ["1+0", "1+1 space-diversity"]],
    // What neither end is built as says nothing of the hop.
    [
      "arrangement 1+0",
      "arrangement 2+0 xpic",
      "arrangement 1+1 xpic four-units",
      ["2+0 xpic", "1+1 xpic four-units"],
    ],
    // What does not go with the other end counts as not stated; a rule tells it.
    ["", "arrangement 2+0 xpic", "", ["1+0", "1+0"]],
    ["", "arrangement dual-band low", "", ["1+0", "1+0"]],
    ["arrangement dual-band low", "", "arrangement 1+1 hot-standby", ["dual-band low", "dual-band low"]],
    ["arrangement all-indoor 1+0", "arrangement 1+1 hot-standby", "", ["all-indoor 1+0", "all-indoor 1+0"]],
    [
      "arrangement all-indoor 1+0",
      "arrangement all-indoor 1+1 hot-standby",
      "",
      ["all-indoor 1+1 hot-standby", "all-indoor 1+0"],
    ],
  ])("%s; %s; %s", (hop, keld, tarn, expected) => {
    const { problems, built } = read(hop, keld, tarn);
    expect(problems).toEqual([]);
    expect(built).toEqual(expected);
  });

  it("of defaults of hops, not of ends: a default of both ends is the hop's", () => {
    const { model } = fixture(`defaults hop { arrangement 1+1 hot-standby }\n${text("", "arrangement 1+0")}`);
    const hop = model.hop("KELD-TARN")!.hop!;
    expect(hop.ends.map((end) => arrangementAt(hop, end))).toEqual(["1+0", "1+1 hot-standby"]);
    const both = fixture("defaults end { arrangement 1+0 }");
    const problems = both.model.problemsOf(both.file);
    expect(problems.map(({ rule }) => rule)).toEqual(["misplaced"]);
  });
});

describe("what cannot be", () => {
  const rules = (hop: string, keld: string, tarn = "") => {
    const { model, problems } = read(hop, keld, tarn);
    return [...problems, ...judge(model).findings]
      .filter(({ severity }) => severity === "error")
      .map(({ rule }) => rule);
  };

  it("words that are no arrangement: told by the text, the level left open", () => {
    for (const line of ["arrangement 7+9", "arrangement hot-standby 1+1", "arrangement 1+1"]) {
      const { model } = read("", line);
      const found = rules("", line);
      expect(found, line).not.toEqual([]);
      expect(found, line).not.toContain("end-arrangement");
      const { result } = judge(model).results("KELD-TARN")!;
      expect(result.availability?.verdict, line).not.toBe("met");
    }
  });

  it("a statement without its words is told, and the end is built as the hop", () => {
    const { problems, built } = read("", "arrangement");
    expect(problems.map(({ rule, severity }) => `${rule} ${severity}`)).toEqual(["missing-value error"]);
    expect(built).toEqual(["1+0", "1+0"]);
  });

  it("stated twice: the first counts, and the second is told", () => {
    const { problems, built } = read("", "arrangement 1+1 hot-standby\n    arrangement 1+1 space-diversity");
    expect(problems.map(({ rule }) => rule)).toEqual(["doubled-fact"]);
    expect(built[0]).toBe("1+1 hot-standby");
  });

  it("a pair that cannot work is told once, at the end that states it", () => {
    for (const [hop, keld] of [
      ["", "arrangement 2+0 xpic"],
      ["", "arrangement all-outdoor 1+1 hot-standby"],
      ["arrangement dual-band low", "arrangement 1+0"],
      ["arrangement 2+0 xpic", "arrangement 1+0"],
      ["", "arrangement dual-band high"],
    ] as const) {
      const found = rules(hop, keld).filter((rule) => rule === "end-arrangement");
      expect(found, `${hop}; ${keld}`).toEqual(["end-arrangement"]);
    }
    const { model } = read("", "arrangement 2+0 xpic", "arrangement 1+1 hot-standby");
    const [one, ...others] = judge(model).findings.filter(({ rule }) => rule === "end-arrangement");
    expect(others).toEqual([]);
    expect(one!.at).toBe("hop KELD-TARN / TARN / arrangement");
  });
});

it("is laid out before the coupler, whatever the order it was written in", () => {
  const untidy = text("", "coupler   H18-E direct\n    arrangement   1+1   hot-standby");
  const formatted = formatText(untidy);
  expect(formatted.ok && formatted.text).toContain("    arrangement 1+1 hot-standby\n");
  const again = formatted.ok ? formatText(formatted.text) : formatted;
  expect(again).toEqual(formatted);
});

it("is explained under the pointer", () => {
  const { model, file, offset } = fixture(
    text("", "arran$0gement 1+1 hot-standby\n    coupler H18-E direct"),
  );
  const shown = hoverAt(model, file, offset, judge(model).results)!.markdown;
  expect(shown).toContain("What this end is built as");
  expect(shown).toContain("the hop's");
});
