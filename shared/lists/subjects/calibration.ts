import { type CalibrationGroup, calibrationOf } from "../../as-built/calibration.js";
import { type List, type ListColumn, listOf, number, shownOnColumn, text } from "./list.js";
import type { ListedDesign } from "./listed-design.js";

const COLUMNS: readonly ListColumn<CalibrationGroup>[] = [
  text("group_by", ({ by }) => by),
  text("group", ({ name }) => name || undefined),
  number("readings", 0, ({ count }) => count),
  number("bias_dB", 2, ({ meanDb }) => meanDb),
  number("spread_dB", 2, ({ spreadDb }) => spreadDb),
  text("stands", ({ stands }) => stands),
];

/** Measured less promised over the network, by band, radio and branch. */
export function calibrationList({ last, results, shownOn }: ListedDesign): List {
  const known = [...last.hops.keys()].flatMap((name) => results.get(name) ?? []);
  const groups = calibrationOf(known)?.groups ?? [];
  return listOf("calibration", [...COLUMNS, ...shownOnColumn(shownOn)], groups);
}
