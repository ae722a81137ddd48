/** Names of bands against those that the channel plans carry beside their frequencies. */
import { expect, test } from "vitest";
import { CHANNEL_PLANS } from "../../shared/spectrum/channel-plans.data.js";
import { usualBand } from "../../shared/spectrum/usual-band.js";

/** What overlaps goes by another name in some of its plans. */
const OVERLAPS = new Map([
  ["7 GHz", ["7 GHz", "8 GHz"]],
  ["14.4 GHz", ["15 GHz"]],
  ["70/80 GHz", ["80 GHz"]],
  ["92-95 GHz", ["92 GHz"]],
]);

test.each(CHANNEL_PLANS.map((plan) => [plan.id, plan] as const))("%s", (_id, plan) => {
  const named = /^(?:lower |upper )?[\d./-]+ GHz/.exec(plan.band)![0];
  const allowed = OVERLAPS.get(named) ?? [named];
  for (const { goMHz, returnMHz, first, last, stepMHz } of plan.rows)
    for (const offset of [goMHz, returnMHz])
      for (const n of [first, last]) {
        const hz = (plan.referenceMHz + offset + n * stepMHz) * 1e6;
        expect(allowed).toContain(usualBand(hz));
        expect(usualBand(hz, plan.id)).toBe(allowed[0]);
      }
});

test("of hops as they are called, not rounded up; outside of all bands no name is made up", () => {
  // Common practice, no source.
  const called = [18.7, 19.6, 39.2, 73.5, 82, 6.1, 12.9].map((ghz) => usualBand(ghz * 1e9));
  expect(called).toEqual(["18 GHz", "18 GHz", "38 GHz", "80 GHz", "80 GHz", "lower 6 GHz", "13 GHz"]);
  // The upper edge belongs to a band where no other begins; where one does, the first holds.
  const edges = [19.7, 40, 57, 71, 86, 7.125].map((ghz) => usualBand(ghz * 1e9));
  expect(edges).toEqual(["18 GHz", "38 GHz", "55 GHz", "60 GHz", "80 GHz", "upper 6 GHz"]);
  expect([1.9e9, 450e6].map((hz) => usualBand(hz))).toEqual(["1 GHz", "450 MHz"]);
});
