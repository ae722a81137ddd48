/** What the design has agreed on about its rules, from its statements wherever they stand. */
import type { Acceptance } from "../../shared/design/acceptance.js";
import type { Policy } from "../../shared/design/design.js";
import type { Severity } from "../../shared/design/severity.js";
import { type Fact, factsNamed, wordOf } from "../facts/fact.js";
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

/** What a hop or a site accepts, in the order of its lines. */
export function acceptancesOf(facts: readonly Fact[]): readonly Acceptance[] {
  return factsNamed(facts, "accept").flatMap((fact): Acceptance[] => {
    const rule = wordOf(fact, "rule");
    return rule === undefined
      ? []
      : [{ rule, reason: wordOf(fact, "because"), until: wordOf(fact, "until") }];
  });
}
