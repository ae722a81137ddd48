/** Slips in positions that only the terrain tells: read where they are asked for, kept, and forgotten with the terrain. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readSource } from "../../language/model/source-file.js";
import { DesignSession } from "../../server/session/design-session.js";
import { loadProject } from "../../server/session/load.js";
import { tryEdits } from "../../server/session/trial.js";

const WGS84 =
  'GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]]';
const TODAY = "2026-06-01";

/** Land of two heights, parted by the meridian of Greenwich. */
function grid(westM: number, eastM: number): string {
  const row = Array.from({ length: 80 }, (_, i) => (i < 40 ? westM : eastM)).join(" ");
  const rows = Array.from({ length: 20 }, () => row).join("\n");
  return `ncols 80\nnrows 20\nxllcorner -0.2\nyllcorner 51.45\ncellsize 0.005\nNODATA_value -9999\n${rows}\n`;
}

const design = (tarn: string) => `network "Slip" { terrain "terrain" }
site KELD {
  at 51.5 -0.1
}
site TARN {
  at ${tarn}
  ground 104 m
}
hop KELD-TARN {
  KELD {}
  TARN {}
}
`;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "hopwright-slips-"));
  mkdirSync(join(folder, "terrain"));
  writeFileSync(join(folder, "terrain/land.prj"), WGS84);
  writeFileSync(join(folder, "terrain/land.asc"), grid(100, 40));
  writeFileSync(join(folder, "slip.hop"), design("51.52 0.02"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const told = (session: DesignSession) => session.networkFindings().map(({ rule, at }) => `${rule} ${at}`);

test("a wrong letter near Greenwich is told by the ground, mended on trial, and follows the text and the terrain", async () => {
  const model = loadProject(folder).project.designs()[0]!;
  const path = [...model.allFiles()][0]!.path;
  const session = new DesignSession(model, { today: TODAY });
  const settle = async (tarn?: string) => {
    if (tarn !== undefined) model.setFile(readSource(path, design(tarn)));
    await session.update();
    session.updateNetwork();
    return told(session);
  };
  // The ground alone would tell that too; its cause is the position.
  expect(await settle()).toEqual(["position-slip site TARN / at"]);
  expect(session.networkFindings()[0]!.message).toBe(
    "TARN states its ground at 104.0 m, the terrain has 40.0 m at this position; with the other sign of the longitude (E for W, or W for E) it would be 5.98 km from KELD, on ground at 100.0 m",
  );
  const at = design("51.52 0.02").indexOf("51.52 0.02");
  const edit = { file: path, start: at, end: at + "51.52 0.02".length, newText: "51.52 -0.02" };
  const { findings: tried } = await tryEdits(session, [edit], ["KELD-TARN"]);
  expect(tried.filter(({ rule }) => /slip|ground/.test(rule))).toEqual([]);
  expect(await settle("51.52 -0.02")).toEqual([]);
  expect(await settle("51.52 0.03")).toEqual(["position-slip site TARN / at"]);
  writeFileSync(join(folder, "terrain/land.asc"), grid(100, 104.25));
  await session.refreshGround([join(folder, "terrain/land.asc")]);
  expect(await settle()).toEqual([]);
});
