import type { DirectionResult, LevelRow, ModeResult } from "../evaluate/account/level-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { bandwidth, dbi, dbm, decibels, fixed, frequency, signed } from "../format/numbers.js";
import type { InterferenceAt } from "../interference/receiver-result.js";
import { elementMessage } from "../words/elements.js";
import { isRaised, senderWords } from "../words/interference.js";
import { shown } from "../words/message.js";
import { sumDbm, worstAt } from "./interference.js";

/** A table without layout: every printer draws it in its own way. Cells of a row stand in the order of `columns`. */
export interface Table {
  readonly title: string;
  readonly columns: readonly { readonly title: string; readonly align: "left" | "right" }[];
  readonly rows: readonly (readonly string[])[];
}

/**
 * The level diagrams of a hop, one table a direction: what the signal passes, and the level behind it. Below them, without
 * being passed: noise, interference and threshold.
 */
export function levelTables(result: HopResult, interference: readonly InterferenceAt[] = []): Table[] {
  return result.directions.map((direction) => ({
    title: titleOf(direction),
    columns: [
      { title: "Site", align: "left" },
      { title: "Element", align: "left" },
      { title: "Detail", align: "left" },
      { title: "Change", align: "right" },
      { title: "Level", align: "right" },
    ],
    rows: [
      ...direction.levels.map((row) => {
        const { name, detail } = elementMessage(row.passes);
        return [
          row.site ?? "",
          shown(name),
          detail ? shown(detail) : "",
          levelChange(row),
          dbm(row.levelDbm),
        ];
      }),
      ...belowLevels(direction, interference),
    ],
  }));
}

/** What the received level is held against, the cells as those of a level. */
function belowLevels(
  { to, modes }: DirectionResult,
  interference: readonly InterferenceAt[],
): (readonly string[])[] {
  const at = worstAt(interference, to);
  if (at === undefined) return [];
  const mode = modes.at(-1);
  const [sum, strongest] = [sumDbm(at), at.entries[0]];
  const most = strongest === undefined ? "" : `most by ${senderWords(strongest.sender)}`;
  const assumed = at.receiver.noiseAssumed ? "noise figure assumed" : "";
  return [
    [to, "noise", assumed, "", dbm(at.receiver.noiseDbm)],
    ...(sum === undefined ? [] : [[to, "interference, the sum", most, "", dbm(sum)]]),
    ...(mode === undefined
      ? []
      : [
          [
            to,
            isRaised(mode) ? "threshold, raised" : "threshold",
            mode.modulation,
            isRaised(mode) ? `+${fixed(mode.degradationDb!, 1)} dB` : "",
            dbm(mode.thresholdDbm + (mode.degradationDb ?? 0)),
          ],
        ]),
  ];
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
      raisedText(mode),
      decibels(mode.fadeMarginDb),
    ]),
  }));
}

/** A threshold, and where it is computed the bandwidth whose noise it counts. */
function thresholdText({ thresholdDbm, noiseBandwidthHz }: ModeResult): string {
  return noiseBandwidthHz === undefined
    ? dbm(thresholdDbm)
    : `${dbm(thresholdDbm)}, computed for noise in ${bandwidth(noiseBandwidthHz)}`;
}

/** A threshold with what interference raises it by, where that can be seen. */
export function raisedText(mode: ModeResult): string {
  const raised = isRaised(mode) ? `, raised ${decibels(mode.degradationDb!)}` : "";
  return `${thresholdText(mode)}${raised}`;
}

function titleOf({ from, to, frequencyHz }: DirectionResult): string {
  return `${from} to ${to}, ${frequency(frequencyHz)}`;
}

export function levelChange({ passes, changeDb }: LevelRow): string {
  if (changeDb === 0) return "";
  if (passes.code === "transmit-antenna" || passes.code === "receive-antenna") return signed(dbi, changeDb);
  return signed(decibels, changeDb);
}
