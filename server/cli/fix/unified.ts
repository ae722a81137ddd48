/** Two states of a text as a unified diff, as patch programs read it. */

const CONTEXT = 3;
/** Above this many cells of lines against lines what differs is shown as one piece. */
const MOST_CELLS = 4_000_000;

type Mark = " " | "-" | "+";
interface Line {
  readonly mark: Mark;
  readonly text: string;
}

/** @returns the empty text where nothing differs */
export function unifiedDiff(path: string, before: string, after: string): string {
  if (before === after) return "";
  const lines = compared(linesOf(before), linesOf(after));
  const changed = lines.flatMap(({ mark }, index) => (mark === " " ? [] : [index]));
  const hunks: { from: number; to: number }[] = [];
  for (const index of changed) {
    const [from, to] = [Math.max(0, index - CONTEXT), Math.min(lines.length, index + CONTEXT + 1)];
    const last = hunks.at(-1);
    if (last && from <= last.to) last.to = to;
    else hunks.push({ from, to });
  }
  return [`--- a/${path}\n+++ b/${path}\n`, ...hunks.map(({ from, to }) => hunk(lines, from, to))].join("");
}

function hunk(lines: readonly Line[], from: number, to: number): string {
  const count = (part: readonly Line[], without: Mark) => part.filter(({ mark }) => mark !== without).length;
  const range = (without: Mark) => {
    const length = count(lines.slice(from, to), without);
    const first = count(lines.slice(0, from), without) + (length > 0 ? 1 : 0);
    return length === 1 ? `${first}` : `${first},${length}`;
  };
  const body = lines.slice(from, to).map(({ mark, text }) => {
    return text.endsWith("\n") ? `${mark}${text}` : `${mark}${text}\n\\ No newline at end of file\n`;
  });
  return `@@ -${range("+")} +${range("-")} @@\n${body.join("")}`;
}

/** With their line ends, so that one without is another line. */
function linesOf(text: string): readonly string[] {
  return text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
}

function compared(before: readonly string[], after: readonly string[]): readonly Line[] {
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && before[head] === after[head]) head++;
  let tail = 0;
  while (tail < shorter - head && before.at(-1 - tail) === after.at(-1 - tail)) tail++;
  const kept = (lines: readonly string[]) => lines.map((text): Line => ({ mark: " ", text }));
  return [
    ...kept(before.slice(0, head)),
    ...between(before.slice(head, before.length - tail), after.slice(head, after.length - tail)),
    ...kept(before.slice(before.length - tail)),
  ];
}

/** By the longest common subsequence. */
function between(before: readonly string[], after: readonly string[]): readonly Line[] {
  const width = after.length + 1;
  if (before.length * after.length > MOST_CELLS) return [...marked("-", before), ...marked("+", after)];
  const common = new Uint32Array((before.length + 1) * width);
  for (let i = before.length - 1; i >= 0; i--)
    for (let j = after.length - 1; j >= 0; j--)
      common[i * width + j] =
        before[i] === after[j]
          ? common[(i + 1) * width + j + 1]! + 1
          : Math.max(common[(i + 1) * width + j]!, common[i * width + j + 1]!);
  const lines: Line[] = [];
  let [i, j] = [0, 0];
  while (i < before.length && j < after.length) {
    if (before[i] === after[j]) {
      lines.push({ mark: " ", text: before[i++]! });
      j++;
    } else if (common[(i + 1) * width + j]! >= common[i * width + j + 1]!)
      lines.push({ mark: "-", text: before[i++]! });
    else lines.push({ mark: "+", text: after[j++]! });
  }
  return [...lines, ...marked("-", before.slice(i)), ...marked("+", after.slice(j))];
}

function marked(mark: Mark, lines: readonly string[]): readonly Line[] {
  return lines.map((text) => ({ mark, text }));
}
