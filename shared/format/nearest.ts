/** Near names, for "did you mean", among few or very many. */

interface Entry {
  readonly name: string;
  readonly lower: string;
}

/** Nobody misspells a name by more, however long it is. */
const MOST_EDITS = 20;

/** The candidate nearest to the word, if it is near enough to be what was meant. */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  return new NearNames(candidates).nearest(word);
}

/**
 * Names in the order of their letters: what begins alike is looked at once, so that a thousand unknown names among a
 * hundred thousand cost little.
 */
export class NearNames {
  private static readonly known = new WeakMap<readonly string[], NearNames>();
  private readonly sorted: readonly Entry[];
  /** What was asked: the same unknown name often stands in many places. */
  private readonly found = new Map<string, string | undefined>();

  /** @param names a list that does not change any more; sorted once, as long as somebody holds it */
  static of(names: readonly string[]): NearNames {
    let near = NearNames.known.get(names);
    if (near === undefined) NearNames.known.set(names, (near = new NearNames(names)));
    return near;
  }

  constructor(names: Iterable<string>) {
    this.sorted = [...names]
      .map((name) => ({ name, lower: name.toLowerCase() }))
      .sort((a, b) => (a.lower < b.lower ? -1 : a.lower > b.lower ? 1 : 0));
  }

  /** Of those that the fewest edits make of the word the first in the alphabet; undefined: none is near enough. */
  nearest(word: string): string | undefined {
    if (this.found.has(word)) return this.found.get(word);
    const most = Math.min(MOST_EDITS, Math.floor((word.length + 1) / 3));
    let near: string | undefined;
    // Few edits cut off most names after their first letters, and mostly few are enough.
    for (let edits = 0; near === undefined && edits <= most; edits++) near = this.within(word, edits, most);
    this.found.set(word, near);
    return near;
  }

  /** Names that begin so, whatever their case, in the order of the alphabet. */
  beginningWith(begun: string, most: number): readonly string[] {
    const start = begun.toLowerCase();
    const from = this.firstFrom(0, ({ lower }) => lower >= start);
    const end = this.firstFrom(from, ({ lower }) => !lower.startsWith(start));
    return this.sorted
      .slice(from, end)
      .map(({ name }) => name)
      .sort()
      .slice(0, most);
  }

  /**
   * The first in the alphabet of the names that so many edits make of the word.
   *
   * Row i of the table holds the edits from the first i letters of a name to about as many of the word. A name goes on
   * from the rows of the letters that it shares with the one before. The least of a row never falls from one row to the
   * next, so where it is beyond `edits` no name that begins so is near enough.
   * @param mostLonger letters that a name may have more or less
   */
  private within(word: string, edits: number, mostLonger: number): string | undefined {
    const { sorted } = this;
    const letters = word.toLowerCase();
    const rows = [firstRow(letters.length, edits)];
    let first: string | undefined;
    let before = "";
    for (let at = 0; at < sorted.length; ) {
      const { name, lower } = sorted[at]!;
      let depth = sharedLetters(before, lower);
      let isFar = false;
      while (!isFar && depth < lower.length) isFar = nextRow(rows, lower, ++depth, letters, edits) > edits;
      before = lower.slice(0, depth);
      const isNear = !isFar && (rows[depth]![letters.length - depth + edits + 1] ?? FAR) <= edits;
      if (
        isNear &&
        Math.abs(name.length - word.length) <= mostLonger &&
        (first === undefined || name < first)
      )
        first = name;
      at = isFar ? this.firstFrom(at + 1, (other) => !other.lower.startsWith(before)) : at + 1;
    }
    return first;
  }

  /** Where the first entry from a place on stands of which this holds; it holds of all behind that. */
  private firstFrom(from: number, holds: (entry: Entry) => boolean): number {
    let [low, high] = [from, this.sorted.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (holds(this.sorted[middle]!)) high = middle;
      else low = middle + 1;
    }
    return low;
  }
}

/** Of a distance that does not count. */
const FAR = 0xff;

/**
 * Of a row what lies within `edits` of the diagonal, since nothing else can count, and one that is far on either side:
 * letter j of the word stands at j - i + edits + 1.
 */
type Row = Uint8Array;

function farRow(edits: number): Row {
  return new Uint8Array(2 * edits + 3).fill(FAR);
}

function firstRow(letters: number, edits: number): Row {
  const row = farRow(edits);
  for (let j = 0; j <= Math.min(edits, letters); j++) row[j + edits + 1] = j;
  return row;
}

/** Writes row `i`: insert, delete, replace, swap of neighbours. @returns its least */
function nextRow(rows: Row[], name: string, i: number, word: string, edits: number): number {
  const row = (rows[i] ??= farRow(edits));
  const last = rows[i - 1]!;
  let least = FAR;
  const end = Math.min(word.length, i + edits);
  for (let j = Math.max(0, i - edits); j <= end; j++) {
    const k = j - i + edits + 1;
    let cost = Math.min(last[k + 1]! + 1, row[k - 1]! + 1, FAR);
    if (j > 0) cost = Math.min(cost, last[k]! + (name[i - 1] === word[j - 1] ? 0 : 1));
    if (i > 1 && j > 1 && name[i - 1] === word[j - 2] && name[i - 2] === word[j - 1])
      cost = Math.min(cost, rows[i - 2]![k]! + 1);
    row[k] = cost;
    if (cost < least) least = cost;
  }
  return least;
}

function sharedLetters(a: string, b: string): number {
  let count = 0;
  while (count < a.length && a[count] === b[count]) count++;
  return count;
}
