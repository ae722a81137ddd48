/** Two states of a design whose parts come and go: what differs on some day is told of a time that holds that day. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { compareStates, stateOf } from "../../server/compare/compare-designs.js";
import { compareInStages } from "../../server/compare/compare-stages.js";
import type { SideGround } from "../../server/compare/side-ground.js";
import { MOST_STAGES } from "../../server/findings/stages.js";
import { openTerrain } from "../../server/terrain/store.js";
import { type ChangeSet, findingsIn, type HopChange } from "../../shared/compare/change-set.js";
import type { FindingChange } from "../../shared/compare/findings.js";
import { timedChanges } from "../../shared/compare/times.js";
import { ALL_BUILT, standsOn } from "../../shared/design/state.js";
import { EXAMPLE_ENTRIES } from "../../shared/rules/equipment/example-equipment.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";

const TODAY = "2026-06-01";
const DAYS = ["2026-01-01", "2026-09-01", "2027-03-01", "2028-01-01"];
const GROUND: SideGround = { openTerrain, fileFor: (path) => path, shown: (file) => file, notes: [] };

type Dish = 60 | 120;

interface Written {
  /** Antenna at MOSS, diameter in cm: what hangs, and what replaces it on a day. */
  readonly dish: Dish;
  readonly laterDish?: Dish;
  readonly swap: string;
  /** State line of each hop. */
  readonly hops: readonly [string, string];
  readonly moss: string;
}

const state = fc.oneof(
  fc.constant(""),
  fc.constant("state planned"),
  ...["built", "planned", "removed"].map((word) =>
    fc.constantFrom(...DAYS).map((date) => `state ${word} ${date}`),
  ),
);
const written: fc.Arbitrary<Written> = fc.record(
  {
    dish: fc.constantFrom<Dish>(60, 120),
    laterDish: fc.constantFrom<Dish>(60, 120),
    swap: fc.constantFrom(...DAYS),
    hops: fc.tuple(state, state),
    moss: state,
  },
  { requiredKeys: ["dish", "swap", "hops", "moss"] },
);

function textOf({ dish, laterDish, swap, hops, moss }: Written): string {
  const antennas =
    laterDish === undefined
      ? `antenna DISH${dish}-18 at 40 m`
      : `antenna DISH${dish}-18 at 40 m state removed ${swap}\nantenna DISH${laterDish}-18 at 40 m state planned ${swap}`;
  const hop = (name: string, own: string, from: string, to: string) =>
    `hop ${name} {\n${own}\npolarization vertical\nobjective trunk\nradio R18\nmode 55 MHz 128QAM\nchannel F.595 / 55 MHz / 3\n${from}\n${to}\n}\n`;
  const end = (site: string, half: string, antenna: string) => `${site} {\n${antenna}\ntransmits ${half}\n}`;
  return `${EXAMPLE_ENTRIES.join("\n")}
${EXAMPLE_PREAMBLE.replaceAll("structure mast 60 m", "structure mast 60 m\n  ground 200 m")}
antenna DISH120-18 like DISH60-18 { diameter 1.2 m; gain 44.5 dBi at 18.7 GHz }
site MOSS {
at 47.48 -30.48
ground 200 m
structure mast 60 m
${moss}
}
${hop("MOSS-TARN", hops[0], end("MOSS", "high", antennas), end("TARN", "low", "antenna DISH60-18 at 40 m"))}
${hop("KELD-TARN", hops[1], end("KELD", "high", "antenna DISH60-18 at 30 m"), end("TARN", "low", "antenna DISH60-18 at 40 m"))}
`;
}

function sideOf(of: Written, today = TODAY) {
  const model = new DesignModel("/stages");
  model.setFile(readSource("/stages/d.hop", textOf(of)));
  return stateOf(model, GROUND, today);
}

const figures = ({ figures }: HopChange) => figures.map(({ label, was, is }) => [label, was, is]);
/** What of a change must not be lost, by hop. */
const consequences = ({ hops }: ChangeSet) =>
  new Map(
    hops
      .filter(({ figures: list, status }) => list.length > 0 || status !== "changed")
      .map((change) => [change.hop, change]),
  );

test("each day's consequences are told, and nothing is told of a day on which it is not so", async () => {
  await fc.assert(
    fc.asyncProperty(written, written, async (was, is) => {
      const told = await compareInStages(sideOf(was), sideOf(is), {});
      for (const on of [TODAY, ...DAYS.filter((date) => date > TODAY), ALL_BUILT]) {
        const [before, now] = [sideOf(was), sideOf(is)];
        for (const { session } of [before, now]) session.model.setView({ on });
        const alone = await compareStates(before, now);
        const then = told.times.filter(({ span }) => standsOn(span, on)).map((one) => one.changes);
        for (const [hop, change] of consequences(alone)) {
          const same = then
            .flatMap(({ hops }) => hops)
            .filter((one) => one.hop === hop && one.status === change.status)
            .map(figures);
          // Of a hop that stands on one side only and is written on both, the state says all.
          const expected = change.byState ? [] : figures(change);
          expect(same, `${hop} on ${on}`).toContainEqual(expected);
        }
        for (const { hop, status } of then.flatMap(({ hops }) =>
          hops.filter((one) => figures(one).length > 0),
        ))
          expect(alone.hops.find((one) => one.hop === hop)?.status, `${hop} on ${on}`).toBe(status);
      }
    }),
    {
      numRuns: 60,
      // No day after today: one comparison alone, of a hop that stands on one side by its state.
      examples: [
        [
          { dish: 60, swap: DAYS[0]!, hops: ["state removed 2026-01-01", ""], moss: "" },
          { dish: 60, swap: DAYS[0]!, hops: ["", ""], moss: "" },
        ],
      ],
    },
  );
});

test("a design without states is compared once", async () => {
  const plain: Written = { dish: 120, swap: DAYS[0]!, hops: ["", ""], moss: "" };
  const { changes, times } = await compareInStages(sideOf(plain), sideOf({ ...plain, dish: 60 }), {});
  expect(times).toEqual([{ span: { from: "", until: "~" }, changes }]);
  // The other one is on the same channel, and hears what the smaller dish sends aside.
  expect(changes.hops.map(({ hop, edited }) => [hop, edited])).toEqual([
    ["MOSS-TARN", true],
    ["KELD-TARN", false],
  ]);
});

test("what hangs today and goes later is told with its time", async () => {
  const plain: Written = { dish: 120, laterDish: 60, swap: "2027-03-01", hops: ["", ""], moss: "" };
  const { changes, times } = await compareInStages(sideOf(plain), sideOf({ ...plain, dish: 60 }), {});
  expect(changes.hops.map((hop) => [hop.hop, hop.figures.length])).toEqual([["MOSS-TARN", 0]]);
  expect(times.map(({ span, changes: then }) => [span, then.hops.map(({ hop }) => hop)])).toEqual([
    [{ from: "", until: "2027-03-01" }, ["MOSS-TARN", "KELD-TARN"]],
  ]);
  expect(times[0]!.changes.worse).toBe(true);
});

test("one day alone", async () => {
  const plain: Written = { dish: 120, laterDish: 60, swap: "2027-03-01", hops: ["", ""], moss: "" };
  const on = async (day: string) =>
    (await compareInStages(sideOf(plain), sideOf({ ...plain, dish: 60 }), { on: day })).changes.hops.map(
      (hop) => hop.figures.length > 0,
    );
  expect([await on("2027-02-28"), await on("2027-03-01")]).toEqual([[true, true], [false]]);
});

test("of more days than are compared it is told how many are left out", async () => {
  const many = (dish: Dish) => {
    const model = new DesignModel("/stages");
    const chassis = Array.from({ length: 200 }, (_, i) => {
      const date = new Date(Date.UTC(2027, 0, 1 + i)).toISOString().slice(0, 10);
      return `chassis HEDGE as C${i} {\nstate planned ${date}\n}`;
    });
    const text = textOf({ dish, swap: DAYS[0]!, hops: ["", ""], moss: chassis.join("\n") });
    model.setFile(readSource("/stages/d.hop", text));
    return stateOf(model, GROUND, TODAY);
  };
  const { leftOut } = await compareInStages(many(60), many(120), {});
  expect(leftOut).toBe(201 - MOST_STAGES);
});

test("what is wrong with the text is told once, at all times, and what is to be ordered in all", async () => {
  const plain: Written = {
    dish: 120,
    swap: "2027-03-01",
    hops: ["state planned 2027-03-01", ""],
    moss: "state planned 2027-03-01",
  };
  const late = { ...plain, moss: "state planned 2028-01-01" };
  const { times } = await compareInStages(sideOf(plain), sideOf(late), {});
  const told = times.flatMap(({ span, changes }) =>
    findingsIn(changes)
      .filter(({ rule }) => rule === "state-contradiction")
      .map(() => span),
  );
  expect(told).toEqual([{ from: "", until: "~" }]);
  // It stands later: nothing is ordered, returned or cancelled.
  expect(times.flatMap(({ changes }) => [...changes.orders, ...changes.licences])).toEqual([]);
  const more = await compareInStages(sideOf(plain), sideOf({ ...plain, dish: 60 }), {});
  expect(more.times.filter(({ changes }) => changes.orders.length > 0).map(({ span }) => span)).toEqual([
    { from: "", until: "~" },
  ]);
});

const NOTHING: ChangeSet = {
  hops: [],
  sites: [],
  shared: [],
  findings: [],
  demands: [],
  loads: [],
  orders: [],
  ports: [],
  licences: [],
  counts: {} as ChangeSet["counts"],
  worse: false,
  newFindings: false,
};
const LESS: HopChange = {
  hop: "A-B",
  status: "changed",
  edited: true,
  decisions: [{ word: "power", was: "power 20 dBm", is: "power 18 dBm" }],
  figures: [{ kind: "margin", label: "Fade margin at B", was: "22.0 dB", is: "20.0 dB", verdict: "worse" }],
  causes: [],
  findings: [],
  worse: true,
};
const stagesOf = (...hops: readonly (readonly HopChange[])[]) =>
  hops.map((those, index) => ({ from: `202${index}-01-01`, changes: { ...NOTHING, hops: those } }));
const spansOf = (stages: ReturnType<typeof stagesOf>) =>
  timedChanges(stages).map(({ span, changes }) => [
    span.from,
    span.until,
    ...changes.hops.map(({ hop }) => hop),
  ]);

test("what is so twice with a time between is told of both times, and of two that go on the first comes first", () => {
  expect(spansOf(stagesOf([LESS], [], [LESS]))).toEqual([
    ["2022-01-01", "~", "A-B"],
    ["", "2021-01-01", "A-B"],
  ]);
  const [first, second] = ["C-D", "E-F"].map((hop) => ({ ...LESS, hop })) as [HopChange, HopChange];
  for (const last of [
    [first, second],
    [second, first],
  ])
    expect(spansOf(stagesOf([], [first], last))).toEqual([
      ["2021-01-01", "~", "C-D"],
      ["2022-01-01", "~", "E-F"],
    ]);
});

test("a hop whose text has a slip keeps what else is told of it", () => {
  const slip: FindingChange = { status: "new", rule: "unknown-name", severity: "error", message: "no such" };
  const both = { ...LESS, findings: [slip] };
  const [told, ...others] = timedChanges(stagesOf([both], [both]));
  expect(others).toEqual([]);
  expect(told!.changes.hops.map(({ findings, figures }) => [findings.length, figures.length])).toEqual([
    [1, 0],
    [0, 1],
  ]);
});
