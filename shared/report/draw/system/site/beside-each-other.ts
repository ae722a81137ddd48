/** Antennas of a structure seen from the south: each as far out as it looks east or west, none on another as long as there is room. */

/** What hangs, in units of the sheet. */
export interface Round {
  /** Downwards. */
  readonly y: number;
  readonly radius: number;
  /** East of the structure is above 0; -1 to 1. */
  readonly sin: number;
}

export interface PlacedRound {
  /** From the middle of the structure, to the right. */
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** Between two that hang side by side. */
const CLEAR = 2;

/**
 * @param shaft from the middle of the structure to what is fixed to it
 * @param reach how far they may go to the left and right of the middle; beyond it they stand over each other
 * @returns in the order of `rounds`
 */
export function besideEachOther(
  rounds: readonly Round[],
  shaft: number,
  reach: { readonly left: number; readonly right: number },
): readonly PlacedRound[] {
  const placed: PlacedRound[] = [];
  const inOrder = [...rounds.keys()].sort((a, b) => Math.abs(rounds[a]!.sin) - Math.abs(rounds[b]!.sin));
  for (const index of inOrder) {
    const { y, radius, sin } = rounds[index]!;
    const side = sin < 0 ? -1 : 1;
    const others = placed.filter((one) => one !== undefined);
    const base = Math.abs(sin) * (shaft + radius);
    const most = (side < 0 ? reach.left : reach.right) - radius;
    const outwards = [base, ...others.map((one) => side * one.x + besideBy({ y, radius }, one))]
      .filter((out) => out >= base && out <= most)
      .sort((a, b) => a - b);
    const free = outwards.find((out) => others.every((one) => !touch({ x: side * out, y, radius }, one)));
    placed[index] = { x: side * (free ?? Math.max(0, Math.min(base, most))), y, radius };
  }
  return placed;
}

/** How far apart sideways two are that just do not touch; no number where any is enough. */
function besideBy(one: Omit<PlacedRound, "x">, other: PlacedRound): number {
  const apart = one.radius + other.radius + CLEAR;
  const dy = one.y - other.y;
  return Math.sqrt(Math.max(0, apart ** 2 - dy ** 2)) + 1e-6;
}

function touch(one: PlacedRound, other: PlacedRound): boolean {
  return Math.hypot(one.x - other.x, one.y - other.y) < one.radius + other.radius + CLEAR / 2;
}

/** Groups of what stands over each other all the same, by their places in the list; what stands alone is in none. */
export function overEachOther(placed: readonly PlacedRound[]): readonly (readonly number[])[] {
  const groups: number[][] = [];
  const seen = new Set<number>();
  for (const first of placed.keys()) {
    if (seen.has(first)) continue;
    const group = [first];
    seen.add(first);
    for (const one of group)
      for (const other of placed.keys())
        if (!seen.has(other) && touch(placed[one]!, placed[other]!)) {
          seen.add(other);
          group.push(other);
        }
    if (group.length > 1) groups.push(group);
  }
  return groups;
}
