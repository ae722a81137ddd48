/** A judgement that remembers says what one that begins anew says, whatever was edited before. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { hopsInNetwork } from "../../shared/network/in-network.js";
import { Memory } from "../../shared/network/memory.js";
import { sitesInNetwork } from "../../shared/network/sites.js";
import { EXAMPLE_ENTRIES } from "../../shared/rules/equipment/example-equipment.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { exampleGround } from "./example-design.js";

const TODAY = "2026-06-01";
const SITES = ["KELD", "TARN", "MOSS", "FELL"];

interface Hop {
  readonly from: string;
  readonly to: string;
  readonly heightM: number;
  readonly half: "high" | "low";
  readonly more: string;
}

interface Text {
  readonly hops: readonly Hop[];
  readonly indoor: readonly string[];
  readonly masts: readonly number[];
}

const hop: fc.Arbitrary<Hop> = fc.record({
  from: fc.constantFrom(...SITES),
  to: fc.constantFrom(...SITES),
  heightM: fc.constantFrom(20, 40, 41),
  half: fc.constantFrom("high", "low"),
  more: fc.constantFrom(
    "",
    "polarization vertical",
    "pair H0",
    "arrangement dual-band low\n  pair H1",
    "arrangement dual-band high\n  pair H0",
    "objective trunk",
    "accept site-high-and-low",
  ),
});
const text: fc.Arbitrary<Text> = fc.record({
  hops: fc.array(hop, { minLength: 1, maxLength: 4 }),
  indoor: fc.array(
    fc.constantFrom("", "chassis HEDGE as A { card FERN 2 }", "wind 26 m/s over country; wind-limit 0.2 kN"),
    {
      minLength: 2,
      maxLength: 2,
    },
  ),
  masts: fc.array(fc.constantFrom(30, 60, 160), { minLength: 2, maxLength: 2 }),
});

function modelWith(model: DesignModel, { hops, indoor, masts }: Text): DesignModel {
  const sites = ["MOSS", "FELL"].map(
    (name, i) =>
      `site ${name} {\n  at 47.4${8 + i} -30.4${8 - i}\n  structure mast ${masts[i]} m\n  ${indoor[i]!.replaceAll("; ", "\n  ")}\n}\n`,
  );
  const other = (half: string) => (half === "high" ? "low" : "high");
  const lines = hops.map(
    ({ from, to, heightM, half, more }, i) =>
      `hop H${i} {\n  radio R18\n  mode 55 MHz 128QAM\n  channel F.595 / 55 MHz / 3\n  ${more}\n  ${from} {\n    antenna DISH60-18 at ${heightM} m\n    transmits ${half}\n  }\n  ${to} {\n    antenna DISH60-18 at 40 m\n    transmits ${other(half)}\n  }\n}\n`,
  );
  const files = {
    catalogue: [...EXAMPLE_ENTRIES, EXAMPLE_PREAMBLE].join("\n"),
    sites: sites.join("\n"),
    hops: lines.join("\n"),
  };
  for (const [name, content] of Object.entries(files)) {
    const path = `/memory/${name}.hop`;
    if (model.file(path)?.text !== content) model.setFile(readSource(path, content));
  }
  return model;
}

test("after any edits a judgement that remembers says what one without a memory says", () => {
  fc.assert(
    fc.property(fc.array(text, { minLength: 2, maxLength: 4 }), (edits) => {
      const model = new DesignModel("/memory");
      const memory = new Memory();
      const results = new Map<string, HopResult>();
      const evaluated = new Map<string, unknown>();
      for (const edit of edits) {
        const design = modelWith(model, edit).design();
        for (const name of [...results.keys()]) if (!design.hops.has(name)) results.delete(name);
        for (const [name, one] of design.hops) {
          if (evaluated.get(name) !== one || !results.has(name))
            results.set(name, evaluateHop(one, exampleGround(one)));
          evaluated.set(name, one);
        }
        const remembered = judgeNetwork(design, results, TODAY, { memory });
        const fresh = modelWith(new DesignModel("/memory"), edit).design();
        expect(design).toEqual(fresh);
        expect(remembered).toEqual(judgeNetwork(fresh, results, TODAY));
      }
    }),
    { numRuns: 150 },
  );
});

test("a hop is made anew in its network when a band of its pair changes, and not by a third", () => {
  const edit = (highM: number, thirdM: number): Text => ({
    hops: [
      { from: "KELD", to: "TARN", heightM: 40, half: "high", more: "arrangement dual-band low\n  pair H1" },
      {
        from: "KELD",
        to: "TARN",
        heightM: highM,
        half: "high",
        more: "arrangement dual-band high\n  pair H0",
      },
      { from: "MOSS", to: "FELL", heightM: thirdM, half: "high", more: "" },
    ],
    indoor: ["", ""],
    masts: [60, 60],
  });
  const model = new DesignModel("/memory");
  const memory = new Memory();
  const after = (text: Text) => [...hopsInNetwork(modelWith(model, text).design(), new Map(), memory)];
  let last = after(edit(40, 40));
  const madeAnew = (text: Text) => {
    const before = last;
    last = after(text);
    return last.map((one, index) => one !== before[index]);
  };
  expect(last.map(({ pair }) => pair?.other.name)).toEqual(["H1", "H0", undefined]);
  expect(madeAnew(edit(40, 41))).toEqual([false, false, true]);
  expect(madeAnew(edit(41, 41))).toEqual([true, true, false]);
});

test("an edit of one hop makes its two sites anew, and no other", () => {
  const edit = (heightM: number): Text => ({
    hops: [
      { from: "KELD", to: "TARN", heightM, half: "high", more: "" },
      { from: "MOSS", to: "FELL", heightM: 40, half: "high", more: "" },
    ],
    indoor: ["", ""],
    masts: [60, 60],
  });
  const model = new DesignModel("/memory");
  const memory = new Memory();
  const before = sitesInNetwork(modelWith(model, edit(40)).design(), new Map(), memory);
  const after = sitesInNetwork(modelWith(model, edit(41)).design(), new Map(), memory);
  const same = [...after].map(([name, site]) => [name, before.get(name) === site]);
  expect(same).toEqual([
    ["KELD", false],
    ["TARN", false],
    ["MOSS", true],
    ["FELL", true],
  ]);
});
