/**
 * Channel frequencies against tests/vectors/spectrum/channels.json: worked channels, which are arithmetic of the
 * plans' rows with the standing of each beside it, and channels that somebody else has: a licence extract
 * (`independentWitness`), licensed links in open data, a published channel table, and the pages of a regulator.
 */
import { describe, expect, it } from "vitest";
import { channelFrequencies } from "../../shared/spectrum/channel-plan.js";
import { CHANNEL_PLANS, type ChannelRow } from "../../shared/spectrum/channel-plans.data.js";
import { loadVectors } from "../support/vectors.js";

interface Channels {
  readonly rows: readonly (readonly [
    plan: string,
    widthMHz: number,
    n: number,
    goMHz: number | null,
    returnMHz: number | null,
    status: string,
  ])[];
  readonly independentWitness: readonly Witness[];
  readonly licensedLinkWitness: readonly Witness[];
  readonly regulatorWitness: readonly Witness[];
  readonly guardEdges: readonly {
    readonly plan: string;
    readonly source: string;
    readonly highestEdgeMHz: number;
  }[];
}

interface Witness {
  readonly plan: string;
  /** That of F.383, where none is told. */
  readonly spacingMHz?: number;
  readonly source: string;
  readonly pairs: readonly (readonly [n: number, goMHz: number, returnMHz: number])[];
}

const { rows, independentWitness, licensedLinkWitness, regulatorWitness, guardEdges } =
  loadVectors<Channels>("spectrum/channels.json");
const built = new Set(CHANNEL_PLANS.map(({ id }) => id));

describe("channel frequencies", () => {
  // F.382 with 58 MHz spacing: channels of 29 MHz on a second raster, whose numbers would mean two things.
  const paired = rows.filter(
    (row) => built.has(row[0]) && row[3] !== null && row[4] !== null && row[1] !== 58,
  );

  it("are those of every worked channel of a built-in plan", () => {
    expect(paired.length).toBeGreaterThan(400);
    for (const [plan, widthMHz, n, goMHz, returnMHz] of paired) {
      const found = channelFrequencies(plan, widthMHz * 1e6, n);
      if ("what" in found) expect.fail(`${plan} ${widthMHz} MHz ${n}: ${found.message}`);
      expect([found.lowHz, found.highHz], `${plan} ${widthMHz} MHz channel ${n}`).toEqual([
        Math.round(goMHz! * 1e6),
        Math.round(returnMHz! * 1e6),
      ]);
    }
  });

  it("agree with channels that licences, a channel table and a regulator's pages name", () => {
    const witnesses = [...independentWitness, ...licensedLinkWitness, ...regulatorWitness];
    expect(witnesses.flatMap(({ pairs }) => pairs).length).toBeGreaterThanOrEqual(60);
    for (const { plan, spacingMHz = 29.65, source, pairs } of witnesses) {
      for (const [n, goMHz, returnMHz] of pairs) {
        const found = channelFrequencies(plan, spacingMHz * 1e6, n);
        expect(found, `${plan} ${spacingMHz} MHz ${n}: ${source}`).toMatchObject({
          lowHz: Math.round(goMHz * 1e6),
          highHz: Math.round(returnMHz * 1e6),
        });
      }
    }
  });

  it("of a row that licences show, name the first and the last channel seen, and no other", () => {
    const seen = new Map(
      licensedLinkWitness.map(({ plan, spacingMHz, pairs }) => [
        `${plan} ${spacingMHz}`,
        [Math.min(...pairs.map(([n]) => n)), Math.max(...pairs.map(([n]) => n))],
      ]),
    );
    const shown = CHANNEL_PLANS.flatMap(({ id, rows }) =>
      rows
        .filter(({ standing }) => standing === "licensed-links")
        .map(({ widthMHz, witnessed }) => [`${id} ${widthMHz}`, witnessed] as const),
    );
    expect(shown.length).toBeGreaterThanOrEqual(15);
    for (const [row, witnessed] of shown) expect(witnessed, row).toEqual(seen.get(row));
  });

  it("of rows that nest in one of which licences show a part, are no surer than that", () => {
    const edges = ({ goMHz, stepMHz, widthMHz }: ChannelRow, n: number) => [
      goMHz + stepMHz * n - widthMHz / 2,
      goMHz + stepMHz * n + widthMHz / 2,
    ];
    for (const { id, rows } of CHANNEL_PLANS) {
      const sure = rows.filter(({ standing }) => /^(confirmed|published|licensed)/.test(standing));
      for (const row of rows.filter(({ standing }) => standing === "nested")) {
        for (const n of row.witnessed ?? [row.first, row.last]) {
          const [low, high] = edges(row, n) as [number, number];
          const touched = sure.some((one) => {
            const [first, last] = one.witnessed ?? [one.first, one.last];
            return low < edges(one, last)[1]! && high > edges(one, first)[0]!;
          });
          expect(touched, `${id} ${row.widthMHz} MHz channel ${n}`).toBe(true);
        }
      }
    }
  });

  it("of T/R 13-02 Annex A are the most that fit in a half, and of 42 GHz end at the guard that was read", () => {
    // The greatest-count check of the remembered rows: a channel 0 leaves 22.0 to 22.6 GHz below, one more leaves 23.0 to 23.6 GHz above.
    const { referenceMHz, rows } = CHANNEL_PLANS.find(({ id }) => id.startsWith("TR1302-A"))!;
    for (const { goMHz, returnMHz, stepMHz, widthMHz, first, last } of rows) {
      const lowest = (n: number) => referenceMHz + goMHz + stepMHz * n - widthMHz / 2;
      const highest = (n: number) => referenceMHz + returnMHz + stepMHz * n + widthMHz / 2;
      expect(lowest(first), `${widthMHz} MHz`).toBeGreaterThanOrEqual(22_000);
      expect(lowest(first - 1), `${widthMHz} MHz`).toBeLessThan(22_000);
      expect(highest(last), `${widthMHz} MHz`).toBeLessThanOrEqual(23_600);
      expect(highest(last + 1), `${widthMHz} MHz`).toBeGreaterThan(23_600);
    }
    for (const { plan, source, highestEdgeMHz } of guardEdges) {
      const { referenceMHz: f0, rows: own } = CHANNEL_PLANS.find(({ id }) => id === plan)!;
      for (const { returnMHz, stepMHz, widthMHz, last } of own)
        expect(f0 + returnMHz + stepMHz * last + widthMHz / 2, source).toBe(highestEdgeMHz);
    }
  });

  it("keep the two halves apart in every row of every plan", () => {
    for (const plan of CHANNEL_PLANS) {
      for (const row of plan.rows) {
        const top = plan.referenceMHz + row.goMHz + row.stepMHz * row.last + row.widthMHz / 2;
        const bottom = plan.referenceMHz + row.returnMHz + row.stepMHz * row.first - row.widthMHz / 2;
        expect(bottom, `${plan.id} ${row.widthMHz} MHz`).toBeGreaterThanOrEqual(top - 1e-9);
      }
    }
  });

  it("have one row for each width, so that a channel number means one thing", () => {
    for (const { id, rows: own } of CHANNEL_PLANS)
      expect(new Set(own.map((row) => row.widthMHz)).size, id).toBe(own.length);
  });

  it("take the plan that the radio can work in where the short name leaves it open", () => {
    expect(channelFrequencies("F.636", 28e6, 3)).toMatchObject({
      what: "plan",
      message:
        "F.636 can mean F.636-14500-15350-420 (halves 420 MHz apart) or F.636-14500-15350-490 (halves 490 MHz apart)",
    });
    // f(n) = 11701 + 2786 + 28 n, upper half by the duplex spacing above.
    expect(channelFrequencies("F.636", 28e6, 3, [], { duplexSpacingHz: 490e6 })).toMatchObject({
      lowHz: 14571e6,
      highHz: 15061e6,
    });
    expect(channelFrequencies("F.636", 28e6, 3, [], { duplexSpacingHz: 420e6 })).toMatchObject({
      plan: "F.636-14500-15350-420",
    });
    expect(channelFrequencies("F.636", 28e6, 3, [], { duplexSpacingHz: 500e6 })).toMatchObject({
      what: "plan",
    });
    const tuning = { fromHz: 7.1e9, toHz: 7.4e9 };
    expect(channelFrequencies("F.385", 28e6, 1, [], { tuning })).toMatchObject({ plan: "F.385-7125-7425" });
  });

  it("of an unknown plan name those of the radio's band", () => {
    const tuning = { fromHz: 17.7e9, toHz: 19.7e9 };
    expect(channelFrequencies("F.999", 28e6, 1, [], { tuning })).toMatchObject({
      what: "plan",
      choices: ["F.595-17700-19700", "F.595-18GHz-centre-gap-20"],
    });
  });

  it("are refused with what there is instead", () => {
    expect(channelFrequencies("F.999", 28e6, 1)).toMatchObject({ what: "plan" });
    expect(channelFrequencies("F.637", 55e6, 1)).toMatchObject({
      what: "width",
      choices: expect.arrayContaining(["28 MHz", "112 MHz"]),
    });
    expect(channelFrequencies("F.385", 28e6, 1)).toMatchObject({
      what: "plan",
      choices: expect.arrayContaining(["F.385-7125-7425"]),
    });
  });
});
