/** The schedule of frequencies: what it tells follows from the results, and its designators are as registers write them. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { isEmissionClass, transmissionsOf } from "../../shared/licence/transmissions.js";
import { makeList } from "../../shared/lists/subjects/index.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { emissionDesignator, readEmission } from "../../shared/spectrum/emission-designator.js";
import { makeHop } from "../evaluate/builders.js";
import { carrierHops, judgedOnLevelGround } from "../evaluate/carrier-hops.js";

/**
 * Emission, rate in kbit/s and order of modulation of transmissions in the public licence register of the Federal
 * Communications Commission, western United States, about 2017 (kept in Wireless-Innovation-Forum/Spectrum-Access-System,
 * data/uls): rows whose own rate, modulation and bandwidth go together.
 */
const REGISTERED = [
  ["3M75D7W", 14029, 32],
  ["5M00D7W", 27100, 128],
  ["10M0D7W", 42000, 64],
  ["27M3D7W", 165000, 128],
  ["30M0D7W", 160000, 128],
  ["30M0D1W", 147000, 128],
  ["36M3D1D", 206800, 128],
  ["36M7D7W", 277000, 256],
  ["40M0D7W", 255500, 256],
  ["45M8D7W", 322000, 256],
  ["47M1D7W", 364000, 256],
  ["56M0D7W", 486000, 1024],
] as const;

test.each(REGISTERED)(
  "%s of a register is written as it was read, and holds its symbols",
  (text, kbps, states) => {
    const { necessaryBandwidthHz, emissionClass } = readEmission(text)!;
    expect(emissionDesignator(necessaryBandwidthHz, emissionClass)).toBe(text);
    expect(isEmissionClass(emissionClass!)).toBe(true);
    const symbolRate = (kbps * 1000) / Math.log2(states);
    expect(necessaryBandwidthHz).toBeGreaterThan(symbolRate);
    expect(necessaryBandwidthHz).toBeLessThan(1.5 * symbolRate);
  },
);

test("letters of an emission", () => {
  for (const letters of ["D7W", "G7W", "D1D", "D7WET"]) expect(isEmissionClass(letters), letters).toBe(true);
  for (const letters of ["", "QAM", "D7", "d7w", " D7W", "D7W ", "D7WZZ", "28M0D7W"])
    expect(isEmissionClass(letters), letters).toBe(false);
});

function scheduleOf(hop: Parameters<typeof judgedOnLevelGround>[0]) {
  const judged = judgedOnLevelGround(hop);
  const hops = new Map([[hop.name, hop]]);
  const { columns, rows } = makeList("channels", {
    design: { terrain: [], sites: new Map(), hops },
    last: { sites: new Map(), hops },
    hopNames: [hop.name],
    results: new Map([[hop.name, judged]]),
    findings: [],
  });
  return rows.map(({ values }) => Object.fromEntries(columns.map(({ head }, k) => [head, values[k]])));
}

test("a row a carrier and direction, over all arrangements; both units of a power say the same", () => {
  fc.assert(
    fc.property(carrierHops, ({ hop }) => {
      const { carriers } = judgedOnLevelGround(hop).result;
      const rows = scheduleOf(hop);
      expect(rows.length).toBe(2 * carriers.length);
      for (const row of rows) {
        const at = hop.ends[0].site.name === row.site ? 0 : 1;
        const { transmitHz, licensedEirpDbm } = carriers[Number(row.carrier) - 1]!.ends[at];
        expect(row.frequency_MHz).toBeCloseTo(transmitHz! / 1e6, 6);
        expect(row.far_site).toBe(hop.ends[1 - at]!.site.name);
        if (hop.polarization !== undefined) expect(row.eirp_greatest_dBm).toBeCloseTo(licensedEirpDbm!, 1);
        for (const which of ["greatest", "judged_mode"]) {
          const [dbm, dbw] = [row[`eirp_${which}_dBm`], row[`eirp_${which}_dBW`]] as [number, number];
          expect(dbm - dbw).toBeCloseTo(30, 9);
        }
        expect(readEmission(String(row.emission))!.necessaryBandwidthHz).toBe(
          Number(row.necessary_bandwidth_MHz) * 1e6,
        );
        expect(row.antenna_gain_dBi).toBeDefined();
      }
    }),
    { numRuns: 100 },
  );
});

test("the letters are those of the design; power control takes off what is stated, else what the radio can", () => {
  const hop = makeHop();
  const [first, second] = hop.ends;
  const rows = (one: typeof hop) => transmissionsOf(one, judgedOnLevelGround(one).result);
  expect(rows(hop).map(({ emission }) => emission)).toEqual(["55M0D7W", "55M0D7W"]);
  expect(rows({ ...hop, emissionClass: "G7W" })[0]!.emission).toBe("55M0G7W");
  expect(rows({ ...hop, emissionClass: "?!" })[0]!.emission).toBe("55M0D7W");
  const controlled = rows({
    ...hop,
    radio: { ...hop.radio!, powerControlRangeDb: 15 },
    ends: [
      { ...first, powerControl: { reductionDb: 10 } },
      { ...second, powerControl: {} },
    ],
  });
  expect(controlled.map((one) => one.greatestEirpDbm! - one.controlledEirpDbm!)).toEqual([10, 15]);
  expect(rows(hop)[0]!.controlledEirpDbm).toBeUndefined();
});

test("while a channel is open there is nothing to ask a licence for", () => {
  const hop = makeHop();
  const openChannel = { plan: "P18", bandwidthHz: 55e6, number: 4, count: 9, lowestHz: 17.7e9 };
  expect(transmissionsOf({ ...hop, channel: undefined, openChannel }, undefined)).toEqual([]);
});

test("the page of a hop has the schedule", () => {
  const [page] = printMarkdown(
    hopPage({ ...judgedOnLevelGround(makeHop()), findings: [], name: "hop", colophon: "" }),
  );
  expect(page!.text).toContain("Schedule of frequencies");
  expect(page!.text).toMatch(/\| Emission +\| 55M0D7W/);
  expect(page!.text).toMatch(/\d+\.\d dBm, \d+\.\d dBW/);
});
