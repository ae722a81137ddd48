/** Sites and hops as they lie, north up, drawn without any map beneath: enough to see which hop is meant. */
import { scaleLinear } from "d3-scale";
import type { Position, Site } from "../../design/design.js";
import type { State } from "../../design/state.js";
import { kilometres, trimmed } from "../../format/numbers.js";
import { MEAN_EARTH_RADIUS_M } from "../../propagation/constants.js";
import type { Tone } from "../document/document.js";
import { coordinate, element, escaped } from "../document/markup.js";
import { textWidth } from "./labels.js";
import { ENGLISH_NETWORK, type NetworkWords } from "./network-words.js";
import { type LegendItem, legendBelow } from "./sheet.js";
import { broken } from "./system/fit.js";

export interface MapHop {
  readonly name: string;
  readonly sites: readonly [string, string];
  /** Its gravest finding; undefined: not evaluated. */
  readonly tone?: Tone;
  readonly state?: State;
}

/** How wide the map is, and what it leaves free around the outermost sites. */
export interface MapSheet {
  readonly width: number;
  readonly margin: { readonly x: number; readonly y: number };
  readonly heights: { readonly least: number; readonly most: number };
}

export const WIDE_MAP: MapSheet = {
  width: 960,
  margin: { x: 80, y: 36 },
  heights: { least: 240, most: 600 },
};

/** For a screen on which the wide map would have to be pushed aside to be seen whole. */
export const NARROW_MAP: MapSheet = {
  width: 400,
  margin: { x: 52, y: 40 },
  heights: { least: 240, most: 480 },
};

/** What the map says in words. */
export interface MapTelling {
  readonly words?: NetworkWords;
  /** Below the map; empty: none. */
  readonly legend?: readonly LegendItem[];
}

/** With more sites than this the names would cover the hops. */
const MOST_LABELS = 80;

/** @returns undefined while no site has a position */
export function drawNetwork(
  sites: readonly Site[],
  hops: readonly MapHop[],
  sheet = WIDE_MAP,
  { words = ENGLISH_NETWORK, legend = [] }: MapTelling = {},
): { readonly svg: string; readonly alt: string } | undefined {
  const placed = eastNorthM(sites);
  if (placed.size === 0) return undefined;
  const { toX, toY, height, mPerUnit } = fitted([...placed.values()], sheet);
  const points = new Map(
    [...placed].map(([name, [east, north]]) => [name, [toX(east), toY(north)] as const]),
  );
  const lines = hops.flatMap(({ name, sites: [from, to], tone, state }) => {
    const a = points.get(from);
    const b = points.get(to);
    if (!a || !b) return [];
    const d = `M${coordinate(a[0])} ${coordinate(a[1])}L${coordinate(b[0])} ${coordinate(b[1])}`;
    return element(
      "path",
      { class: `hop ${tone ?? "unknown"}${plannedClass(state)}`, d },
      element("title", {}, escaped(titled(name, state, words))),
    );
  });
  const states = new Map(sites.map(({ name, state }) => [name, state]));
  const dots = [...points].map(([name, [x, y]]) =>
    element(
      "circle",
      { class: `site${plannedClass(states.get(name))}`, cx: x, cy: y, r: points.size > 400 ? 2 : 5 },
      element("title", {}, escaped(titled(name, states.get(name), words))),
    ),
  );
  const labels = points.size > MOST_LABELS ? [] : siteLabels(points, hops, { width: sheet.width, height });
  const told =
    legend.length === 0 ? undefined : legendBelow(legend, height + 4, { left: 16, right: sheet.width - 16 });
  const tall = height + (told === undefined ? 0 : told.height + 8);
  const svg = element(
    "svg",
    { viewBox: `0 0 ${sheet.width} ${coordinate(tall)}`, width: sheet.width, height: tall },
    ...lines,
    ...dots,
    ...labels,
    scaleBar(mPerUnit, sheet.width, height, words),
    north(sheet.width - 26),
    ...(told === undefined ? [] : [told.svg]),
  );
  return { svg, alt: `Map of ${placed.size} sites and ${lines.length} hops` };
}

function plannedClass(state: State | undefined): string {
  return state?.word === "planned" ? " planned" : "";
}

function titled(name: string, state: State | undefined, words: NetworkWords): string {
  return state ? `${name}, ${words.state(state)}` : name;
}

/** Metres east and north of the middle; true to shape within a network's size. */
function eastNorthM(sites: readonly Site[]): Map<string, readonly [number, number]> {
  const known = sites.filter(hasPlace);
  const first = known[0]?.position;
  if (first === undefined) return new Map();
  // Longitudes count from the first site's, so that a network across the date line stays together.
  const east = ({ longitudeDeg }: Position) => {
    const turn = longitudeDeg - first.longitudeDeg;
    return turn - 360 * Math.round(turn / 360);
  };
  const mean = known.reduce((sum, { position }) => sum + position.latitudeDeg, 0) / known.length;
  const metresPerDegree = (Math.PI / 180) * MEAN_EARTH_RADIUS_M;
  const narrowing = Math.cos((mean * Math.PI) / 180);
  return new Map(
    known.map(({ name, position }) => [
      name,
      [east(position) * metresPerDegree * narrowing, position.latitudeDeg * metresPerDegree] as const,
    ]),
  );
}

function hasPlace(site: Site): site is Site & { position: Position } {
  const { position } = site;
  return (
    position !== undefined &&
    Number.isFinite(position.longitudeDeg) &&
    Math.abs(position.longitudeDeg) <= 360 &&
    Math.abs(position.latitudeDeg) <= 90
  );
}

function fitted(places: readonly (readonly [number, number])[], { width, margin, heights }: MapSheet) {
  const bounds = { west: Infinity, east: -Infinity, south: Infinity, north: -Infinity };
  for (const [east, north] of places) {
    bounds.west = Math.min(bounds.west, east);
    bounds.east = Math.max(bounds.east, east);
    bounds.south = Math.min(bounds.south, north);
    bounds.north = Math.max(bounds.north, north);
  }
  const wide = Math.max(bounds.east - bounds.west, 1);
  const tall = Math.max(bounds.north - bounds.south, 1);
  const room = { x: width - 2 * margin.x, y: heights.most - 2 * margin.y };
  const mPerUnit = Math.max(wide / room.x, tall / room.y);
  const height = Math.max(heights.least, tall / mPerUnit + 2 * margin.y);
  const middle = { x: (bounds.west + bounds.east) / 2, y: (bounds.south + bounds.north) / 2 };
  const toX = scaleLinear([middle.x, middle.x + mPerUnit], [width / 2, width / 2 + 1]);
  const toY = scaleLinear([middle.y, middle.y + mPerUnit], [height / 2, height / 2 - 1]);
  return { toX, toY, height, mPerUnit };
}

type Box = { readonly x1: number; readonly y1: number; readonly x2: number; readonly y2: number };

/** A longer name is cut: the whole stands at its site. */
const LONGEST_LABEL = 180;

/** Each name on the side of its site where it covers least: other names, sites, hops. */
function siteLabels(
  points: ReadonlyMap<string, readonly [number, number]>,
  hops: readonly MapHop[],
  size: { readonly width: number; readonly height: number },
): string[] {
  const taken: Box[] = [...points.values()].map(([x, y]) => ({ x1: x - 7, y1: y - 7, x2: x + 7, y2: y + 7 }));
  taken.push(...furniture(size));
  const alongHops = hops.flatMap(({ sites }) => samples(points.get(sites[0]), points.get(sites[1])));
  return [...points].map(([whole, [x, y]]) => {
    const [{ text: name } = { text: "" }] = broken({ text: whole }, LONGEST_LABEL, 1);
    const width = textWidth(name);
    const sides = [
      { x: x + 10, y: y + 4, anchor: "start", left: x + 10 },
      { x: x - 10, y: y + 4, anchor: "end", left: x - 10 - width },
      { x, y: y - 11, anchor: "middle", left: x - width / 2 },
      { x, y: y + 20, anchor: "middle", left: x - width / 2 },
      { x: x + 7, y: y - 7, anchor: "start", left: x + 7 },
      { x: x + 7, y: y + 16, anchor: "start", left: x + 7 },
      { x: x - 7, y: y - 7, anchor: "end", left: x - 7 - width },
      { x: x - 7, y: y + 16, anchor: "end", left: x - 7 - width },
    ];
    const boxes = sides.map((side) => ({
      x1: side.left,
      y1: side.y - 11,
      x2: side.left + width,
      y2: side.y + 3,
    }));
    const costs = boxes.map((box, index) => cost(box, taken, alongHops, size) + index * 0.1);
    const best = costs.indexOf(Math.min(...costs));
    taken.push(boxes[best]!);
    const side = sides[best]!;
    return element(
      "text",
      { class: "halo", x: side.x, y: side.y, "text-anchor": side.anchor },
      escaped(name),
    );
  });
}

function samples(a: readonly [number, number] | undefined, b: readonly [number, number] | undefined) {
  if (!a || !b) return [];
  const count = Math.min(40, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / 8));
  return Array.from({ length: count }, (_, i) => {
    const share = (i + 0.5) / count;
    return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share] as const;
  });
}

/** Scale bar and north arrow. */
function furniture({ width, height }: { readonly width: number; readonly height: number }): Box[] {
  return [
    { x1: 8, y1: height - 26, x2: 16 + width / 6 + 52, y2: height - 6 },
    { x1: width - 38, y1: 14, x2: width - 12, y2: 60 },
  ];
}

function cost(
  box: Box,
  taken: readonly Box[],
  along: readonly (readonly [number, number])[],
  { width, height }: { readonly width: number; readonly height: number },
): number {
  // A name that is cut off is worse than one that covers something.
  let sum = box.x1 < 2 || box.x2 > width - 2 || box.y1 < 2 || box.y2 > height - 2 ? 200 : 0;
  for (const other of taken) {
    if (box.x1 < other.x2 && other.x1 < box.x2 && box.y1 < other.y2 && other.y1 < box.y2) sum += 10;
  }
  for (const [x, y] of along) if (x > box.x1 && x < box.x2 && y > box.y1 && y < box.y2) sum += 1;
  return sum;
}

/** A round length near a sixth of the width. */
function scaleBar(mPerUnit: number, width: number, height: number, { figure }: NetworkWords): string {
  const about = (width / 6) * mPerUnit;
  const power = 10 ** Math.floor(Math.log10(about));
  const lengthM = [5, 2, 1].map((step) => step * power).find((step) => step <= about) ?? power;
  const end = 16 + lengthM / mPerUnit;
  const y = height - 14;
  const words = lengthM >= 1000 ? `${trimmed(lengthM / 1000, 0)} km` : kilometres(lengthM);
  return (
    element("path", { class: "axis", d: `M16 ${coordinate(y - 4)}v4H${coordinate(end)}v-4` }) +
    element("text", { class: "quiet small", x: end + 8, y: y + 1 }, figure(words))
  );
}

function north(x: number): string {
  return (
    element("path", { class: "axis", d: `M${x} 44V20m-5 7l5-8l5 8` }) +
    element("text", { class: "quiet small", x, y: 57, "text-anchor": "middle" }, "N")
  );
}
