/** One design for each arrangement, read from text and evaluated: parts, losses, rows of the level diagram. */

import { describe, expect, test } from "vitest";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { inverse } from "../../shared/geodesy/geodesic.js";
import { ARRANGEMENTS, arrangementByName } from "../../shared/radio/arrangements.js";
import { levelGround } from "../evaluate/builders.js";
import { elementName } from "../support/element-name.js";
import { CASES, CATALOGUE, type Case, textOf } from "./arrangement-cases.js";
import { designOf } from "./designs.js";
import { partsOfHop } from "./parts-of-hop.js";

const BRANCHING = /arm|orthomode|relay|branching/;

describe("each arrangement: parts, losses, protection", () => {
  test.each(CASES.map((one, index) => [`${one.arrangement} (${index})`, one] as const))(
    "%s",
    (_name, one) => {
      const design = designOf(textOf(one));
      const hop = design.hops.get("KELD-TARN")!;
      const counted: Record<string, number> = {};
      for (const { kind, quantity } of partsOfHop(hop, design))
        counted[kind] = (counted[kind] ?? 0) + quantity;
      expect(counted).toEqual(one.parts);

      const { distanceM } = inverse({ from: hop.ends[0].site.position!, to: hop.ends[1].site.position! });
      const [there, back] = evaluateHop(hop, levelGround(distanceM)).directions;
      const losses = (there!.paths ?? []).map(({ branchingLossDb }) => branchingLossDb).sort((a, b) => a - b);
      expect(losses).toEqual(one.lossesDb.map((lossDb) => expect.closeTo(lossDb, 9)));
      // A reciprocal chain loses the same both ways.
      expect(back!.paths?.map(({ branchingLossDb }) => branchingLossDb).sort((a, b) => a - b) ?? []).toEqual(
        losses,
      );
      for (const direction of [there!, back!]) {
        const rows = direction.levels.map(elementName).filter((element) => BRANCHING.test(element));
        expect(rows).toEqual(direction === back ? (one.rowsBack ?? one.rows) : one.rows);
        // The diagram is that of the first path; the levels of the others differ by their losses.
        const [first, ...others] = direction.paths ?? [];
        if (first === undefined) continue;
        expect(first.receivedLevelDbm).toBeCloseTo(direction.receivedLevelDbm, 9);
        for (const path of others) {
          expect(path.receivedLevelDbm - first.receivedLevelDbm).toBeCloseTo(
            first.branchingLossDb - path.branchingLossDb,
            9,
          );
        }
      }
      expect(arrangementByName(one.arrangement)!.protects.join("; ")).toBe(one.protects);
    },
  );

  test("every arrangement has a case of its kind", () => {
    // Above two carriers one count stands for the others.
    const kind = (name: string) => name.replace(/[3-9]\+0|[2-9]\+1/, (count) => `n+${count.at(-1)}`);
    const covered = new Set(CASES.map(({ arrangement }) => kind(arrangement)));
    const more = (name: string) => kind(name).replace("all-indoor n+0", "all-indoor 2+0");
    expect(ARRANGEMENTS.map(({ name }) => name).filter((name) => !covered.has(more(name)))).toEqual([]);
  });

  test("a late change of coupler moves the level at once: none, equal, unequal", () => {
    const level = (one: Partial<Case> & { arrangement: string }) => {
      const design = designOf(textOf({ parts: {}, lossesDb: [], rows: [], protects: "", ...one }));
      const hop = design.hops.get("KELD-TARN")!;
      const { distanceM } = inverse({ from: hop.ends[0].site.position!, to: hop.ends[1].site.position! });
      return evaluateHop(hop, levelGround(distanceM)).directions[0]!.receivedLevelDbm;
    };
    const plain = level({ arrangement: "1+0" });
    const equal = level({ arrangement: "1+1 hot-standby", lines: "coupler H18-E direct" });
    const unequal = level({ arrangement: "1+1 hot-standby", lines: "coupler H18-U direct" });
    // ARRANGEMENTS section 3: about 7 dB lost, and 3.8 dB gained from equal to unequal.
    expect(plain - equal).toBeCloseTo(7, 9);
    expect(unequal - equal).toBeCloseTo(3.8, 9);
  });
});

test("a dual-band pair: two hops, a unit each, one antenna an end", () => {
  const ends = (antenna: string, high: string, low: string) =>
    `KELD { antenna ${antenna} at 40 m; transmits ${high} }\n  TARN { antenna ${antenna} at 40 m; transmits ${low} }`;
  const pair = (antenna: string) =>
    designOf(`${CATALOGUE}
hop LOW {
  pair HIGH
  arrangement dual-band low
  polarization vertical
  radio R18
  mode 55 MHz 128QAM
  ${ends(antenna, "18.93 GHz", "17.92 GHz")}
}
hop HIGH {
  pair LOW
  arrangement dual-band high
  polarization vertical
  radio R18O
  ${ends(antenna, "83 GHz", "73 GHz")}
}`);
  const antennas = (antenna: string) => {
    const design = pair(antenna);
    return ["LOW", "HIGH"].map((name) =>
      partsOfHop(design.hops.get(name)!, design)
        .filter(({ kind }) => kind === "antenna")
        .reduce((sum, { quantity }) => sum + quantity, 0),
    );
  };
  // Two feeds in one antenna: counted with the low band. Antennas of one band each: counted each.
  expect(antennas("DISH60-18-80")).toEqual([2, 0]);
  expect(antennas("DISH60-18")).toEqual([2, 2]);
});
