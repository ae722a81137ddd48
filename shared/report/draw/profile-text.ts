/** The path from the side, drawn with characters: a look before the report is opened. */
import type { HopResult } from "../../evaluate/account/result.js";
import { kilometres } from "../../format/numbers.js";
import type { ProfileLine } from "./profile-points.js";

/** Fill of a cell from its foot, in eighths. */
const EIGHTHS = " ▁▂▃▄▅▆▇█";

/**
 * `─` is the ray, `·` the lower edge of the first Fresnel zone, `x` where the ground reaches the ray, `?` ground
 * that no raster knows.
 * @param columns width of the drawing itself; the axis takes some more
 * @returns lines without their ends; none when there is no ground
 */
export function drawProfileText(line: ProfileLine, result: HopResult, columns = 68, rows = 14): string[] {
  const strips = stripsOf(line, columns);
  const heights = strips
    .flatMap(({ groundM, rayM, zoneM }) => [groundM, rayM, zoneM])
    .filter((height) => height !== undefined);
  if (!strips.some(({ groundM }) => groundM !== undefined)) return [];
  const low = Math.min(...heights);
  const high = Math.max(...heights);
  // The foot keeps one row, so that the lowest ground is still seen.
  const perRow = Math.max((high - low) / (rows - 1), 1e-6);
  if (!Number.isFinite(perRow)) return [];
  const level = (heightM: number) => (heightM - low) / perRow + 1;
  const lines: string[] = [];
  for (let row = rows - 1; row >= 0; row--) {
    const cells = strips.map((strip) => cell(strip, row, level));
    const axis = row % 4 === 1 ? `${Math.round(low + (row - 1) * perRow)} m` : "";
    lines.push(`${axis.padStart(8)} │${cells.join("")}`);
  }
  const length = kilometres(line.lengthM);
  const [from, to] = result.ends;
  const foot = `${from}${" ".repeat(Math.max(1, columns - from.length - to.length))}${to}`;
  lines.push(
    `${" ".repeat(8)} └${"─".repeat(columns)}`,
    `${" ".repeat(10)}${foot}`,
    `${" ".repeat(10)}${length.padStart(Math.floor((columns + length.length) / 2))}`,
  );
  return lines;
}

interface Strip {
  /** Highest ground in the strip with what stands on it, the Earth's bulge included. */
  readonly groundM?: number;
  readonly rayM?: number;
  readonly zoneM?: number;
}

function stripsOf({ points, lengthM }: ProfileLine, columns: number): Strip[] {
  const strips: { groundM?: number; rayM?: number; zoneM?: number }[] = [];
  for (const { distanceM, groundM, coverM = 0, bulgeM, rayM, fresnelRadiusM } of points) {
    const column = Math.min(columns - 1, Math.floor((distanceM / lengthM) * columns));
    const before = strips[column]?.groundM;
    const here = groundM === undefined ? undefined : groundM + coverM + bulgeM;
    strips[column] = {
      groundM: before === undefined ? here : Math.max(before, here ?? before),
      rayM,
      zoneM: rayM === undefined || fresnelRadiusM === undefined ? undefined : rayM - fresnelRadiusM,
    };
  }
  // A short path has fewer points than columns: a strip without one is as the one before, and not known beside one that is not.
  for (let i = 1; i < columns; i++) {
    if (strips[i] !== undefined) continue;
    const after = strips.slice(i).find((strip) => strip !== undefined);
    const isKnown = strips[i - 1]!.groundM !== undefined && after?.groundM !== undefined;
    strips[i] = isKnown ? strips[i - 1]! : { ...strips[i - 1]!, groundM: undefined };
  }
  return strips;
}

function cell({ groundM, rayM, zoneM }: Strip, row: number, level: (heightM: number) => number): string {
  const isIn = (heightM: number | undefined) => heightM !== undefined && Math.floor(level(heightM)) === row;
  if (isIn(rayM)) return groundM !== undefined && groundM >= rayM! ? "x" : "─";
  if (groundM === undefined) return row === 0 ? "?" : isIn(zoneM) ? "·" : " ";
  const filled = level(groundM) - row;
  if (filled >= 1) return "█";
  if (filled > 0) return EIGHTHS[Math.max(1, Math.round(filled * 8))]!;
  return isIn(zoneM) ? "·" : " ";
}
