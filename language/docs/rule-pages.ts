/** A page for each rule, and their list; made from what the rules say of themselves. */
import { CRITERION_RULES, ONLY_ASKED_RULES } from "../../shared/rules/asked.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import type { Rule } from "../../shared/rules/rule.js";
import { TEXT_RULES } from "../check/text-rules.js";
import type { TextRule } from "../facts/fact.js";

/** Identifier to page, both of the engine's rules and of those about the text itself. */
export function rulePages(): ReadonlyMap<string, string> {
  const pages = new Map<string, string>();
  for (const [id, rule] of RULES) pages.set(id, enginePage(rule));
  for (const id of Object.keys(TEXT_RULES) as TextRule[]) pages.set(id, textPage(id));
  return pages;
}

export function rulesIndexPage(): string {
  const engine = [...RULES.values()].map(
    (rule) => `| [${rule.id}](rules/${rule.id}.md) | ${rule.severity} | ${rule.title} |`,
  );
  const text = Object.entries(TEXT_RULES).map(([id, rule]) => `| [${id}](rules/${id}.md) | ${rule.title} |`);
  return `# Rules

Made from the rules themselves; do not edit by hand. A hop may accept a rule about it with a reason and an
end date: \`accept clearance until 2027-05-01 because "felled next spring"\`.

Where a rule's source reads "common practice", it is the habit of the trade as the project remembers it: no document
was read for it. "From memory" beside a Recommendation says that its text was not at hand.

## About the design

| rule | severity | what it holds |
| --- | --- | --- |
${engine.join("\n")}

## About the text

These cannot be accepted.

| rule | what it holds |
| --- | --- |
${text.join("\n")}

## What the examples stand on

The examples of every rule's page take these sites and this equipment for granted; all of it is invented.

\`\`\`hop
${EXAMPLE_PREAMBLE.trim()}
\`\`\`
`;
}

function enginePage(rule: Rule): string {
  return `# ${rule.id}

${rule.title}

Severity: ${rule.severity}${severityNote(rule)}. Source: ${rule.source}.

**Checks:** ${rule.checks}

**Why it matters:** ${rule.why}

**What to do:** ${rule.fix}

## Without the finding

\`\`\`hop
${rule.good.trim()}
\`\`\`

## With the finding

\`\`\`hop
${rule.bad.trim()}
\`\`\`

Both stand on [the sites and the equipment of every example](../rules.md#what-the-examples-stand-on).
`;
}

/** What a design may agree on about it. */
function severityNote({ id }: Rule): string {
  const always = id === "not-judged" || ONLY_ASKED_RULES.has(id);
  if (always) return ", whatever `severity` says: an objective asks it";
  return CRITERION_RULES.has(id) ? "; on a hop with an objective whatever `severity` says" : "";
}

function textPage(id: TextRule): string {
  const rule = TEXT_RULES[id];
  return `# ${id}

${rule.title}

**Why it matters:** ${rule.why}

**What to do:** ${rule.fix}
`;
}
