import { readFileSync } from "node:fs";
import { expect, test } from "vitest";

/** Reads a file of check values; `path` is relative to tests/vectors. */
export function loadVectors<T>(path: string): T {
  return JSON.parse(readFileSync(new URL(`../vectors/${path}`, import.meta.url), "utf8")) as T;
}

/** How far a figure may be from the published one. Both parts are added; the reason belongs beside the number. */
export interface Tolerance {
  readonly absolute?: number;
  readonly relative?: number;
}

/** Collects what differs in one row. */
export interface RowCheck {
  close(what: string, actual: number | undefined, expected: number, tolerance: Tolerance): void;
  same(what: string, actual: unknown, expected: unknown): void;
}

/**
 * One test over many rows of published values. It fails with every row that differs, the row itself, and the source
 * of the figures; it also fails when there is no row, or when a row checks nothing.
 */
export function testRows<Row>(
  title: string,
  source: string,
  rows: readonly Row[],
  check: (row: Row, is: RowCheck) => void,
): void {
  test(title, () => {
    expect(rows.length, `no rows: ${source}`).toBeGreaterThan(0);
    const failures = rows.flatMap((row, index) => failuresOf(row, index, check));
    if (failures.length > 0) {
      const shown = failures.slice(0, 10).join("\n");
      expect.fail(`${failures.length} differences over ${rows.length} rows\n${shown}\nsource: ${source}`);
    }
  });
}

function failuresOf<Row>(row: Row, index: number, check: (row: Row, is: RowCheck) => void): string[] {
  const failures: string[] = [];
  let checks = 0;
  const fail = (text: string) => {
    failures.push(`row ${index}: ${text}\n    ${JSON.stringify(row).slice(0, 300)}`);
  };
  check(row, {
    close(what, actual, expected, { absolute = 0, relative = 0 }) {
      checks++;
      const allowed = absolute + relative * Math.abs(expected);
      const off = actual === undefined ? Number.NaN : Math.abs(actual - expected);
      if (!(off <= allowed))
        fail(`${what} is ${actual}, expected ${expected} (off by ${off}, allowed ${allowed})`);
    },
    same(what, actual, expected) {
      checks++;
      if (!Object.is(actual, expected)) fail(`${what} is ${actual}, expected ${expected}`);
    },
  });
  if (checks === 0) fail("nothing was checked");
  return failures;
}
