/** The structure of a site from the south: antennas at their heights and to scale, what is on them, cables down. */
import { address } from "../../../../design/address.js";
import type { SitePlan } from "../../../../equipment/site-plan.js";
import { degrees, metres, trimmed } from "../../../../format/numbers.js";
import { type Words, whole } from "../fit.js";
import { besideEach, LINE, linesAt, linesOf, PAD, textAt } from "../lines.js";
import { draw, type Placed, type PlacedItem } from "../placed.js";
import type { Hung } from "./hung.js";

export interface MastSheet {
  readonly width: number;
  /** Labels on both sides of the structure, or all on the right. */
  readonly bothSides: boolean;
}

export const WIDE_MAST: MastSheet = { width: 960, bothSides: true };
export const NARROW_MAST: MastSheet = { width: 420, bothSides: false };

const MARGIN = 8;
/** Where heights are written. */
const RULER = 38;
const LEAST_HEIGHT = 360;
const BELOW_GROUND = 34;
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
): { readonly svg: string; readonly narrow: string; readonly alt: string } | undefined {
  const [wide, narrow] = [layoutMast(plan, hung, WIDE_MAST), layoutMast(plan, hung, NARROW_MAST)];
  if (wide === undefined || narrow === undefined) return undefined;
  const { structure } = plan.site;
  const on =
    structure === undefined
      ? "a structure that is not stated"
      : `${structure.kind}, ${metres(structure.heightM)}`;
  const heights = withHeight(hung).map(({ name, heightM, hop }) => `${name} of ${hop} at ${metres(heightM)}`);
  return {
    svg: draw(wide),
    narrow: draw(narrow),
    alt: `Antennas at ${plan.site.name} on ${on}: ${heights.join("; ")}`,
  };
}

type AtHeight = Hung & { readonly heightM: number };

function withHeight(hung: readonly Hung[]): AtHeight[] {
  return hung.flatMap((one) =>
    one.heightM === undefined ? [] : [{ ...one, heightM: Math.max(0, one.heightM) }],
  );
}

export function layoutMast(
  { site, equipment }: SitePlan,
  hung: readonly Hung[],
  { width, bothSides }: MastSheet,
): Placed | undefined {
  const there = withHeight(hung).toSorted((a, b) => b.heightM - a.heightM);
  const topM = Math.max(
    LEAST_TOP_M,
    site.structure?.heightM ?? 0,
    ...there.map(({ heightM, diameterM = 0 }) => heightM + diameterM / 2),
  );
  if (there.length === 0 || there.length > MOST_DRAWN || !(topM < BEYOND_ANY_HEIGHT_M)) return undefined;
  const mastX = bothSides ? width / 2 : MARGIN + RULER + 46;
  const reach = bothSides ? 64 : 54;
  const columnWidth = width - MARGIN - (mastX + reach);
  const labels = there.map((one) => {
    const left = bothSides && one.azimuthDeg !== undefined && one.azimuthDeg > 180;
    const lines = linesOf(labelWords(one), columnWidth - RULER * (bothSides ? 1 : 0) - 2 * PAD, 3);
    return { one, left, lines, height: lines.length * LINE + 2 * PAD };
  });
  const needed = (left: boolean) =>
    labels.reduce((sum, label) => sum + (label.left === left ? label.height + GAP : 0), 0);
  const top = MARGIN + PAD;
  const ground = top + Math.max(LEAST_HEIGHT, needed(true), needed(false));
  const largestM = Math.max(...there.map(({ diameterM = 0 }) => diameterM));
  const scale = Math.min((ground - top - 10) / topM, (2 * MOST_RADIUS) / largestM);
  const y = (heightM: number) => ground - heightM * scale;
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
  ];
  for (const left of [true, false]) {
    const own = labels.filter((label) => label.left === left);
    const tops = besideEach(
      own.map(({ one, height }) => ({ middle: y(one.heightM), height })),
      { top, bottom: ground - GAP, gap: GAP },
    );
    for (const [index, { one, lines, height }] of own.entries()) {
      const radius = Math.max(2.5, ((one.diameterM ?? 0) / 2) * scale);
      const sign = left ? -1 : 1;
      const at = { x: mastX + sign * (SHAFT + 3 + radius), y: y(one.heightM) };
      const boxWidth = columnWidth - (bothSides ? RULER : 0);
      const box = {
        x: left ? MARGIN + RULER : width - MARGIN - boxWidth,
        y: tops[index]!,
        width: boxWidth,
        height,
      };
      const edge = left ? box.x + box.width : box.x;
      items.push(
        {
          kind: "wire",
          wire: "line",
          points: [
            [at.x + sign * radius, at.y],
            [edge, box.y + PAD + LINE / 2],
          ],
        },
        {
          kind: "wire",
          wire: "structure",
          points: [
            [mastX, at.y],
            [at.x, at.y],
          ],
        },
        { kind: "circle", at: one.at, ...at, radius },
        { kind: "box", box: "part", round: true, at: one.at, ...box },
        ...linesAt(lines, box.x + PAD, box.y + PAD),
      );
    }
  }
  items.push(...downItems(there, equipment?.cableRunM, { mastX, y, ground, width }));
  return { width, height: ground + BELOW_GROUND + MARGIN, items };
}

/** Half the width of what antennas are fixed to. */
const SHAFT = 6;

function labelWords({
  name,
  diameterM,
  heightM,
  hop,
  far,
  azimuthDeg,
  role,
  units,
  couplers,
  also,
  down,
}: AtHeight): Words[] {
  const size = diameterM === undefined ? "" : `, ${whole(`${trimmed(diameterM, 2)} m`)}`;
  const azimuth = azimuthDeg === undefined ? "azimuth not known" : whole(`azimuth ${bearing(azimuthDeg)}`);
  const on = [...counted(units), ...counted(couplers)].join(", ");
  const numbers = down.map(({ number }) => number).join(", ");
  return [
    { text: `${metres(heightM)}: ${name}${size}`, style: "strong" },
    { text: `${hop} to ${far}, ${azimuth}` },
    ...(role === "antenna" ? [] : [{ text: role }]),
    ...(on === "" ? [] : [{ text: `on it: ${on}` }]),
    ...(numbers === "" ? [] : [{ text: `down: ${numbers}` }]),
    ...(also.length === 0 ? [] : [{ text: `also of ${also.join(", ")}` }]),
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

interface Ground {
  readonly mastX: number;
  readonly y: (heightM: number) => number;
  readonly ground: number;
  readonly width: number;
}

const MOST_LINES_DOWN = 8;

/** A line for each antenna that something comes down from, and how much that is. */
function downItems(
  there: readonly AtHeight[],
  runM: number | undefined,
  { mastX, y, ground, width }: Ground,
): PlacedItem[] {
  const lines = there.filter(({ down }) => down.length > 0);
  const items = lines.slice(0, MOST_LINES_DOWN).map(({ heightM }, index): PlacedItem => {
    const x =
      mastX - SHAFT / 2 + (index * SHAFT) / Math.max(1, Math.min(lines.length, MOST_LINES_DOWN) - 1 || 1);
    return {
      kind: "wire",
      wire: "line",
      points: [
        [x, y(heightM)],
        [x, ground + 8],
      ],
    };
  });
  const count = (kind: string) =>
    there.reduce((sum, { down }) => sum + down.filter((one) => one.kind === kind).length, 0);
  const counts = (["cable", "guide"] as const).flatMap((kind) =>
    count(kind) === 0 ? [] : [`${count(kind)} ${kind}${count(kind) === 1 ? "" : "s"}`],
  );
  const run = runM === undefined ? "" : `, ${metres(runM)} on to the rack`;
  const text = counts.length === 0 ? "no cable or guide is joined" : `${counts.join(" and ")} down${run}`;
  return [...items, ...linesAt(linesOf([{ text }], width - 2 * MARGIN, 2), MARGIN, ground + PAD)];
}
