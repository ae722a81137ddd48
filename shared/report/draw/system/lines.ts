/** Lines of words in a drawing, and labels beside what they are of. */
import { broken, type Fitted, type Words } from "./fit.js";
import type { PlacedItem } from "./placed.js";

export const LINE = 14;
export const PAD = 6;

/** @param top of the line */
export function textAt(
  { text, style, title }: Fitted,
  x: number,
  top: number,
  anchor?: "middle" | "end",
): PlacedItem {
  return { kind: "text", x, y: top + LINE - 3, text, style, anchor, title };
}

/** Words in lines of a width, each broken into so many lines at most. */
export function linesOf(words: readonly Words[], width: number, mostLines = 2): Fitted[] {
  return words.flatMap((one) => broken(one, width, mostLines));
}

export function linesAt(lines: readonly Fitted[], x: number, top: number): PlacedItem[] {
  return lines.map((one, index) => textAt(one, x, top + index * LINE));
}

/**
 * Tops of labels, each as near to its place as those above it let it, none below the end.
 * @param labels from above, with the middle that each wants
 */
export function besideEach(
  labels: readonly { readonly middle: number; readonly height: number }[],
  { top, bottom, gap }: { readonly top: number; readonly bottom: number; readonly gap: number },
): number[] {
  const tops: number[] = [];
  let free = top;
  for (const { middle, height } of labels) {
    const at = Math.max(free, middle - height / 2);
    tops.push(at);
    free = at + height + gap;
  }
  let end = bottom;
  for (let index = labels.length - 1; index >= 0; index--) {
    tops[index] = Math.min(tops[index]!, end - labels[index]!.height);
    end = tops[index]! - gap;
  }
  return tops;
}
