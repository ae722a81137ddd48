import type { DirectionResult, LevelRow, ModeResult } from "../evaluate/account/level-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { bandwidth, dbi, dbm, decibels, fixed, frequency } from "../format/numbers.js";
import { elementMessage } from "../words/elements.js";
import { shown } from "../words/message.js";

/** A table without layout: every printer draws it in its own way. Cells of a row stand in the order of `columns`. */
export interface Table {
  readonly title: string;
  readonly columns: readonly { readonly title: string; readonly align: "left" | "right" }[];
  readonly rows: readonly (readonly string[])[];
}

/** The level diagrams of a hop, one table a direction: what the signal passes, and the level behind it. */
export function levelTables(result: HopResult): Table[] {
  return result.directions.map((direction) => ({
    title: titleOf(direction),
    columns: [
      { title: "Site", align: "left" },
      { title: "Element", align: "left" },
      { title: "Detail", align: "left" },
      { title: "Change", align: "right" },
      { title: "Level", align: "right" },
    ],
    rows: direction.levels.map((row) => {
      const { name, detail } = elementMessage(row.passes);
      return [row.site ?? "", shown(name), detail ? shown(detail) : "", levelChange(row), dbm(row.levelDbm)];
    }),
  }));
}

/** Every mode of a hop: level, threshold, margin and outage of each direction. */
export function modeTables(result: HopResult): Table[] {
  return result.directions.map((direction) => ({
    title: titleOf(direction),
    columns: [
      { title: "Mode", align: "left" },
      { title: "Power", align: "right" },
      { title: "Received level", align: "right" },
      { title: "Threshold", align: "right" },
      { title: "Fade margin", align: "right" },
    ],
    rows: direction.modes.map((mode) => [
      mode.modulation,
      dbm(mode.transmitPowerDbm),
      dbm(mode.receivedLevelDbm),
      thresholdText(mode),
      decibels(mode.fadeMarginDb),
    ]),
  }));
}

/** A threshold, and where it is computed the bandwidth whose noise it counts. */
export function thresholdText({ thresholdDbm, noiseBandwidthHz }: ModeResult): string {
  return noiseBandwidthHz === undefined
    ? dbm(thresholdDbm)
    : `${dbm(thresholdDbm)}, computed for noise in ${bandwidth(noiseBandwidthHz)}`;
}

function titleOf({ from, to, frequencyHz }: DirectionResult): string {
  return `${from} to ${to}, ${frequency(frequencyHz)}`;
}

export function levelChange({ passes, changeDb }: LevelRow): string {
  if (changeDb === 0) return "";
  if (passes.code === "transmit-antenna" || passes.code === "receive-antenna") return `+${dbi(changeDb)}`;
  return `${changeDb > 0 ? "+" : ""}${fixed(changeDb, 1)} dB`;
}
