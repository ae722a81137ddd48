import { describe, expect, test } from "vitest";
import { RULES } from "../../shared/rules/index.js";
import { judgeExample } from "./example-design.js";
import { findingText } from "./finding-text.js";

// Whoever changes a word, a limit or a place sees in the snapshot what it does to all that is said, and has it written
// anew (`vitest run tests/rules/said.test.ts -u`) where that is meant.
describe.each([...RULES.values()])("$id", (rule) => {
  test.each(["good", "bad"] as const)("of its %s example is said what is written down", (which) => {
    const said = judgeExample(rule[which]).findings.map(findingText).sort();
    expect(`\n${said.join("\n")}\n`).toMatchSnapshot();
  });
});
