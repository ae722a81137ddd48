/**
 * The first place at or behind `at` that may still serve, with the way there shortened: so many look-ups in a row of
 * places that fill up cost little more than one each.
 * @param next of each place itself, or of one that is passed over the place to look at next; one more than places
 */
export function skip(next: number[], at: number): number {
  let to = at;
  while (next[to]! > to) to = next[to]!;
  for (let i = at; next[i]! > i; ) {
    const then = next[i]!;
    next[i] = to;
    i = then;
  }
  return to;
}
