import { address } from "../design/address.js";
import type { FactChange, Fix } from "../design/fact-change.js";
import type { FactCode, Lack } from "../evaluate/account/lack.js";
import { missingFacts } from "../evaluate/missing.js";
import { factsTold, factWords, lackClause } from "../words/lacks.js";
import { shown } from "../words/message.js";
import { exampleHop } from "./example-preamble.js";
import { decision, type Mending } from "./fixes/mending.js";
import type { HopContext, HopRule } from "./rule.js";

export const hopIncomplete: HopRule = {
  scope: "hop",
  id: "hop-incomplete",
  severity: "info",
  title: "The hop still lacks facts",
  checks:
    "Facts without which a path, a level or a margin cannot be computed, in the hop and in its catalogue entries; without an objective, or beside what that asks. What the objective cannot be judged without is told by not-judged.",
  why: "An unfinished design is normal; what is not judged yet must be seen, once and quietly.",
  fix: "Write the facts as they are decided.",
  source: "common practice",
  once: true,
  needs: [],
  fixes: addMissingLines,
  good: exampleHop(),
  bad: exampleHop({ tarn: "antenna DISH60-18\n    transmits low" }).replace("  objective trunk\n", ""),
  check(context) {
    const { hop, result, openLacks, report } = context;
    const lacks = result.missing.filter((lack) => isOfDesign(lack) && !openLacks.has(lack));
    const facts = lacks.flatMap(({ fact, at }) =>
      // A waveguide that is missing has a finding of its own.
      fact && at && fact.code !== "waveguide" ? [{ fact, at }] : [],
    );
    // Without any profile the unknown ground is told there.
    const others = lacks.filter(
      ({ fact, code }) => fact === undefined && !(code === "terrain" && result.profile === undefined),
    );
    if (facts.length === 0 && others.length === 0) return;
    const parts = facts.length > 0 ? [`${shown(factsTold(facts.map(({ fact }) => fact)))} not stated`] : [];
    parts.push(...others.map((lack) => shown(lackClause(lack))));
    const blocked = hop.objective === undefined ? notComputed(context) : [];
    const consequence = blocked.length > 0 ? `; not judged: ${blocked.join(", ")}` : "";
    report({
      at: facts.length === 1 ? facts[0]!.at : address("hop", hop.name),
      message: `${parts.join("; ")}${consequence}`,
      related:
        facts.length > 1 ? facts.map(({ fact, at }) => ({ at, message: shown(factWords(fact)) })) : undefined,
    });
  },
};

/** What the design and its catalogue could mend; a channel that no plan has is told by the text. */
function isOfDesign({ code, of, fact }: Lack): boolean {
  // The text tells what cannot be used, and what is still to be chosen, at its place.
  if (code === "unusable") return false;
  if (code === "fact") return fact !== undefined;
  return (
    code === "catalogue" || code === "channel open" || code === "beyond reason" || of.includes("heights")
  );
}

function notComputed({ result }: HopContext): string[] {
  const blocked: string[] = [];
  if (result.geometry === undefined) blocked.push("path");
  if (result.clearance.length === 0) blocked.push("clearance");
  if (result.directions.length < 2 || result.directions.some(({ modes }) => modes.length === 0)) {
    blocked.push("level and fade margin");
  }
  return blocked;
}

/** What is written for a fact that is missing. */
const LINES: Readonly<Partial<Record<FactCode, string>>> = {
  radio: "radio ?",
  mode: "mode ? ?",
  polarization: "polarization ?",
  "transmit-frequency": "transmits ?",
  antenna: "antenna ? at ?",
  position: "at ?",
};

/** The lines that a hop still lacks, with ? where something has to be chosen. */
function addMissingLines({ hop }: Mending): readonly Fix[] {
  if (!hop) return [];
  const at = address("hop", hop.name);
  const changes = missingFacts(hop).map(({ fact: { code, site } }): FactChange | undefined => {
    const block = site === undefined ? at : code === "position" ? address("site", site) : `${at} / ${site}`;
    // An antenna that is missing too brings its height with it.
    if (code === "antenna-height")
      return { do: "append", at: `${block} / antenna`, words: "at ?", optional: true };
    const line = LINES[code];
    return line === undefined ? undefined : { do: "add", in: block, lines: [line], once: true };
  });
  return changes.length === 0 || changes.some((change) => change === undefined)
    ? []
    : [
        decision(
          "Add the lines that are missing (write what each ? stands for)",
          ...(changes as FactChange[]),
        ),
      ];
}
