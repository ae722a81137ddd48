/** Where a run keeps what it needs; processes that the tool starts find it again by these. */
import { join } from "node:path";

/** The repository, from wherever a part of the tool runs: its copies lie below `.cache`. */
export const HERE = join(import.meta.dirname, "../..").replace(/[\\/]\.cache[\\/]mutation[\\/].*$/, "");
export const WORK = join(HERE, ".cache/mutation");
export const CHOSEN = join(WORK, "chosen.json");
