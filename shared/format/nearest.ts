/** Near names, for "did you mean". */

/** The candidate nearest to the word, if it is near enough to be what was meant. */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  const limit = Math.floor((word.length + 1) / 3);
  let best: string | undefined;
  let bestDistance = limit + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - word.length) > limit) continue;
    const distance = editDistance(word.toLowerCase(), candidate.toLowerCase(), bestDistance + 1);
    // Of two equally near ones the first in the alphabet, whatever order they were declared in.
    if (
      distance < bestDistance ||
      (distance === bestDistance && distance <= limit && best !== undefined && candidate < best)
    ) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

/** Edits (insert, delete, replace, swap of neighbours) from one word to the other; stops counting at `limit`. */
function editDistance(a: string, b: string, limit: number): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let cost = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, beforeLast[j - 2]! + 1);
      row.push(cost);
    }
    if (Math.min(...row) >= limit) return limit;
    beforeLast = last;
    last = row;
  }
  return last[b.length]!;
}
