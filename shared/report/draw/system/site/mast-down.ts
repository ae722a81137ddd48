/** What comes down from the antennas of a structure, and the words below its drawing. */
import { metres } from "../../../../format/numbers.js";
import type { Words } from "../fit.js";
import type { PlacedItem } from "../placed.js";
import { overEachOther, type PlacedRound } from "./beside-each-other.js";
import type { Hung } from "./hung.js";
import type { MastWords } from "./mast-words.js";

export type AtHeight = Hung & { readonly heightM: number };

/** Half the width of what antennas are fixed to. */
export const SHAFT = 6;

/** More lines than these cannot be told from each other: then each stands for all that comes down from one antenna. */
const MOST_LINES_DOWN = 12;

/** Cables and guides down, each from the height of its antenna. */
export function downItems(
  there: readonly AtHeight[],
  {
    mastX,
    y,
    ground,
  }: { readonly mastX: number; readonly y: (heightM: number) => number; readonly ground: number },
): PlacedItem[] {
  const each = there.flatMap(({ down, heightM }) => down.map(() => heightM));
  const heights = each.length <= MOST_LINES_DOWN ? each : downOf(there).map(({ heightM }) => heightM);
  const apart = Math.min(3, (4 * SHAFT) / heights.length);
  return heights.map((heightM, index): PlacedItem => {
    const x = mastX + (index - (heights.length - 1) / 2) * apart;
    return {
      kind: "wire",
      wire: "line",
      points: [
        [x, y(heightM)],
        [x, ground + 4],
      ],
    };
  });
}

function downOf(there: readonly AtHeight[]): readonly AtHeight[] {
  return there.filter(({ down }) => down.length > 0);
}

/** What comes down, and what the drawing cannot show apart. */
export function belowWords(
  there: readonly AtHeight[],
  runM: number | undefined,
  rounds: readonly PlacedRound[],
  words: MastWords,
): Words[] {
  const count = (kind: string) =>
    there.reduce((sum, { down }) => sum + down.filter((one) => one.kind === kind).length, 0);
  const [cables, guides] = [count("cable"), count("guide")];
  const height = (heightM: number) => words.figure(metres(heightM));
  const run = runM === undefined ? "" : words.onToRack(height(runM));
  const drawn = cables + guides > MOST_LINES_DOWN ? words.lineForAll : "";
  const down = cables + guides === 0 ? words.nothingDown : `${words.comesDown(cables, guides)}${run}${drawn}`;
  const over = overEachOther(rounds).map((group) => {
    const heights = group.map((index) => there[index]!.heightM);
    const [low, high] = [Math.min(...heights), Math.max(...heights)];
    return words.over(group.length, height(low), height(high));
  });
  return [down, ...over].map((text) => ({ text }));
}
