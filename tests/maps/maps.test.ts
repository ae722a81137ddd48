/** Readers of the ITU-R maps, on invented grids of the right shape: the maps themselves may not be passed on. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { middleOf } from "../../server/maps/climate-readings.js";
import { roughnessOf } from "../../server/maps/roughness.js";
import { openMaps } from "../../server/maps/store.js";
import { DesignSession } from "../../server/session/design-session.js";
import type { TerrainStore } from "../../server/terrain/store.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { invented } from "../support/map-text.js";

const folder = mkdtempSync(join(tmpdir(), "hopwright-maps-"));
afterAll(() => rmSync(folder, { recursive: true }));

describe("in a design", () => {
  const maps = join(folder, "itu");
  mkdirSync(maps);
  writeFileSync(
    join(maps, "H0.TXT"),
    invented("rainHeightM", () => 2.3),
  );
  writeFileSync(
    join(maps, "logk.csv"),
    invented("logK", () => -4.5, true),
  );
  writeFileSync(
    join(maps, "dN75.csv"),
    invented("dN75", () => 10, true),
  );

  async function judged(climate: string) {
    const model = new DesignModel(folder);
    const text = EXAMPLE_PREAMBLE.replace(
      /climate \{[^}]*\}/,
      `maps "itu"\n  climate {\n    ${climate}\n  }`,
    );
    model.setFile(readSource(`${folder}/main.hop`, `${text}\n${exampleHop()}`));
    const session = new DesignSession(model, { today: "2026-06-01" });
    await session.update();
    return { session, result: session.result("KELD-TARN")!.result };
  }

  test("maps complete what the design leaves open, and are named with their date", async () => {
    const { result, session } = await judged("rain 34 mm/h");
    expect(session.maps()!.problems).toEqual([]);
    expect(result.climate).toMatchObject({ logK: -4.5, dN75: 10, rainHeightM: expect.closeTo(2660, 6) });
    // Without ground there are no heights and no fading, but the facts are there.
    expect(JSON.stringify(result.missing)).not.toContain("logK");
  });

  test("what the design states goes before", async () => {
    const { result } = await judged("rain 34 mm/h\n    logK -4.2\n    rain-height 2 km");
    expect(result.climate).toMatchObject({ logK: -4.2, dN75: 10, rainHeightM: 2000 });
  });
});

test("a folder that is not there and a file that cannot be used are told", async () => {
  const broken = join(folder, "broken");
  mkdirSync(broken);
  writeFileSync(join(broken, "h0.txt"), "1 2 3\n");
  const store = await openMaps(["broken", "nowhere"], folder);
  expect(await store.readings({ latitudeDeg: 50, longitudeDeg: 0 }, ["rainHeightM", "logK"])).toEqual([]);
  expect(store.problems).toEqual([
    { file: "nowhere", message: "no such folder; mend the `maps` line" },
    { file: "broken/h0.txt", message: expect.stringContaining("3 columns in row 1") },
  ]);
  writeFileSync(
    join(broken, "h0.txt"),
    invented("rainHeightM", () => 1),
  );
  expect(await store.refresh()).toBe(true);
  const [reading] = await store.readings({ latitudeDeg: 50, longitudeDeg: 0 }, ["rainHeightM"]);
  expect(reading).toMatchObject({
    value: expect.closeTo(1360, 6),
    origin: "map",
    from: { code: "map", file: "broken/h0.txt", date: expect.stringMatching(/^\d{4}-/) },
  });
});

describe("terrain roughness", () => {
  const terrain = (height: (latitudeDeg: number, longitudeDeg: number) => number | undefined) =>
    ({ heightAtSync: (at) => height(at.latitudeDeg, at.longitudeDeg) }) as TerrainStore;

  test("is the standard deviation of the heights around the path", async () => {
    // A slope of 1 m a second of arc over the whole side: uniform from -a to a has a deviation of a/sqrt(3).
    const found = await roughnessOf(
      terrain((latitudeDeg) => 3600 * (latitudeDeg - 47)),
      {
        latitudeDeg: 47,
        longitudeDeg: -30,
      },
    );
    const halfSideSeconds = (3600 * 55_000) / 111_320;
    // 119 rows stand for the whole: a percent.
    expect(found!.value / (halfSideSeconds / Math.sqrt(3))).toBeCloseTo(1, 1.5);
    expect(found).toMatchObject({ origin: "terrain" });
  });

  test("is not known where the terrain does not cover the area", async () => {
    const valley = terrain((latitudeDeg) => (latitudeDeg > 47 ? 100 : undefined));
    expect(await roughnessOf(valley, { latitudeDeg: 47, longitudeDeg: -30 })).toBeUndefined();
    const holed = terrain((_latitude, longitudeDeg) =>
      longitudeDeg > -30.05 && longitudeDeg < -29.95 ? undefined : 9,
    );
    expect(await roughnessOf(holed, { latitudeDeg: 47, longitudeDeg: -30 })).toBeUndefined();
    expect(
      await roughnessOf(
        terrain(() => 9),
        { latitudeDeg: 89, longitudeDeg: 0 },
      ),
    ).toBeUndefined();
  });
});

test("the middle of a path lies on it, also where longitudes jump", () => {
  const at = (latitudeDeg: number, longitudeDeg: number) => ({ latitudeDeg, longitudeDeg });
  expect(middleOf(at(47.5, -30.5), at(47.6, -30.4))).toEqual(at(47.55, -30.45));
  expect(middleOf(at(-17, 179.9), at(-16.8, -179.7))).toEqual({
    latitudeDeg: -16.9,
    longitudeDeg: expect.closeTo(-179.9, 9),
  });
  expect(middleOf(at(-17, -179.9), at(-17, 179.8)).longitudeDeg).toBeCloseTo(179.95, 9);
});
