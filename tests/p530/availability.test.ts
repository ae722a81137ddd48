/** Equipment: reliability algebra. Objectives: Rec. ITU-R F.1703 (2005), F.1668 and ITU-T G.826, from memory. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  hotStandby,
  nPlusOne,
  seriesUnavailability,
  unitUnavailability,
} from "../../shared/availability/equipment.js";
import { AVAILABILITY_ROWS, ERROR_PERFORMANCE } from "../../shared/availability/objectives.data.js";
import {
  availabilityObjective,
  hopShare,
  internationalErrorObjective,
} from "../../shared/availability/objectives.js";
import { allFinite, checkVectors, must } from "./support.js";

checkVectors("equipment-availability", ({ method, inputs }) => {
  if (method === "mtbf") {
    const unit = must(unitUnavailability({ mtbfHours: inputs.MTBF_h, mttrHours: inputs.MTTR_h }));
    return { U: unit.unavailability, A: unit.availability, minutes_per_year: unit.minutesPerYear };
  }
  if (method === "series") {
    const chain = must(seriesUnavailability(inputs.U));
    return { U: chain.unavailability, sum_approximation: chain.sumApproximation };
  }
  if (method === "hotstandby") {
    const pair = must(
      hotStandby({ unitUnavailability: inputs.U_unit, commonUnavailability: inputs.U_common }),
    );
    return { U_pair: pair.pairUnavailability, U: pair.unavailability };
  }
  const channel = must(nPlusOne({ channels: inputs.n, unitUnavailability: inputs.U_unit }));
  return { U_per_channel: channel.unavailability, approximation: channel.approximation };
});

describe("equipment", () => {
  it("an outdoor unit of 50 years and a day's repair (worked by hand)", () => {
    const unit = must(unitUnavailability({ mtbfHours: 50 * 8766, mttrHours: 24 }));
    expect(unit.unavailability).toBeCloseTo(24 / 438_324, 12);
  });

  it("one standby for one channel is a parallel pair", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (u) => {
        const one = must(nPlusOne({ channels: 1, unitUnavailability: u })).unavailability;
        expect(one).toBeCloseTo(u * u, 12);
      }),
    );
  });

  // Every state of n + 1 units counted one by one.
  it("n + 1 agrees with enumeration", () => {
    for (const channels of [1, 2, 3, 7]) {
      const u = 0.13;
      let expected = 0;
      for (let state = 0; state < 2 ** (channels + 1); state++) {
        const down = [...state.toString(2)].filter((bit) => bit === "1").length;
        const chance = u ** down * (1 - u) ** (channels + 1 - down);
        expected += (chance * Math.max(down - 1, 0)) / channels;
      }
      expect(must(nPlusOne({ channels, unitUnavailability: u })).unavailability).toBeCloseTo(expected, 12);
    }
  });

  it("takes the ends and refuses the rest", () => {
    expect(must(seriesUnavailability([])).unavailability).toBe(0);
    expect(must(seriesUnavailability([0.5, 1])).unavailability).toBe(1);
    expect(must(unitUnavailability({ mtbfHours: 1000, mttrHours: 0 })).unavailability).toBe(0);
    expect(unitUnavailability({ mtbfHours: 0, mttrHours: 1 }).ok).toBe(false);
    expect(nPlusOne({ channels: 2.5, unitUnavailability: 0.1 }).ok).toBe(false);
    expect(seriesUnavailability([1.5]).ok).toBe(false);
    const anything = fc.double();
    fc.assert(
      fc.property(anything, anything, (a, b) => {
        for (const result of [
          unitUnavailability({ mtbfHours: a, mttrHours: b }),
          hotStandby({ unitUnavailability: a, commonUnavailability: b }),
          seriesUnavailability([a, b]),
          nPlusOne({ channels: a, unitUnavailability: b }),
          availabilityObjective({ portion: "national access", lengthM: a }),
        ]) {
          expect(allFinite(result)).toBe(true);
        }
      }),
    );
  });
});

// By hand from the tables of Rec. ITU-R F.1703 (2005), F.1668 and ITU-T G.826, which are from memory, the last two without their editions
// (objectives.data.ts).
describe("objectives", () => {
  const longHaul = "international or national long haul";

  it("both long-haul rows meet at 250 km", () => {
    const at = must(availabilityObjective({ portion: longHaul, lengthM: 250_000 }));
    const above = must(availabilityObjective({ portion: longHaul, lengthM: 250_000.01 }));
    expect(at.unavailability).toBeCloseTo(3e-4, 12);
    expect(above.unavailability).toBeCloseTo(3e-4, 9);
    expect(at.outagesPerYear).toBe(65);
    expect(above.outagesPerYear).toBeCloseTo(65, 4);
    expect(at.steps.row).not.toBe(above.steps.row);
  });

  it("a 20 km hop counts as 50 km: 99.9852 %", () => {
    const { availability, steps } = must(availabilityObjective({ portion: longHaul, lengthM: 20_000 }));
    expect(100 * availability).toBeCloseTo(99.9852, 10);
    expect(steps.countedKm).toBe(50);
    expect(availabilityObjective({ portion: longHaul, lengthM: 2_600_000 }).ok).toBe(false);
    expect(
      must(availabilityObjective({ portion: "national short haul", lengthM: 9000 })).unavailability,
    ).toBe(4e-4);
  });

  it("VC-4 over 200 km of an intermediate country", () => {
    const vc4 = ERROR_PERFORMANCE.find((row) => row.path === "VC-4")!;
    const link = { endToEnd: vc4, country: "intermediate" as const, lengthM: 200_000, blockRatio: 1 };
    const objective = must(internationalErrorObjective(link));
    expect(objective.steps.share).toBeCloseTo(0.008, 12);
    expect(objective.sesr).toBeCloseTo(1.6e-5, 15);
    expect(objective.esr).toBeCloseTo(3.2e-4, 15);
    expect(objective.bber).toBeCloseTo(8e-7, 15);
    expect(internationalErrorObjective({ ...link, lengthM: 10_000 }).ok).toBe(false);
    // Terminating, beyond its 500 km: 0.01 x 600/500 + 0.01.
    const terminating = must(
      internationalErrorObjective({ ...link, country: "terminating", lengthM: 600_000 }),
    );
    expect(terminating.steps.share).toBeCloseTo(0.022, 12);
  });

  it("shares by length and says where each number is from", () => {
    const hop = hopShare({ linkUnavailability: 3e-4, hopLengthM: 50_000, linkLengthM: 250_000 });
    expect(must(hop).unavailability).toBeCloseTo(6e-5, 15);
    expect(hopShare({ linkUnavailability: 3e-4, hopLengthM: 2, linkLengthM: 1 }).ok).toBe(false);
    for (const row of [...AVAILABILITY_ROWS, ...ERROR_PERFORMANCE]) {
      expect(row.source).toMatch(/^Rec\. ITU-[RT] /);
      expect(row.status).toBe("from memory");
    }
  });
});
