/** What must hold of every placed drawing. */
import { widthOf } from "../../../shared/report/draw/system/fit.js";
import { draw, type Placed, type PlacedItem, type Rect } from "../../../shared/report/draw/system/placed.js";

/** Sums of widths that should be equal. */
const ROUNDING = 1e-6;

type Text = Extract<PlacedItem, { kind: "text" }>;

function rectOfText({ x, y, text, style, anchor = "start" }: Text): Rect {
  const width = widthOf({ text, style });
  const left = anchor === "start" ? x : anchor === "middle" ? x - width / 2 : x - width;
  return { x: left, y: y - 10, width, height: 12 };
}

function overlap(a: Rect, b: Rect): boolean {
  return (
    a.x < b.x + b.width - ROUNDING &&
    b.x < a.x + a.width - ROUNDING &&
    a.y < b.y + b.height - ROUNDING &&
    b.y < a.y + a.height - ROUNDING
  );
}

function within(inner: Rect, outer: Rect): boolean {
  return (
    inner.x >= outer.x - ROUNDING &&
    inner.y >= outer.y - ROUNDING &&
    inner.x + inner.width <= outer.x + outer.width + ROUNDING &&
    inner.y + inner.height <= outer.y + outer.height + ROUNDING
  );
}

/** Nothing off the sheet, no box on another, no words on others or over the edge of what they stand in. */
export function faultsOf(placed: Placed): string[] {
  const faults: string[] = [];
  const sheet = { x: 0, y: 0, width: placed.width, height: placed.height };
  const boxes = placed.items.flatMap((item) => (item.kind === "box" ? [item] : []));
  const texts = placed.items.flatMap((item) =>
    item.kind === "text" ? [{ item, rect: rectOfText(item) }] : [],
  );
  for (const box of boxes) if (!within(box, sheet)) faults.push(`${box.box} off the sheet`);
  // Parts beside parts, ports beside ports within them.
  for (const kinds of [
    ["part", "open", "space"],
    ["plug", "socket"],
  ]) {
    const solid = boxes.filter(({ box }) => kinds.includes(box));
    for (const [index, one] of solid.entries())
      for (const other of solid.slice(index + 1))
        if (overlap(one, other))
          faults.push(`${one.box} at ${one.x} ${one.y} on ${other.box} at ${other.x} ${other.y}`);
  }
  for (const { item, rect } of texts) {
    if (!within(rect, sheet)) faults.push(`"${item.text}" off the sheet`);
    for (const box of boxes)
      if (overlap(rect, box) && !within(rect, box) && box.box !== "label")
        faults.push(`"${item.text}" over the edge of ${box.box}`);
  }
  for (const [index, one] of texts.entries())
    for (const other of texts.slice(index + 1))
      if (overlap(one.rect, other.rect)) faults.push(`"${one.item.text}" on "${other.item.text}"`);
  for (const item of placed.items) {
    if (item.kind === "circle" || item.kind === "ring") {
      const { x, y, radius } = item;
      if (!within({ x: x - radius, y: y - radius, width: 2 * radius, height: 2 * radius }, sheet))
        faults.push(`${item.kind} off the sheet`);
    }
    if (item.kind === "wire")
      for (const [x, y] of item.points)
        if (!within({ x, y, width: 0, height: 0 }, sheet)) faults.push(`${item.wire} off the sheet`);
  }
  const svg = draw(placed);
  if (/NaN|Infinity|undefined|\[object/.test(svg)) faults.push("no figure");
  return faults;
}
