/** No text of a list is a formula, and each text comes back as it was. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { guarded, unguarded } from "../../server/lists/formula-guard.js";

const text = fc.oneof(
  fc.string(),
  fc.string({ unit: fc.constantFrom("=", "+", "-", "@", "'", " ", "\t", "\r", "\u00a0", "a"), maxLength: 8 }),
);

/** What spreadsheet programs take for a formula: a sign at the start, in some behind blanks (common practice, no source). */
const isFormula = (cell: string) => /^[=+\-@\t\r]/.test(cell.trimStart()) || /^[\t\r]/.test(cell);

test("a guarded text is no formula, also behind blanks", () => {
  fc.assert(
    fc.property(text, (plain) => {
      expect(isFormula(guarded(plain))).toBe(false);
    }),
  );
});

test("what was guarded comes back, whatever it began with", () => {
  fc.assert(
    fc.property(text, (plain) => {
      expect(unguarded(guarded(plain))).toBe(plain);
    }),
  );
});

test("plain text is left alone", () => {
  expect(guarded("Tarn = ridge")).toBe("Tarn = ridge");
  expect(unguarded("'tis")).toBe("'tis");
});
