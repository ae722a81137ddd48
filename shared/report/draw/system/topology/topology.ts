/** The network as a diagram: every site a box, every hop a line with its band, capacity and state; no map, no scale. */

import { address } from "../../../../design/address.js";
import type { Hop, Site } from "../../../../design/design.js";
import type { State } from "../../../../design/state.js";
import type { HopResult } from "../../../../evaluate/account/result.js";
import { judgedMode } from "../../../../evaluate/level/judged-mode.js";
import { bitRate } from "../../../../format/numbers.js";
import { arrangementWords } from "../../../../radio/arrangement-pairs.js";
import { carriers } from "../../../../radio/arrangements.js";
import { usualBand } from "../../../../spectrum/usual-band.js";
import { ENGLISH_NETWORK, type NetworkWords } from "../../network-words.js";
import { broken, type Fitted, type Words, widthOf } from "../fit.js";
import { LINE, linesAt, PAD, textAt } from "../lines.js";
import { draw, type Placed, type PlacedItem, type Rect } from "../placed.js";
import { type Box, type LaidOut, type Line, layOut, WAYS, type Way } from "./lay-out.js";

export interface DiagramHop {
  readonly hop: Hop;
  readonly result: HopResult;
}

/** With more sites a diagram would say less than the list does, and take its time. */
const MOST_SITES = 150;
const MOST_HOPS = 200;
/** With more hops one way for each direction is tried: a layout takes its time. */
const FEW_HOPS = 60;
/** A sheet that is shrunk below this share cannot be read any more. */
const LEAST_SCALE = 0.55;

const BOX_WIDTH = 118;
const LABEL_WIDTH = 150;

export interface DrawnTopology {
  readonly svg: string;
  /** For a narrow screen; undefined: not readable there. */
  readonly narrow?: string;
  readonly alt: string;
}

/** @returns undefined for a network without a hop between two sites, or with too many sites */
export function drawTopology(
  sites: readonly Site[],
  hops: readonly DiagramHop[],
  words = ENGLISH_NETWORK,
): DrawnTopology | undefined {
  const joined = hops.filter(({ result: { ends } }) => ends[0] !== ends[1]);
  const used = new Set(joined.flatMap(({ result }) => result.ends));
  const shown = sites.filter(({ name }) => used.has(name));
  if (joined.length === 0 || shown.length > MOST_SITES || joined.length > MOST_HOPS) return undefined;
  const ways = joined.length > FEW_HOPS ? WAYS.filter(({ ranker }) => ranker === "longest-path") : WAYS;
  const diagrams = ways.map((way) => diagramOf(shown, joined, way, words));
  const best = (width: number) =>
    diagrams.toSorted((a, b) => a.hidden - b.hidden || scale(b.placed, width) - scale(a.placed, width))[0]!
      .placed;
  const [wide, narrow] = [best(WIDE), best(NARROW)];
  return {
    svg: draw(wide, "whole"),
    narrow: scale(narrow, NARROW) >= LEAST_SCALE ? draw(narrow, "whole") : undefined,
    alt: `Diagram of ${shown.length} sites and ${joined.length} hops with their bands, capacities and states`,
  };
}

const WIDE = 960;
const NARROW = 400;

/** How large words are on a sheet of this width; a tall one is no better than one that is shrunk. */
function scale({ width, height }: Placed, sheet: number): number {
  return Math.min(1, sheet / width, (2 * sheet) / height);
}

export interface Diagram {
  readonly placed: Placed;
  /** Lines that run behind a box that they do not join. */
  readonly hidden: number;
}

export function diagramOf(
  sites: readonly Site[],
  hops: readonly DiagramHop[],
  way: Way,
  words = ENGLISH_NETWORK,
): Diagram {
  const nodes = sites.map((site) => ({ site, lines: siteLines(site, words) }));
  const edges = hops.map(({ hop, result }) => ({
    hop,
    ends: result.ends,
    lines: hopLines(hop, result, words),
  }));
  const laid = layOut(
    nodes.map(({ site, lines }): Box => ({ id: site.name, width: BOX_WIDTH, height: heightOf(lines) })),
    edges.map(({ hop, ends: [from, to], lines }): Line => {
      const width = Math.max(...lines.map(widthOf)) + PAD;
      return { id: hop.name, from, to, labelWidth: width, labelHeight: lines.length * LINE };
    }),
    way,
  );
  const placed = {
    width: laid.width,
    height: laid.height,
    items: [
      ...edges.flatMap(({ hop }) => wire(hop, laid)),
      ...edges.flatMap(({ hop, lines }) => label(hop, lines, laid)),
      ...nodes.flatMap(({ site, lines }) => box(site, lines, laid)),
    ],
  };
  const rects = nodes.map(({ site, lines }) => ({ name: site.name, ...rectOf(site, lines, laid) }));
  const hidden = edges.reduce((sum, { hop, ends }) => {
    const { points } = laid.lines.get(hop.name)!;
    const others = rects.filter(({ name }) => !ends.includes(name));
    return sum + others.filter((rect) => runsBehind(points, rect)).length;
  }, 0);
  return { placed, hidden };
}

/** Whether a line comes into a box, by points close to each other. */
function runsBehind(points: readonly (readonly [number, number])[], { x, y, width, height }: Rect): boolean {
  const STEP = 4;
  return points.slice(1).some(([toX, toY], index) => {
    const [fromX, fromY] = points[index]!;
    const steps = Math.ceil(Math.hypot(toX - fromX, toY - fromY) / STEP);
    for (let step = 0; step <= steps; step++) {
      const share = steps === 0 ? 0 : step / steps;
      const [px, py] = [fromX + share * (toX - fromX), fromY + share * (toY - fromY)];
      if (px > x && px < x + width && py > y && py < y + height) return true;
    }
    return false;
  });
}

function rectOf({ name }: Site, lines: readonly Fitted[], { boxes }: LaidOut): Rect {
  const [x, y] = boxes.get(name)!;
  const height = heightOf(lines);
  return { x: x - BOX_WIDTH / 2, y: y - height / 2, width: BOX_WIDTH, height };
}

function siteLines({ name, title, state }: Site, telling: NetworkWords): Fitted[] {
  const words: Words[] = [{ text: name, style: "strong" }];
  if (title !== undefined && title !== name) words.push({ text: title, style: "quiet" });
  const said = stateSaid(state, telling);
  if (said !== undefined) words.push({ text: said, style: "quiet" });
  return words.flatMap((one) => broken(one, BOX_WIDTH - 2 * PAD));
}

/** What stands is told by nothing: most of a network does. */
function stateSaid(state: State | undefined, telling: NetworkWords): string | undefined {
  return state === undefined || state.word === "built" ? undefined : telling.state(state);
}

function hopLines(hop: Hop, { directions }: HopResult, telling: NetworkWords): Fitted[] {
  const band = directions[0]?.frequencyHz ?? hop.ends[0].transmitFrequencyHz;
  const mode = directions[0] && judgedMode(hop, directions[0].modes);
  const rate = mode?.bitRateBps === undefined ? undefined : mode.bitRateBps * carriers(hop.arrangement.name);
  const figures = [
    band === undefined ? telling.bandOpen : telling.band(usualBand(band, hop.channel?.plan)),
    rate === undefined ? undefined : telling.figure(bitRate(rate)),
  ].filter((part) => part !== undefined);
  const words: Words[] = [
    { text: figures.join(", "), style: "quiet" },
    { text: arrangementWords(hop, telling), style: "quiet" },
  ];
  const said = stateSaid(hop.state, telling);
  if (said !== undefined) words.push({ text: said, style: "quiet" });
  return words.flatMap((one) => broken(one, LABEL_WIDTH));
}

function heightOf(lines: readonly Fitted[]): number {
  return lines.length * LINE + 2 * PAD;
}

function wire(hop: Hop, { lines }: LaidOut): PlacedItem[] {
  const { points } = lines.get(hop.name)!;
  return [{ kind: "wire", wire: "joint", points, proposed: hop.state?.word === "planned" }];
}

function label(hop: Hop, words: readonly Fitted[], { lines }: LaidOut): PlacedItem[] {
  const [x, y] = lines.get(hop.name)!.label;
  const width = Math.max(...words.map(widthOf)) + PAD;
  const height = words.length * LINE;
  const top = y - height / 2;
  return [
    {
      kind: "box",
      box: "label",
      at: address("hop", hop.name),
      x: x - width / 2,
      y: top,
      width,
      height,
      title: hop.title ?? hop.name,
    },
    ...words.map((line, index) => textAt(line, x, top + index * LINE, "middle")),
  ];
}

function box(site: Site, lines: readonly Fitted[], laid: LaidOut): PlacedItem[] {
  const rect = rectOf(site, lines, laid);
  const planned = site.state?.word === "planned";
  return [
    {
      kind: "box",
      box: "part",
      at: address("site", site.name),
      ...rect,
      proposed: planned,
      round: true,
      title: site.name,
    },
    ...linesAt(lines, rect.x + PAD, rect.y + PAD),
  ];
}
