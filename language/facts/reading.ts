import type { TextProblem, Value } from "./fact.js";

/** What was read from `atoms[at]` on; `next` is the first atom behind it. */
export interface Reading {
  readonly value?: Value;
  readonly problem?: TextProblem;
  readonly next: number;
}
