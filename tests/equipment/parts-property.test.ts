/**
 * Text, budget and parts list say the same, over random arrangements: pieces counted from the arrangement's own words
 * here, and from the facts of the core there. Counts by word are common practice.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { merged, partsOfNetwork } from "../../shared/equipment/parts-list.js";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { inverse } from "../../shared/geodesy/geodesic.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import { hopEquipment } from "../../shared/report/pages/hop-equipment.js";
import { levelGround } from "../evaluate/builders.js";
import { CATALOGUE, textOf, wanted } from "./arrangement-texts.js";
import { designOf } from "./designs.js";
import { partsOfHop } from "./parts-of-hop.js";

/** f(n) = 17700 + 55 n MHz low: up to channel 9 in A (to 18200 MHz), from 10 on in B. */
const subBandOf = (channel: number | undefined) =>
  channel === undefined ? "open" : channel <= 9 ? "A" : "B";

const arrangements = fc.constantFrom(...ARRANGEMENTS.map(({ name }) => name));
const channelNumbers = fc.uniqueArray(fc.integer({ min: 1, max: 17 }), { minLength: 1, maxLength: 8 });

describe("over random arrangements and channels", () => {
  test("pieces of each kind are as the words ask, units by half and sub-band of their own channel", () => {
    fc.assert(
      fc.property(arrangements, channelNumbers, (name, channels) => {
        const design = designOf(CATALOGUE + textOf(name, channels, "KELD", "TARN"));
        const hop = design.hops.get("KELD-TARN")!;
        const ask = wanted(name);
        const parts = partsOfHop(hop, design);
        const count = (kind: string) =>
          parts.reduce((sum, part) => sum + (part.kind === kind ? part.quantity : 0), 0);
        expect({
          units: count("unit"),
          antennas: count("antenna"),
          couplers: count("coupler"),
          cables: count("cable"),
        }).toEqual({
          units: 2 * ask.units,
          antennas: 2 * ask.antennas,
          couplers: 2 * ask.couplers,
          cables: 2 * ask.cables,
        });
        const byDetail: Record<string, number> = {};
        for (let unit = 0; unit < ask.units; unit++)
          for (const half of ["high", "low"]) {
            const subBand = subBandOf(channels[ask.channelOf(unit)]);
            const detail = `${half} half, sub-band ${subBand}`;
            byDetail[detail] = (byDetail[detail] ?? 0) + 1;
          }
        const units = parts.filter(({ kind }) => kind === "unit");
        expect(Object.fromEntries(units.map(({ detail, quantity }) => [detail, quantity]))).toEqual(byDetail);

        // The budget's paths run over branches that are in the parts list, and over each of them.
        const ends = hop.ends.map(({ site }) => site.position!);
        const { distanceM } = inverse({ from: ends[0]!, to: ends[1]! });
        const result = evaluateHop(hop, levelGround(distanceM));
        for (const { paths } of result.directions) {
          if (paths === undefined) continue;
          expect(new Set(paths.map(({ to }) => to)).size).toBe(ask.units);
        }
        // The page counts the same.
        const tables = hopEquipment(hop, result, design).flatMap(({ blocks }) =>
          blocks.flatMap((block) => (block.type === "table" ? [block] : [])),
        );
        const listed = tables.find(({ caption }) => caption === "Parts")!.rows;
        const onPage = (column: number) =>
          listed
            .filter(({ cells }) => cells[0] === "unit")
            .reduce((sum, { cells }) => sum + (Number(cells[column]) || 0), 0);
        expect([onPage(2), onPage(3)]).toEqual([ask.units, ask.units]);
      }),
      { numRuns: 300 },
    );
  });

  test("the network is the sum of its hops, whatever they are", () => {
    const pairs = [
      ["KELD", "TARN"],
      ["MOSS", "KELD"],
      ["TARN", "FELL"],
    ] as const;
    const sites = "site MOSS { at 47.45 -30.45 }\nsite FELL { at 47.6 -30.35 }\n";
    fc.assert(
      fc.property(
        fc.array(arrangements, { minLength: 3, maxLength: 3 }),
        channelNumbers,
        (names, channels) => {
          const hops = pairs.map(([a, b], index) => textOf(names[index]!, channels, a, b));
          const design = designOf(CATALOGUE + sites + hops.join("\n"));
          const ofHops = [...design.hops.values()].flatMap((hop) => partsOfHop(hop, design));
          expect(partsOfNetwork(design)).toEqual(merged(ofHops));
          const ends = [...sitePlans(design).values()].flatMap((plan) => plan.ends);
          expect(ends).toHaveLength(6);
        },
      ),
      { numRuns: 50 },
    );
  });
});

test("a stated sub-band is kept where it holds the channel, and no further", () => {
  const text = textOf("2+0 dual-polarization", [4, 15], "KELD", "TARN");
  const stated = text.replace("transmits high", "transmits high\n    unit-sub-band A");
  const design = designOf(CATALOGUE + stated);
  const units = partsOfHop(design.hops.get("KELD-TARN")!, design).filter(({ kind }) => kind === "unit");
  expect(units.map(({ detail, quantity }) => `${quantity} ${detail}`)).toEqual([
    "1 high half, sub-band A",
    "1 high half, sub-band B",
    "1 low half, sub-band A",
    "1 low half, sub-band B",
  ]);
});

test("the page of a hop names the channel of each unit and what it is set to", () => {
  const design = designOf(CATALOGUE + textOf("3+1 xpic", [4, 15], "KELD", "TARN"));
  const hop = design.hops.get("KELD-TARN")!;
  const ends = hop.ends.map(({ site }) => site.position!);
  const { distanceM } = inverse({ from: ends[0]!, to: ends[1]! });
  const blocks = hopEquipment(hop, evaluateHop(hop, levelGround(distanceM)), design)[0]!.blocks;
  const table = blocks.find((block) => block.type === "table" && block.caption?.startsWith("Units"))!;
  expect(table.type === "table" && table.rows.map(({ cells }) => cells)).toEqual([
    // 17700 + 55 n and 18710 + 55 n MHz.
    ["carrier 1", "4", "vertical", "18.93 GHz, high half, sub-band A", "17.92 GHz, low half, sub-band A"],
    ["carrier 2", "4", "horizontal", "18.93 GHz, high half, sub-band A", "17.92 GHz, low half, sub-band A"],
    ["carrier 3", "15", "vertical", "19.535 GHz, high half, sub-band B", "18.525 GHz, low half, sub-band B"],
    [
      "protecting carrier",
      "15",
      "horizontal",
      "19.535 GHz, high half, sub-band B",
      "18.525 GHz, low half, sub-band B",
    ],
  ]);
});
