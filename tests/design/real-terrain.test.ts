/**
 * A design laid over real terrain, from its text to its findings. What it must yield was computed outside
 * the project (tests/vectors/design/real-paths.json: GeodSolve positions, numpy bilinear heights, k = 4/3,
 * 15 GHz): lengths, bearings, ground at the ends, the worst clearance and its place. Over strips of the rasters in
 * every clone, over the rasters where they are; samples are taken at the product's own step, which is not the reference's.
 */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { DesignSession } from "../../server/session/design-session.js";
import type { SessionHop } from "../../server/session/hop-judge.js";
import { loadProject } from "../../server/session/load.js";
import { terrainFolders } from "../support/real-terrain.js";
import { loadVectors } from "../support/vectors.js";

interface Worst {
  readonly distanceM: number;
  readonly clearanceOverF1: number;
}
interface Path {
  readonly id: string;
  readonly rasters: readonly string[];
  readonly lat1: number;
  readonly lon1: number;
  readonly lat2: number;
  readonly lon2: number;
  readonly lengthM: number;
  readonly azimuth1Deg: number;
  readonly azimuthFromPoint2Deg: number;
  readonly samplesNull: number;
  readonly summary: {
    readonly antennaHeightAboveGroundM: readonly [number, number];
    readonly groundEnd1M: number;
    readonly groundEnd2M: number;
    readonly worstClearanceOverF1: Worst;
  };
}

const { paths } = loadVectors<{ readonly paths: readonly Path[] }>("design/real-paths.json");

/** One network a path, since each names its own rasters. Equipment is invented. */
function designText(path: Path, terrain: string): string {
  const [h1, h2] = path.summary.antennaHeightAboveGroundM;
  return `
network "${path.id}" {
${path.rasters.map((raster) => `  terrain "${join(terrain, raster)}"`).join("\n")}
  climate { rain 30 mm/h; logK -4.5; dN75 10 N/km }
  objective test { clearance 0.6 F1 at k 1.3333333333 }
}
radio R15 { noise-figure 6 dB; mode 28 MHz QPSK rate 40 Mbit/s power 24 dBm threshold -88 dBm }
antenna A15 { gain 42 dBi at 15 GHz; diameter 1.2 m }
site ONE { at ${path.lat1} ${path.lon1} }
site TWO { at ${path.lat2} ${path.lon2} }
hop ONE-TWO {
  objective test
  polarization vertical
  radio R15
  mode 28 MHz QPSK
  ONE { antenna A15 at ${h1} m; transmits 15 GHz }
  TWO { antenna A15 at ${h2} m; transmits 15.42 GHz }
}
`;
}

describe.each(terrainFolders())("a design over %s", (_, terrain) => {
  let folder: string;
  const judged = new Map<string, SessionHop>();

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "hopwright-real-"));
    for (const path of paths) {
      const at = join(folder, `${path.id}.hop`);
      writeFileSync(at, designText(path, terrain));
      const { project, unreadable } = loadProject(at);
      expect(unreadable).toEqual([]);
      const [model] = project.designs();
      const session = new DesignSession(model!, { today: "2026-01-01" });
      expect(model!.problemsOf(at)).toEqual([]);
      await session.update();
      judged.set(path.id, session.result("ONE-TWO")!);
    }
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it.each(paths.map((path) => [path.id, path] as const))("%s", (id, path) => {
    const { result, findings } = judged.get(id)!;
    const [one, two] = result.geometry!;
    expect(result.distanceM).toBeCloseTo(path.lengthM, 3);
    expect(one.azimuthDeg).toBeCloseTo((path.azimuth1Deg + 360) % 360, 6);
    expect(two.azimuthDeg).toBeCloseTo((path.azimuthFromPoint2Deg + 360) % 360, 6);
    expect(one.groundM).toBeCloseTo(path.summary.groundEnd1M, 1);
    expect(two.groundM).toBeCloseTo(path.summary.groundEnd2M, 1);

    const clearance = result.clearance.find(({ forInformation }) => !forInformation)!;
    const worst = path.summary.worstClearanceOverF1;
    // Sampled at 30 m or finer where the reference took up to 90 m: it may find a lower point, by the side of
    // a cliff a good deal lower, but must never miss one that the reference found.
    const above = clearance.fraction - worst.clearanceOverF1;
    // (3.5 %: on one path the worst point is the last sample before a gap, which is another one here.)
    expect(above).toBeLessThan(0.02 + 0.035 * Math.abs(worst.clearanceOverF1));
    expect(-above).toBeLessThan(0.6 + 0.02 * Math.abs(worst.clearanceOverF1));
    expect(Math.abs(clearance.distanceM - worst.distanceM)).toBeLessThan(250);
    const blocked = findings.some(({ rule, severity }) => rule === "clearance" && severity === "error");
    expect(blocked).toBe(clearance.fraction < 0.6);
    // A gap of the terrain is told, never passed over.
    const gap = findings.filter(({ message }) => /no heights (at|from) /.test(message));
    const told = blocked ? "warning terrain-gap" : "error not-judged";
    expect(gap.map(({ rule, severity }) => `${severity} ${rule}`)).toEqual(
      path.samplesNull > 0 ? [told] : [],
    );
  });

  it("judges the path just under the objective as failing, and says by which heights it would clear", () => {
    const { findings } = judged.get("riviera-sea")!;
    const clearance = findings.find(({ rule }) => rule === "clearance");
    expect(clearance?.message).toMatch(
      /clears 0\.5[5-8] F1 at .* km with k 1\.33; the objective asks 0\.6 F1; raise (ONE|TWO) to/,
    );
  });
});
