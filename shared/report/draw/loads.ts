/** What hops carry of what they can: a bar a hop, filled normally, on to the worst failure in outline. */
import { scaleLinear } from "d3-scale";
import { coordinate, element, escaped } from "../document/markup.js";
import { textWidth } from "./labels.js";

export interface LoadBar {
  readonly hop: string;
  /** Of what it carries, percent. */
  readonly normalPercent: number;
  /** Undefined: no failure brings more. */
  readonly worstPercent?: number;
  /** Beside the bar. */
  readonly words: string;
  readonly overloaded: boolean;
}

interface Form {
  readonly width: number;
  readonly rowHeight: number;
  /** Names stand over the bars, where there is no room beside them. */
  readonly over: boolean;
}

const BROAD: Form = { width: 900, rowHeight: 24, over: false };
export const NARROW_LOADS: Form = { width: 360, rowHeight: 44, over: true };

/** More than this many times what is carried is drawn as no more. */
const MOST_PERCENT = 200;
const BAR = 11;
const TOP = 22;

/** @returns undefined without a bar */
export function drawLoads(bars: readonly LoadBar[], form = BROAD): string | undefined {
  if (bars.length === 0) return undefined;
  const { width, rowHeight, over } = form;
  const widest = (words: (bar: LoadBar) => string) => Math.max(...bars.map((bar) => textWidth(words(bar))));
  const left = over ? 4 : Math.min(260, widest(({ hop }) => hop) + 12);
  const right = over
    ? width - 10
    : width -
      Math.min(
        300,
        widest(({ words }) => words),
      ) -
      12;
  const most = Math.max(
    100,
    ...bars.map(({ normalPercent, worstPercent = 0 }) => Math.max(normalPercent, worstPercent)),
  );
  const x = scaleLinear([0, Math.min(MOST_PERCENT, most * 1.02)], [left, right]).clamp(true);
  const bottom = TOP + bars.length * rowHeight;
  const parts = x.ticks(over ? 3 : 5).map((percent) => tick(x(percent), percent, bottom));
  for (const [index, bar] of bars.entries())
    parts.push(row(bar, TOP + index * rowHeight, { x, left, right, form }));
  parts.push(
    element("path", { class: "threshold", d: `M${coordinate(x(100))} ${TOP - 4}V${coordinate(bottom)}` }),
  );
  return element("svg", { viewBox: `0 0 ${width} ${coordinate(bottom + 6)}` }, ...parts);
}

function tick(at: number, percent: number, bottom: number): string {
  return [
    element("path", { class: "grid", d: `M${coordinate(at)} ${TOP - 4}V${coordinate(bottom)}` }),
    text(at, TOP - 9, `${percent} %`, "quiet small", "middle"),
  ].join("");
}

interface Plot {
  readonly x: (percent: number) => number;
  readonly left: number;
  readonly right: number;
  readonly form: Form;
}

function row(
  { hop, normalPercent, worstPercent, words, overloaded }: LoadBar,
  top: number,
  plot: Plot,
): string {
  const { x, left, right, form } = plot;
  const barTop = form.over ? top + 20 : top + (form.rowHeight - BAR) / 2;
  const told = overloaded ? "error small" : "quiet small";
  const rect = (name: string, to: number) =>
    element("rect", { class: name, x: x(0), y: barTop, width: Math.max(0, x(to) - x(0)), height: BAR });
  return [
    ...(worstPercent === undefined ? [] : [rect("bar-worst", worstPercent)]),
    rect("bar", normalPercent),
    ...(form.over
      ? [text(left, top + 14, hop, "", "start"), text(right, top + 14, words, told, "end")]
      : [
          text(left - 8, barTop + BAR - 1, hop, "", "end"),
          text(right + 10, barTop + BAR - 1, words, told, "start"),
        ]),
  ].join("");
}

function text(x: number, y: number, words: string, name: string, anchor: string): string {
  return element(
    "text",
    { x, y, class: name === "" ? undefined : name, "text-anchor": anchor === "start" ? undefined : anchor },
    escaped(words),
  );
}
