/** A site seen from above: where each hop leaves, and how far it goes. */
import { address } from "../../../../design/address.js";
import { kilometres } from "../../../../format/numbers.js";
import { type Words, whole } from "../fit.js";
import { besideEach, LINE, linesAt, linesOf, PAD, textAt } from "../lines.js";
import { draw, type Placed, type PlacedItem } from "../placed.js";
import { bearing, MOST_DRAWN } from "./draw-mast.js";
import type { Hung } from "./hung.js";

export interface AboveSheet {
  readonly width: number;
  readonly radius: number;
}

export const WIDE_ABOVE: AboveSheet = { width: 640, radius: 110 };
export const NARROW_ABOVE: AboveSheet = { width: 420, radius: 64 };

const MARGIN = 8;
const GAP = 6;
/** Between the ends of the rays and the labels. */
const APART = 34;
/** Of the letters outside of the circle. */
const LETTER = 12;

interface Leaving {
  readonly hop: string;
  readonly far: string;
  readonly azimuthDeg: number;
  readonly distanceM?: number;
}

/** @returns undefined where no direction is known, or too many for one drawing */
export function drawAbove(
  site: string,
  hung: readonly Hung[],
): { readonly svg: string; readonly narrow: string; readonly alt: string } | undefined {
  const [wide, narrow] = [layoutAbove(hung, WIDE_ABOVE), layoutAbove(hung, NARROW_ABOVE)];
  if (wide === undefined || narrow === undefined) return undefined;
  const said = leaving(hung).map(({ hop, azimuthDeg }) => `${hop} at ${bearing(azimuthDeg)}`);
  return {
    svg: draw(wide),
    narrow: draw(narrow),
    alt: `${site} from above, azimuths from true north: ${said.join("; ")}`,
  };
}

/** Each hop once, whatever number of antennas it has. */
function leaving(hung: readonly Hung[]): Leaving[] {
  const hops = new Map<string, Leaving>();
  for (const { hop, far, azimuthDeg, distanceM } of hung)
    if (azimuthDeg !== undefined && !hops.has(hop)) hops.set(hop, { hop, far, azimuthDeg, distanceM });
  return [...hops.values()];
}

export function layoutAbove(hung: readonly Hung[], { width, radius }: AboveSheet): Placed | undefined {
  const all = leaving(hung);
  if (all.length === 0 || all.length > MOST_DRAWN) return undefined;
  const x = width / 2;
  const columnWidth = x - radius - APART - MARGIN;
  const labels = all.map((one) => {
    const lines = linesOf(words(one), columnWidth - 2 * PAD, 3);
    const turn = (one.azimuthDeg * Math.PI) / 180;
    return {
      at: address("hop", one.hop),
      left: one.azimuthDeg > 180,
      dx: Math.sin(turn),
      dy: -Math.cos(turn),
      lines,
      height: lines.length * LINE + 2 * PAD,
    };
  });
  const needed = (left: boolean) =>
    labels.reduce((sum, label) => sum + (label.left === left ? label.height + GAP : 0), 0);
  const height = Math.max(2 * (radius + LETTER + LINE), needed(true), needed(false)) + 2 * MARGIN;
  const y = height / 2;
  const items: PlacedItem[] = [...compass(x, y, radius)];
  for (const left of [true, false]) {
    const own = labels.filter((label) => label.left === left).toSorted((a, b) => a.dy - b.dy);
    const tops = besideEach(
      own.map(({ dy, height: high }) => ({ middle: y + dy * radius, height: high })),
      { top: MARGIN, bottom: height - MARGIN, gap: GAP },
    );
    for (const [index, { at, dx, dy, lines, height: high }] of own.entries()) {
      const box = {
        x: left ? MARGIN : width - MARGIN - columnWidth,
        y: tops[index]!,
        width: columnWidth,
        height: high,
      };
      const end = [x + dx * radius, y + dy * radius] as const;
      items.push(
        {
          kind: "wire",
          wire: "line",
          points: [end, [left ? box.x + box.width : box.x, box.y + PAD + LINE / 2]],
        },
        { kind: "wire", wire: "joint", points: [[x, y], end] },
        { kind: "dot", x: end[0], y: end[1] },
        { kind: "box", box: "part", round: true, at, ...box },
        ...linesAt(lines, box.x + PAD, box.y + PAD),
      );
    }
  }
  items.push({ kind: "circle", x, y, radius: 5 });
  return { width, height, items };
}

function words({ hop, far, azimuthDeg, distanceM }: Leaving): Words[] {
  return [
    { text: bearing(azimuthDeg), style: "strong" },
    { text: hop },
    { text: `to ${far}${distanceM === undefined ? "" : `, ${whole(kilometres(distanceM))}`}` },
  ];
}

/** Ring and letters; north above. */
function compass(x: number, y: number, radius: number): PlacedItem[] {
  const letters = [
    ["N", 0, -1],
    ["E", 1, 0],
    ["S", 0, 1],
    ["W", -1, 0],
  ] as const;
  return [
    { kind: "ring", x, y, radius },
    ...letters.map(([letter, dx, dy]) =>
      textAt(
        { text: letter, style: letter === "N" ? "strong" : "quiet" },
        x + dx * (radius + LETTER),
        y + dy * (radius + LETTER) - LINE / 2,
        "middle",
      ),
    ),
  ];
}
