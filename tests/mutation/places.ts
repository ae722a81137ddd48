/** Where a run keeps what it needs; processes that the tool starts find it again by these. */
import { join } from "node:path";

/** Where the bundles lie that run. */
export const WORK = import.meta.dirname;
/** The repository: bundles are in `.cache/mutation`. */
export const HERE = join(WORK, "../..");
export const CHOSEN = join(WORK, "chosen.json");

/** What `CHOSEN` holds. */
export interface Chosen {
  /** Mutants to run; null: all of them. */
  readonly most: number | null;
  /** Keys of mutants, those drawn first first. */
  readonly inOrder: readonly string[];
}
