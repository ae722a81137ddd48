import { address } from "../design/address.js";
import { missingFacts } from "../evaluate/missing.js";
import { exampleHop } from "./example-preamble.js";
import type { HopContext, HopRule } from "./rule.js";

export const hopIncomplete: HopRule = {
  scope: "hop",
  id: "hop-incomplete",
  severity: "info",
  title: "The hop still lacks facts",
  checks:
    "Facts without which a path, a level or a margin cannot be computed, in the hop and in its catalogue entries.",
  why: "An unfinished design is normal; what is not judged yet must be seen, once and quietly.",
  fix: "Write the facts as they are decided.",
  source: "common practice",
  needs: [],
  good: exampleHop(),
  bad: exampleHop({ tarn: "antenna A18-06\n    transmits low" }),
  check(context) {
    const { hop, result, report } = context;
    const facts = missingFacts(hop);
    const catalogue = result.missing
      .filter((sentence) => /^(Level|Margin|Heights|Capacity|Beyond reason):/.test(sentence))
      // Without any profile the unknown ground is told there.
      .filter((sentence) => !(sentence.startsWith("Heights:") && result.profile === undefined));
    if (facts.length === 0 && catalogue.length === 0) return;
    const blocked = notJudged(context);
    const parts = facts.length > 0 ? [`${some(facts.map(({ fact }) => fact))} not stated`] : [];
    parts.push(...catalogue.map((sentence) => sentence.replace(/^[\w ]+: /, "").replace(/\.$/, "")));
    const consequence = blocked.length > 0 ? `; not judged: ${blocked.join(", ")}` : "";
    report({
      at: facts.length === 1 ? facts[0]!.at : address("hop", hop.name),
      message: `${parts.join("; ")}${consequence}`,
      related: facts.length > 1 ? facts.map(({ fact, at }) => ({ at, message: fact })) : undefined,
    });
  },
};

/** The message names a few; all of them stand beside the finding. */
const FACTS_TOLD = 4;

function some(facts: readonly string[]): string {
  const more = facts.length - FACTS_TOLD;
  return more > 0 ? `${facts.slice(0, FACTS_TOLD).join(", ")} and ${more} more` : facts.join(", ");
}

function notJudged({ hop, result }: HopContext): string[] {
  const blocked: string[] = [];
  if (result.geometry === undefined) blocked.push("path");
  if (result.clearance.length === 0) blocked.push("clearance");
  if (result.directions.length < 2 || result.directions.some(({ modes }) => modes.length === 0)) {
    blocked.push("level and fade margin");
  }
  if (result.availability === undefined && hop.objective?.availabilityPercent !== undefined)
    blocked.push("availability");
  return blocked;
}
