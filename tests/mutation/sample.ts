/** Which mutants are tried: the same for one seed on every machine, and others for another. */
import { createHash } from "node:crypto";

/** What a mutant is known by, in the list before a run and in its results. */
export interface Mutant {
  /** From the root of the repository, parted by `/`. */
  readonly file: string;
  /** Lines and columns from 0, as the tool counts. */
  readonly location: {
    readonly start: { readonly line: number; readonly column: number };
    readonly end: { readonly line: number; readonly column: number };
  };
  readonly mutatorName: string;
  readonly replacement: string;
}

export function keyOf({ file, location: { start, end }, mutatorName, replacement }: Mutant): string {
  return `${file}:${start.line}:${start.column}-${end.line}:${end.column} ${mutatorName} ${replacement}`;
}

/** In the order in which they are drawn: a larger sample begins with a smaller one of the same seed. */
export function drawn<M extends Mutant>(mutants: readonly M[], seed: number): readonly M[] {
  const place = (mutant: M) =>
    createHash("sha256")
      .update(`${seed} ${keyOf(mutant)}`)
      .digest("hex");
  return mutants
    .map((mutant) => ({ mutant, at: place(mutant) }))
    .sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0))
    .map(({ mutant }) => mutant);
}
