/** The structure of a site from the south: antennas at their heights and to scale, what is on them, cables down. */
import { address } from "../../../../design/address.js";
import type { SitePlan } from "../../../../equipment/site-plan.js";
import { degrees, metres, trimmed } from "../../../../format/numbers.js";
import { type Words, whole } from "../fit.js";
import { besideEach, LINE, linesAt, linesOf, PAD, textAt } from "../lines.js";
import { draw, type Placed, type PlacedItem } from "../placed.js";
import { besideEachOther } from "./beside-each-other.js";
import type { Hung } from "./hung.js";
import { type AtHeight, belowWords, downItems, SHAFT } from "./mast-down.js";
import { ENGLISH_MAST, type MastWords } from "./mast-words.js";

export interface MastSheet {
  readonly width: number;
  /** Labels on both sides of the structure, or all on the right. */
  readonly bothSides: boolean;
  /** How far from the middle of the structure antennas are drawn. */
  readonly reach: { readonly left: number; readonly right: number };
}

export const WIDE_MAST: MastSheet = { width: 960, bothSides: true, reach: { left: 104, right: 104 } };
export const NARROW_MAST: MastSheet = { width: 420, bothSides: false, reach: { left: 58, right: 76 } };

const MARGIN = 8;
/** Where heights are written. */
const RULER = 38;
const LEAST_HEIGHT = 360;
const GAP = 6;
/** Beyond these the drawing says less than the table. */
export const MOST_DRAWN = 40;
/** So low a structure would make antennas of it that fill the sheet. */
const LEAST_TOP_M = 5;
/** What has room between the structure and the labels. */
const MOST_RADIUS = 22;
/** A slip of the keyboard is no height. */
const BEYOND_ANY_HEIGHT_M = 2000;

/** @returns undefined where nothing hangs at a known height, or so much that no drawing shows it */
export function drawMast(
  plan: SitePlan,
  hung: readonly Hung[],
  words: MastWords = ENGLISH_MAST,
): { readonly svg: string; readonly narrow: string; readonly alt: string } | undefined {
  const [wide, narrow] = [
    layoutMast(plan, hung, WIDE_MAST, words),
    layoutMast(plan, hung, NARROW_MAST, words),
  ];
  if (wide === undefined || narrow === undefined) return undefined;
  const { structure } = plan.site;
  const height = (heightM: number) => words.figure(metres(heightM));
  const on = structure && `${words.structure(structure.kind)}, ${height(structure.heightM)}`;
  const heights = withHeight(hung).map(({ name, heightM, hop }) =>
    words.antennaAt(name, hop, height(heightM)),
  );
  return {
    svg: draw(wide),
    narrow: draw(narrow),
    alt: words.alt(plan.site.name, on, heights.join("; ")),
  };
}

function withHeight(hung: readonly Hung[]): AtHeight[] {
  return hung.flatMap((one) =>
    one.heightM === undefined ? [] : [{ ...one, heightM: Math.max(0, one.heightM) }],
  );
}

export function layoutMast(
  { site, equipment }: SitePlan,
  hung: readonly Hung[],
  { width, bothSides, reach }: MastSheet,
  words: MastWords = ENGLISH_MAST,
): Placed | undefined {
  const there = withHeight(hung).toSorted((a, b) => b.heightM - a.heightM);
  const topM = Math.max(
    LEAST_TOP_M,
    site.structure?.heightM ?? 0,
    ...there.map(({ heightM, diameterM = 0 }) => heightM + diameterM / 2),
  );
  if (there.length === 0 || there.length > MOST_DRAWN || !(topM < BEYOND_ANY_HEIGHT_M)) return undefined;
  const mastX = bothSides ? width / 2 : MARGIN + RULER + reach.left;
  const columnWidth = width - MARGIN - (mastX + reach.right);
  const labels = there.map((one) => {
    const left = bothSides && eastOf(one) < 0;
    const lines = linesOf(labelWords(one, words), columnWidth - RULER * (bothSides ? 1 : 0) - 2 * PAD, 3);
    return { one, left, lines, height: lines.length * LINE + 2 * PAD };
  });
  const needed = (left: boolean) =>
    labels.reduce((sum, label) => sum + (label.left === left ? label.height + GAP : 0), 0);
  const top = MARGIN + PAD;
  const ground = top + Math.max(LEAST_HEIGHT, needed(true), needed(false));
  const largestM = Math.max(...there.map(({ diameterM = 0 }) => diameterM));
  const scale = Math.min((ground - top - 10) / topM, (2 * MOST_RADIUS) / largestM);
  const y = (heightM: number) => ground - heightM * scale;
  const rounds = besideEachOther(
    there.map((one) => ({
      y: y(one.heightM),
      radius: Math.max(2.5, ((one.diameterM ?? 0) / 2) * scale),
      sin: eastOf(one),
    })),
    SHAFT + 3,
    reach,
  );
  const fixed: PlacedItem[] = [];
  const boxes: PlacedItem[] = [];
  for (const left of [true, false]) {
    const own = labels.flatMap((label, index) =>
      label.left === left ? [{ ...label, round: rounds[index]! }] : [],
    );
    // Of several at one height the outermost has the lowest label, so that no line crosses one of the others.
    own.sort((a, b) => a.round.y - b.round.y || Math.abs(a.round.x) - Math.abs(b.round.x));
    const tops = besideEach(
      own.map(({ round, height }) => ({ middle: round.y, height })),
      { top, bottom: ground - GAP, gap: GAP },
    );
    for (const [index, { one, lines, height, round }] of own.entries()) {
      const at = { x: mastX + round.x, y: round.y };
      const boxWidth = columnWidth - (bothSides ? RULER : 0);
      const box = {
        x: left ? MARGIN + RULER : width - MARGIN - boxWidth,
        y: tops[index]!,
        width: boxWidth,
        height,
      };
      const edge: Point = [left ? box.x + box.width : box.x, box.y + PAD + LINE / 2];
      fixed.push(
        { kind: "wire", wire: "line", points: [rimTowards(at, round.radius, edge), edge] },
        {
          kind: "wire",
          wire: "structure",
          points: [
            [mastX, at.y],
            [at.x, at.y],
          ],
        },
      );
      boxes.push(
        { kind: "box", box: "part", round: true, at: one.at, ...box },
        ...linesAt(lines, box.x + PAD, box.y + PAD),
      );
    }
  }
  const below = linesOf(belowWords(there, equipment?.cableRunM, rounds, words), width - 2 * MARGIN, 3);
  const items: PlacedItem[] = [
    ...heightLines(topM, y, width),
    ...structureItems(site, mastX, y),
    {
      kind: "wire",
      wire: "structure",
      at: address("site", site.name),
      points: [
        [MARGIN, ground],
        [width - MARGIN, ground],
      ],
    },
    ...downItems(there, { mastX, y, ground }),
    ...fixed,
    // The small ones in front of the large ones.
    ...[...rounds.keys()]
      .sort((a, b) => rounds[b]!.radius - rounds[a]!.radius)
      .map((index): PlacedItem => {
        const { x, y, radius } = rounds[index]!;
        return { kind: "circle", at: there[index]!.at, x: mastX + x, y, radius };
      }),
    ...boxes,
    ...linesAt(below, MARGIN, ground + PAD),
  ];
  return { width, height: ground + PAD + Math.max(2, below.length) * LINE + MARGIN, items };
}

type Point = readonly [number, number];

/** Where on the rim a line starts that leads to a label: above, below or beside. */
function rimTowards(at: { readonly x: number; readonly y: number }, radius: number, to: Point): Point {
  if (to[1] < at.y - radius) return [at.x, at.y - radius];
  if (to[1] > at.y + radius) return [at.x, at.y + radius];
  return [at.x + Math.sign(to[0] - at.x) * radius, at.y];
}

/** How far east it looks, -1 to 1; what is not known stands on the right. */
function eastOf({ azimuthDeg }: Hung): number {
  return azimuthDeg === undefined ? 1 : Math.sin((azimuthDeg * Math.PI) / 180);
}

function labelWords(
  { name, number, diameterM, heightM, hop, far, azimuthDeg, role, units, couplers, also, down }: AtHeight,
  words: MastWords,
): Words[] {
  const { figure } = words;
  const size = diameterM === undefined ? "" : `, ${whole(figure(`${trimmed(diameterM, 2)} m`))}`;
  const azimuth =
    azimuthDeg === undefined ? words.noAzimuth : whole(words.azimuth(figure(bearing(azimuthDeg))));
  const on = [...counted(units), ...counted(couplers)].join(", ");
  const numbers = down.map(({ number }) => number).join(", ");
  return [
    {
      text: `${number === undefined ? "" : `${number}. `}${figure(metres(heightM))}: ${name}${size}`,
      style: "strong",
    },
    { text: `${words.to(hop, far)}, ${azimuth}` },
    ...(role === "antenna" ? [] : [{ text: words.role(role) }]),
    ...(on === "" ? [] : [{ text: words.onIt(on) }]),
    ...(numbers === "" ? [] : [{ text: words.down(numbers) }]),
    ...(also.length === 0 ? [] : [{ text: words.alsoOf(also.join(", ")) }]),
  ];
}

function counted(names: readonly string[]): string[] {
  return [...Map.groupBy(names, (name) => name)].map(([name, { length }]) =>
    length === 1 ? name : `${length} ${name}`,
  );
}

export function bearing(azimuthDeg: number): string {
  return degrees(azimuthDeg).replace(" deg", "\u00b0");
}

/** Round heights, as many as have room for their figures. */
function heightLines(topM: number, y: (heightM: number) => number, width: number): PlacedItem[] {
  const step = [1, 2, 5, 10, 20, 50, 100, 200, 500].find((one) => y(0) - y(one) >= 2.5 * LINE) ?? 1000;
  return Array.from({ length: Math.floor(topM / step) }, (_, index) => (index + 1) * step).flatMap(
    (heightM): PlacedItem[] => [
      {
        kind: "wire",
        wire: "faint",
        points: [
          [MARGIN + RULER, y(heightM)],
          [width - MARGIN, y(heightM)],
        ],
      },
      textAt({ text: `${heightM} m`, style: "quiet" }, MARGIN + RULER - 4, y(heightM) - LINE / 2 - 1, "end"),
    ],
  );
}

/** A roof is as wide as it is drawn, a tower wider below; all else is a line. */
function structureItems(
  { name, structure }: SitePlan["site"],
  x: number,
  y: (heightM: number) => number,
): PlacedItem[] {
  if (structure === undefined) return [];
  const at = address("site", name, "structure");
  const { kind, heightM } = structure;
  const [foot, head] = [y(0), y(heightM)];
  const wide = { tower: [16, 5], roof: [30, 30], chimney: [9, 6] }[kind];
  if (wide === undefined)
    return [
      {
        kind: "wire",
        wire: "structure",
        at,
        points: [
          [x, foot],
          [x, head],
        ],
      },
    ];
  const [below, above] = wide as [number, number];
  return [
    {
      kind: "wire",
      wire: "structure",
      at,
      points: [
        [x - below, foot],
        [x - above, head],
        [x + above, head],
        [x + below, foot],
      ],
    },
  ];
}
