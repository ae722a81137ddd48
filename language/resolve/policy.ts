/** What the design has agreed on about its rules, from its statements wherever they stand. */
import type { Policy } from "../../shared/design/design.js";
import type { Severity } from "../../shared/design/finding.js";
import { wordOf } from "../facts/fact.js";
import type { Declaration } from "../model/source-file.js";

/** @returns undefined when nothing is stated */
export function policyOf(declared: readonly Declaration[]): Policy | undefined {
  if (declared.length === 0) return undefined;
  const statements = declared.map(({ fact }) => ({
    rule: wordOf(fact, "rule") ?? "",
    severity: wordOf(fact, "value") as Severity | undefined,
    required: fact.property.name === "required",
  }));
  return { statements };
}
