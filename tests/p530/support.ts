import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

// biome-ignore lint/suspicious/noExplicitAny: inputs and steps differ from one file to the next
export type Case = { id: string; method: string; inputs: any; steps: any };

interface VectorFile {
  readonly title: string;
  readonly source: string;
  readonly tolerance_relative: number;
  readonly cases: readonly Case[];
}

// Not run here: the values at map coordinates (logK, dN75, R0.01, h0). They need the ITU's maps, which are not part of
// this project, and belong to the tests of whatever reads those maps.

/** A vector file with its source and tolerance. */
export function vectors(name: string): VectorFile {
  return JSON.parse(readFileSync(new URL(`../vectors/p530/${name}.json`, import.meta.url), "utf8"));
}

/**
 * Runs each case and compares every numeric or textual step that the file has: a step without a counterpart fails.
 * `run` returns the figures under the file's own names.
 */
export function checkVectors(name: string, run: (row: Case) => Record<string, unknown>): void {
  const file = vectors(name);
  describe(`${file.title} [${name}.json]`, () => {
    it.each(file.cases.map((row) => [row.id, row] as const))("%s", (_id, row) => {
      const got = run(row);
      for (const [step, wanted] of Object.entries(row.steps)) {
        compare(got[step], wanted, file.tolerance_relative, `${row.id}: ${step} (${file.source})`);
      }
    });
  });
}

/** Numbers to the relative tolerance of the file (its values have ten digits), everything else exactly. */
export function compare(got: unknown, wanted: unknown, tolerance: number, label: string): void {
  if (typeof wanted === "object" && wanted !== null) {
    for (const [key, value] of Object.entries(wanted)) {
      compare((got as Record<string, unknown> | undefined)?.[key], value, tolerance, `${label}.${key}`);
    }
  } else if (typeof wanted === "number") {
    expect(typeof got, label).toBe("number");
    // A wanted value below 1e-12 is a rounded zero (equal heights give 1.5e-16 for b).
    const allowed = Math.abs(wanted) < 1e-12 ? 1e-12 : tolerance * Math.abs(wanted);
    expect(Math.abs((got as number) - wanted), label).toBeLessThanOrEqual(allowed);
  } else {
    expect(got, label).toEqual(wanted);
  }
}

/** The figures of an outcome that must not be a refusal. */
export function must<T extends { readonly ok: boolean }>(outcome: T): Extract<T, { readonly ok: true }> {
  if (!outcome.ok)
    throw new Error(`refused: ${(outcome as unknown as { refusal: { code: string } }).refusal.code}`);
  return outcome as Extract<T, { readonly ok: true }>;
}

/** Every number anywhere in a value is finite. */
export function allFinite(value: unknown): boolean {
  if (typeof value === "number") return Number.isFinite(value);
  if (typeof value !== "object" || value === null) return true;
  return Object.values(value).every(allFinite);
}
