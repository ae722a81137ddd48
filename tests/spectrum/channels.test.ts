/**
 * Channel frequencies against the worked channels of tests/vectors/spectrum/channels.json: arithmetic of
 * the plans' rows, with the standing of each row beside it, and two channels read in a regulator's
 * licence extract (`independentWitness`).
 */
import { describe, expect, it } from "vitest";
import { channelFrequencies } from "../../shared/spectrum/channel-plan.js";
import { CHANNEL_PLANS } from "../../shared/spectrum/channel-plans.data.js";
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
  readonly independentWitness: readonly {
    readonly plan: string;
    readonly source: string;
    readonly pairs: readonly (readonly [number, number, number])[];
  }[];
}

const { rows, independentWitness } = loadVectors<Channels>("spectrum/channels.json");
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

  it("agree with channels that a regulator's licence extract names", () => {
    for (const { plan, source, pairs } of independentWitness) {
      for (const [n, goMHz, returnMHz] of pairs) {
        const found = channelFrequencies(plan, 29.65e6, n);
        expect(found, source).toMatchObject({
          lowHz: Math.round(goMHz * 1e6),
          highHz: Math.round(returnMHz * 1e6),
        });
      }
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
