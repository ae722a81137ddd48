/** The chain of a hop: every joint has two ends, and what it passes adds up to the level diagram and to every way. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sitePlans } from "../../../shared/equipment/site-plan.js";
import { standsOf } from "../../../shared/equipment/stands.js";
import { portKey } from "../../../shared/equipment/wiring/wiring.js";
import { partnersOf } from "../../../shared/radio/arrangement-pairs.js";
import { ARRANGEMENTS } from "../../../shared/radio/arrangements.js";
import type { ChainLine, ChainStep, PartStep } from "../../../shared/report/draw/system/chain/chain.js";
import { drawChain } from "../../../shared/report/draw/system/chain/draw-chain.js";
import { layoutChain, NARROW_CHAIN, WIDE_CHAIN } from "../../../shared/report/draw/system/chain/layout.js";
import { draw } from "../../../shared/report/draw/system/placed.js";
import { arrangementExample, TEACHING_STOCK } from "../../../shared/report/teach/arrangement-example.js";
import { EXAMPLE_ENTRIES } from "../../../shared/rules/equipment/example-equipment.js";
import { CASES, CATALOGUE, textOf } from "../../equipment/arrangement-cases.js";
import { designOf } from "../../equipment/designs.js";
import { type Chained, chainsIn } from "./chains.js";
import { LONG, MARKUP, renamed } from "./hostile.js";
import { faultsOf as sheetFaults } from "./sheet.js";

const sum = (steps: readonly ChainStep[], way: "send" | "receive") =>
  steps.flatMap((step) => step[way].passed).reduce((total, { changeDb }) => total + changeDb, 0);

/** Parts and joints in turn, each joint between the two ports beside it. */
function faultsOf({ steps, branch }: ChainLine): string[] {
  const faults: string[] = [];
  for (const [index, step] of steps.entries()) {
    if ((step.kind === "joint") !== (index % 2 === 1))
      faults.push(`${branch.name}: ${index} is no ${step.kind}`);
    if (step.kind === "part") continue;
    const [before, behind] = [steps[index - 1], steps[index + 1]];
    if (before?.kind !== "part" || behind?.kind !== "part")
      faults.push(`${branch.name}: ${index} hangs free`);
    else {
      const ends = [
        { part: before.part.id, port: before.outer! },
        { part: behind.part.id, port: behind.inner! },
      ];
      if (ends.map(portKey).join() !== step.joint.ends.map(portKey).join())
        faults.push(`${branch.name}: ${index} joins other ports`);
    }
  }
  return faults;
}

function addsUp({ hop, result, chain }: Chained): void {
  for (const [at, { site, lines }] of chain.ends.entries()) {
    const far = chain.ends[1 - at]!;
    const direction = result.directions.find(({ from }) => from === site)!;
    const powerDbm = direction.levels[0]!.levelDbm;
    const weakest = direction.levels.at(-1)!.levelDbm;
    const between = direction.levels.reduce(
      (db, row) => (row.site === undefined ? db - row.changeDb : db),
      0,
    );
    const ways = direction.paths ?? [
      {
        from: lines[0]!.branch.name,
        to: far.lines[0]!.branch.name,
        betweenDb: between,
        receivedLevelDbm: weakest,
      },
    ];
    const levels = ways.map(({ from, to, betweenDb, receivedLevelDbm }) => {
      const sender = lines.find(({ branch }) => branch.name === from)!;
      const receiver = far.lines.find(({ branch }) => branch.name === to)!;
      const level = powerDbm + sum(sender.steps, "send") - betweenDb + sum(receiver.steps, "receive");
      expect(level, `${hop.arrangement.name} ${from} to ${to}`).toBeCloseTo(receivedLevelDbm, 9);
      return level;
    });
    expect(Math.min(...levels.map((level) => Math.abs(level - weakest)))).toBeLessThan(1e-9);
    // Running levels end where the sums do.
    for (const { steps, send, receive, branch } of lines) {
      const first = steps.find((step) => step.kind === "part" && step.part.kind === "unit")!;
      if (send !== undefined) {
        expect(first.send.levelDbm).toBe(send.unitDbm);
        expect(steps.at(-1)!.send.levelDbm).toBeCloseTo(send.unitDbm + sum(steps, "send"), 9);
      }
      if (receive !== undefined) expect(first.receive.levelDbm, branch.name).toBeCloseTo(receive.unitDbm, 9);
    }
  }
}

describe("each arrangement", () => {
  test.each(CASES.map((one, index) => [`${one.arrangement} (${index})`, one] as const))(
    "%s",
    (_name, one) => {
      const [chained] = chainsIn(designOf(textOf(one)));
      const { chain, result } = chained!;
      expect(chain.lacks).toEqual([]);
      for (const { lines } of chain.ends) {
        expect(lines.flatMap(faultsOf)).toEqual([]);
        for (const { steps, branch } of lines) {
          const last = steps.at(-1)!;
          expect(last.kind === "part" && last.part.kind, branch.name).toBe("antenna");
        }
      }
      addsUp(chained!);
      // Every element of the level diagram between radio and antenna stands in the chain of a branch.
      for (const { from, levels } of result.directions) {
        const codes = chain.ends
          .flatMap(({ site, lines }) =>
            lines.flatMap(({ steps }) =>
              steps.flatMap((step) => step[site === from ? "send" : "receive"].passed),
            ),
          )
          .map(({ passes, changeDb }) => `${JSON.stringify(passes)} ${changeDb.toFixed(9)}`);
        for (const { passes, site, changeDb } of levels)
          if (site !== undefined && passes.code !== "transmitter" && passes.code !== "receiver")
            expect(codes).toContain(`${JSON.stringify(passes)} ${changeDb.toFixed(9)}`);
      }
    },
  );
});

describe("each two arrangements of which the ends are built", () => {
  const pairs = ARRANGEMENTS.flatMap((one) => partnersOf(one).map((other) => [one, other] as const));
  test.each(pairs.map(([one, other]) => [`${one.name}, ${other.name}`, one, other] as const))(
    "%s",
    (_name, one, other) => {
      const [chained] = chainsIn(designOf(arrangementExample(one, other), TEACHING_STOCK));
      const { chain, hop, result } = chained!;
      expect(chain.lacks).toEqual([]);
      expect(chain.ends.map(({ lines }) => lines.length)).toEqual([one.transceivers, other.transceivers]);
      for (const { lines } of chain.ends) {
        expect(lines.flatMap(faultsOf)).toEqual([]);
        for (const { steps, branch } of lines) {
          const last = steps.at(-1)!;
          expect(last.kind === "part" && last.part.kind, branch.name).toBe("antenna");
        }
      }
      addsUp(chained!);
      const drawn = drawChain(hop, result, new Map())!;
      expect(drawn.alt).toContain(`${one.name} at DELL, ${other.name} at FELL`);
      const around = hop.ends.map((end, at) => ({
        hop: hop.name,
        end,
        stands: standsOf(end, [one, other][at]!),
        cableNumber: () => undefined,
      }));
      for (const sheet of [WIDE_CHAIN, NARROW_CHAIN])
        expect(sheetFaults(layoutChain(chain, [around[0]!, around[1]!], sheet)!)).toEqual([]);
    },
  );
});

const ENTRIES = EXAMPLE_ENTRIES.join("\n");
const CHASSIS = `
site MOSS {
  at 47.48 -30.48
  structure mast 60 m
  chassis HEDGE as A {
    slot 1 HEATH
    card SQUALL 2
    card CLOVER
    card EMBER
  }
}`;
const ANTENNAS = ["DISH60-18-VH", "DISH60-18-80", "DISH60-18"];
const COUPLERS = ["H18-E", "H18-U", "O18", "D18-U", "S18"];
const RADIOS = ["R18", "R18I", "R18O"];
const PLACES = ["", "second-", "third-", "fourth-"];

const place = fc.record({
  antenna: fc.option(fc.constantFrom(...ANTENNAS), { nil: undefined, freq: 6 }),
  coupler: fc.option(fc.constantFrom(...COUPLERS), { nil: undefined }),
});
const anyArrangement = fc.constantFrom(...ARRANGEMENTS.map(({ name }) => name));
const end = fc.record({
  own: fc.option(anyArrangement, { nil: undefined }),
  places: fc.array(place, { minLength: 1, maxLength: 4 }),
  diversity: fc.boolean(),
  feeder: fc.constantFrom(
    "",
    "feeder FLEX-18 length 0.9 m",
    "feeder ELLIPTIC-18 length 30 m",
    "extra-loss 1.5 dB",
  ),
  cable: fc.constantFrom("", "cable COAX-10 length 50 m", "cable CAT"),
});
const anyHop = fc.record({
  arrangement: anyArrangement,
  radio: fc.option(fc.constantFrom(...RADIOS), { nil: undefined, freq: 8 }),
  channel: fc.constantFrom(
    "",
    "channel P18 / 55 MHz / 4",
    "channel P18 / 55 MHz / 4\n  channel P18 / 55 MHz / 6",
  ),
  polarization: fc.constantFrom("", "polarization vertical", "polarization slant"),
  mode: fc.boolean(),
  ends: fc.tuple(end, end),
});

function textOfAny({
  arrangement,
  radio,
  channel,
  polarization,
  mode,
  ends,
}: typeof anyHop extends fc.Arbitrary<infer H> ? H : never): string {
  const lines = ({ own, places, diversity, feeder, cable }: (typeof ends)[0], half: string) =>
    [
      own && `arrangement ${own}`,
      ...places.flatMap(({ antenna, coupler }, i) => [
        antenna && `${i === 1 && diversity ? "diversity-" : PLACES[i]}antenna ${antenna} at ${40 - 2 * i} m`,
        coupler && `${PLACES[i]}coupler ${coupler}`,
      ]),
      feeder,
      cable,
      `transmits ${half}`,
    ]
      .filter(Boolean)
      .join("\n    ");
  return `${CATALOGUE}${ENTRIES}${CHASSIS}
hop MOSS-TARN {
  ${[channel, polarization, `arrangement ${arrangement}`, radio && `radio ${radio}`, mode && radio && "mode 55 MHz 128QAM"].filter(Boolean).join("\n  ")}
  MOSS {
    ${lines(ends[0], "high")}
  }
  TARN {
    ${lines(ends[1], "low")}
  }
}`;
}

describe("any hop", () => {
  test("has a chain that joins what there is, and a drawing on which everything has its place", () => {
    fc.assert(
      fc.property(anyHop, fc.constantFrom(undefined, LONG, MARKUP), (any, name) => {
        const design = designOf(textOfAny(any));
        const names = [
          "MOSS",
          "MOSS-TARN",
          "R18",
          "DISH60-18",
          "DISH60-18-VH",
          "FLEX-18",
          "COAX-10",
          "SQUALL",
          "O18",
        ];
        const called =
          name === undefined
            ? design
            : renamed(design, Object.fromEntries(names.map((one) => [one, name + one])));
        for (const { hop, result, chain } of chainsIn(called)) {
          expect(chain.ends.flatMap(({ lines }) => lines).flatMap(faultsOf)).toEqual([]);
          // Whoever does not come to an antenna says why.
          for (const { lines } of chain.ends)
            for (const { steps, lacks } of lines)
              if (steps.at(-1)?.kind !== "part" || (steps.at(-1) as PartStep).part.kind !== "antenna")
                expect(lacks.some((lack) => lack === "arm" || lack === "antenna")).toBe(true);
          const around = hop.ends.map((one) => ({
            hop: hop.name,
            end: one,
            stands: [],
            cableNumber: () => name ?? "C1",
          }));
          for (const sheet of [WIDE_CHAIN, NARROW_CHAIN]) {
            const placed = layoutChain(chain, [around[0]!, around[1]!], sheet)!;
            expect(sheetFaults(placed)).toEqual([]);
            expect(draw(placed)).not.toContain("<script");
          }
          expect(drawChain(hop, result, sitePlans(called))!.svg.match(/<svg/g)).toHaveLength(1);
        }
      }),
      { numRuns: 150 },
    );
  });
});
