/** Near names among very many are those that a look at every name finds. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { NearNames } from "../../shared/format/nearest.js";

/** A look at every name, with the whole table of edits: optimal string alignment, as textbooks have it. */
function plainly(word: string, names: readonly string[]): string | undefined {
  const limit = Math.floor((word.length + 1) / 3);
  return names
    .filter((one) => Math.abs(one.length - word.length) <= limit)
    .map((one) => ({ one, edits: edits(word.toLowerCase(), one.toLowerCase()) }))
    .filter((found) => found.edits <= limit)
    .sort((a, b) => a.edits - b.edits || (a.one < b.one ? -1 : 1))[0]?.one;
}

function edits(a: string, b: string): number {
  const table = Array.from({ length: a.length + 1 }, (_, i) =>
    Array.from({ length: b.length + 1 }, (_, j) => (i === 0 ? j : j === 0 ? i : 0)),
  );
  for (let i = 1; i <= a.length; i++)
    for (let j = 1; j <= b.length; j++) {
      const replaced = table[i - 1]![j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      let least = Math.min(table[i - 1]![j]! + 1, table[i]![j - 1]! + 1, replaced);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, table[i - 2]![j - 2]! + 1);
      table[i]![j] = least;
    }
  return table[a.length]![b.length]!;
}

/** Few letters, so that names are near each other, and among them such as change their length with their case. */
const LETTERS = ["A", "a", "B", "c", "-", "7", "\u0130", "\u00df", "\u{1f5fb}"];
const name = fc.oneof(
  fc.string({ unit: fc.constantFrom(...LETTERS), maxLength: 12 }),
  fc.string({ unit: fc.constantFrom("A", "b"), minLength: 6, maxLength: 24 }),
  fc.string({ maxLength: 8 }),
);
const names = fc.array(name, { maxLength: 40 });

test("the nearest is that of a plain search", () => {
  fc.assert(
    fc.property(names, fc.array(name, { minLength: 1, maxLength: 8 }), (known, asked) => {
      const near = NearNames.of(known);
      for (const word of [...asked, ...asked]) expect(near.nearest(word)).toBe(plainly(word, known));
    }),
    { numRuns: 2_000 },
  );
});

/** A slip: a letter lost, doubled, another one, or two exchanged. */
const slip = fc.tuple(fc.nat(20), fc.constantFrom("lost", "doubled", "other", "exchanged"));

test("and so it is for names with slips in them", () => {
  fc.assert(
    fc.property(names, fc.nat(), fc.array(slip, { maxLength: 4 }), (known, which, slips) => {
      if (known.length === 0) return;
      let word = known[which % known.length]!;
      for (const [place, kind] of slips) {
        const at = place % (word.length + 1);
        const [before, letter, after] = [word.slice(0, at), word.charAt(at), word.slice(at + 1)];
        if (kind === "lost") word = before + after;
        else if (kind === "doubled") word = before + letter + letter + after;
        else if (kind === "other") word = `${before}X${after}`;
        else word = before + after.charAt(0) + letter + after.slice(1);
      }
      expect(NearNames.of(known).nearest(word)).toBe(plainly(word, known));
    }),
    { numRuns: 2_000 },
  );
});

test("names that begin so are those of all names", () => {
  fc.assert(
    fc.property(names, name, fc.nat(6), (known, begun, most) => {
      const all = known.filter((one) => one.toLowerCase().startsWith(begun.toLowerCase())).sort();
      expect(NearNames.of(known).beginningWith(begun, most)).toEqual(all.slice(0, most));
    }),
  );
});

test("a name of a hundred thousand letters among others like it is no work", () => {
  const long = (last: string) => "KELD-".repeat(20_000) + last;
  const known = [long("ABCDEFG"), long("HIJKLMN")];
  expect(NearNames.of(known).nearest(long("HIJKLMX"))).toBe(known[1]);
});
