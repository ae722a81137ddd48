/** What `profile --format csv` writes of terrain or of a survey can be named as a survey made from a map, and says the same. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { profileCsv } from "../../server/cli/print/profile-csv.js";
import { plain } from "../../server/cli/streams.js";
import { findHop } from "../../server/findings/one-hop.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { encodeHgt } from "../terrain/encode-hgt.js";

const folder = mkdtempSync(join(tmpdir(), "hopwright-round-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** 9.36 km; a ridge 3 km from KELD, and a void of some hundred metres 6.5 km from it. */
const SITES =
  "site KELD {\n  at 47.5 -30.5\n  structure mast 60 m\n}\n\nsite TARN {\n  at 47.55 -30.4\n  structure mast 60 m\n}\n\n";
const hop = (survey: string, keldM = 40) =>
  `hop KELD-TARN {\n  objective trunk\n  polarization vertical\n  radio R\n  mode 55 MHz 128QAM\n  KELD {\n    antenna A at ${keldM} m\n    transmits 18.93 GHz\n  }\n  TARN {\n    antenna A at 40 m\n    transmits 17.92 GHz\n  }\n${survey}}\n`;
const EQUIPMENT =
  "radio R {\n  mode 55 MHz 128QAM rate 310 Mbit/s power 20 dBm threshold -69 dBm\n}\n\nantenna A {\n  diameter 0.6 m\n  gain 38.5 dBi at 18.7 GHz\n}\n\n";
const network = (more = "") =>
  `network "Round" {\n  terrain "terrain"\n${more}  climate {\n    rain 34 mm/h\n    logK -4.2\n    dN75 12 N-units\n    k 1.33\n  }\n  objective trunk {\n    clearance 1 F1 at k 1.33\n    clearance 0.6 F1 at k 0.7\n  }\n}\n\n`;

async function judged(text: string): Promise<HopResult> {
  writeFileSync(join(folder, "a.hop"), text);
  return (await findHop(folder, "KELD-TARN", "2026-01-01")).result;
}

async function csvOf(text: string): Promise<string> {
  writeFileSync(join(folder, "a.hop"), text);
  const { hop, result, profile } = await findHop(folder, "KELD-TARN", "2026-01-01");
  return [...(await profileCsv.print({ hop, result, profile, paint: plain }))].join("");
}

/** As far as the decimals of the file tell two clearances apart. */
function expectSame(a: HopResult, b: HopResult) {
  expect(b.clearance).toHaveLength(a.clearance.length);
  a.clearance.forEach((one, i) => {
    const other = b.clearance[i]!;
    expect(Math.abs(other.clearanceM - one.clearanceM)).toBeLessThan(0.1);
    expect(Math.abs(other.distanceM - one.distanceM)).toBeLessThan(31);
    expect(other.verdict).toBe(one.verdict);
  });
}

beforeAll(() => {
  const heightM = (latitudeDeg: number) => {
    const share = (latitudeDeg - 47.5) / 0.05;
    if (share > 0.69 && share < 0.71) return undefined;
    return 200 + (Math.abs(share - 0.32) < 0.005 ? 14 : 0) + 3 * Math.sin(40 * share);
  };
  mkdirSync(join(folder, "terrain"));
  const tile = encodeHgt({ southDeg: 47, westDeg: -31 }, 3601, heightM);
  writeFileSync(join(folder, "terrain/N47W031.hgt"), tile);
});

test("terrain with a void, as CSV and back, keeps clearance, verdict and void", async () => {
  for (const keldM of [40, 4]) {
    const bare = SITES + EQUIPMENT + network() + hop("", keldM);
    const terrain = await judged(bare);
    expect(terrain.clearance[0]!.verdict).toBe(keldM === 40 ? "open" : "missed");
    writeFileSync(join(folder, "path.csv"), await csvOf(bare));
    const survey = (by: string) => SITES + EQUIPMENT + network() + hop(`  survey "path.csv" ${by}\n`, keldM);
    const map = await judged(survey("by map"));
    expectSame(terrain, map);
    expect(terrain.profile!.gaps).toHaveLength(1);
    expect(map.profile!.gaps).toHaveLength(1);
    const [was, is] = [terrain.profile!.gaps[0]!, map.profile!.gaps[0]!];
    // Of samples the first and last without a height, of a survey the points around.
    expect(is.fromM).toBeLessThan(was.fromM);
    expect(is.toM).toBeGreaterThan(was.toM);
    expect(was.fromM - is.fromM).toBeLessThan(31);
    // And once more, from the survey: nothing changes any more.
    const again = await csvOf(survey("by map"));
    writeFileSync(join(folder, "path.csv"), again);
    expectSame(map, await judged(survey("by map")));
    expect(await csvOf(survey("by map"))).toBe(again);
  }
});

test("a bridged void is no ground in the CSV, and open again in a design that bridges nothing", async () => {
  const bridging = SITES + EQUIPMENT + network("  bridge-gaps 500 m\n") + hop("");
  const bridged = await judged(bridging);
  expect(bridged.clearance[0]!.verdict).toBe("met");
  expect(bridged.profile!.bridges).toHaveLength(1);
  writeFileSync(join(folder, "path.csv"), await csvOf(bridging));
  const open = await judged(SITES + EQUIPMENT + network() + hop('  survey "path.csv" by map\n'));
  expect(open.profile!.gaps).toHaveLength(1);
  expect(open.clearance[0]!.verdict).toBe("open");
});

test("a survey with cover, counted from the far end, goes through the CSV as it is", async () => {
  const rows = Array.from(
    { length: 60 },
    (_, i) => `${i * 158.6},${200 + (i % 5)},${i > 20 && i < 24 ? 31.5 : ""}`,
  );
  writeFileSync(join(folder, "wooded.csv"), `distance_m,height_m,cover_m\n${rows.join("\n")}\n`);
  const from = (survey: string) => SITES + EQUIPMENT + network() + hop(`  survey ${survey}\n`);
  const wooded = from('"wooded.csv" from TARN by field');
  const before = await judged(wooded);
  expect(before.clearance[0]!.verdict).toBe("missed");
  writeFileSync(join(folder, "path.csv"), await csvOf(wooded));
  expectSame(before, await judged(from('"path.csv" by field')));
  expectSame(before, await judged(from('"path.csv" from KELD by map')));
});
