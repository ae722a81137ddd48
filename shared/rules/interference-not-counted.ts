import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";

export const interferenceNotCounted = gathering<true>({
  scope: "network",
  id: "interference-not-counted",
  severity: "info",
  remarksOn: "interference that is not counted",
  title: "Interference between hops is not counted",
  checks: "Whether the design has two hops or more with frequencies: each is judged by itself.",
  why: "Two hops on one channel in view of each other can take the margin that each shows alone.",
  fix: "Plan the channels apart by hand, and state what interference leaves with `degradation`, until it is judged here.",
  source: "what this program computes",
  good: exampleHop(),
  bad: `${exampleHop()}
site MOSS {
  at 47.48 -30.48
  structure mast 60 m
}

${exampleHop().replaceAll("KELD", "MOSS")}`,
  each: "hop",
  note: ({ ends }) =>
    ends.some(({ transmitFrequencyHz }) => transmitFrequencyHz !== undefined) ? true : undefined,
  tell({ length }, { report }) {
    if (length < 2) return;
    report({
      at: "network",
      message: `interference between the ${length} hops is not counted: each is judged by itself`,
    });
  },
});
