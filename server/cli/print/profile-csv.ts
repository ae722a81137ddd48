import { fixed } from "../../../shared/format/numbers.js";
import { type ProfileLine, profileLine } from "../../../shared/report/draw/profile-points.js";
import type { ProfileFormat } from "./format.js";
import { lineOf } from "./profile-line.js";

export const profileCsv: ProfileFormat = {
  name: "csv",
  what: "a row a point; it may serve as a survey",
  print: (path) => printCsv(lineOf(path, profileLine)),
};

const COLUMNS = [
  "distance_m",
  "ground_m",
  "bulge_m",
  "ray_m",
  "clearance_m",
  "f1_m",
  "clearance_f1",
  "cover_m",
];

/**
 * A row a point; what is not known is left empty, bridged or not, so that the file may serve as a survey made from a
 * map. Clearance is that of the ray over ground, cover and bulge.
 */
function* printCsv({ points }: ProfileLine): Iterable<string> {
  yield `${COLUMNS.join(",")}\n`;
  for (const {
    distanceM,
    groundM: heightM,
    bridged,
    coverM,
    bulgeM: bulge,
    rayM,
    fresnelRadiusM,
  } of points) {
    const groundM = bridged ? undefined : heightM;
    const clearanceM =
      rayM === undefined || groundM === undefined ? undefined : rayM - groundM - (coverM ?? 0) - bulge;
    // At the ends the zone has no width: no ratio there.
    const fraction = clearanceM !== undefined && fresnelRadiusM ? clearanceM / fresnelRadiusM : undefined;
    const cells = [
      fixed(distanceM, 2),
      ...[groundM, bulge, rayM, clearanceM, fresnelRadiusM, fraction, coverM].map(cell),
    ];
    yield `${cells.join(",")}\n`;
  }
}

function cell(value: number | undefined): string {
  return value === undefined ? "" : fixed(value, 2);
}
