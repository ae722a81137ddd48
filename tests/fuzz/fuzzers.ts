/** The fuzzers by name. */
import { commits } from "./commits.js";
import { designs } from "./designs.js";
import { edits } from "./edits.js";
import type { Fuzzer } from "./fuzzer.js";
import { terrain } from "./terrain.js";

/** Fails on purpose: a fuzz that cannot fail shows nothing. */
const canary: Fuzzer = {
  name: "canary",
  what: "a case that fails on purpose",
  begin: (chance) => {
    const bird = chance.below(100);
    return {
      parts: 100,
      counts: 1,
      run: async (kept) => (kept.includes(bird) ? ["the bird is there"] : []),
      tell: (kept) => kept.join(" "),
    };
  },
};

export const FUZZERS: ReadonlyMap<string, Fuzzer> = new Map(
  [designs, edits, commits, terrain, canary].map((fuzzer) => [fuzzer.name, fuzzer]),
);
