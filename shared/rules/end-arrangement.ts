import { address } from "../design/address.js";
import type { Fix } from "../design/fact-change.js";
import { apartIn, partnersOf, unfitAt } from "../radio/arrangement-pairs.js";
import { type ArrangementFacts, arrangementByName } from "../radio/arrangements.js";
import { listed } from "../words/lists.js";
import { exampleHop } from "./example-preamble.js";
import { decision, endHere, type Mending } from "./fixes/mending.js";
import type { HopRule } from "./rule.js";

const tail = (arrangement: string) =>
  exampleHop({
    keld: `antenna DISH60-18 at 40 m\n    arrangement ${arrangement}\n    coupler H18-E direct\n    transmits high`,
  });

export const endArrangement: HopRule = {
  scope: "hop",
  id: "end-arrangement",
  severity: "error",
  arrangements: (facts) => partnersOf(facts).length > 0,
  title: "The arrangements of both ends must work together",
  checks:
    "What an end states as its own `arrangement` against that of the other end: carriers on the air and in use, frequencies, polarizations, XPIC, construction, part of a dual-band pair. Units on standby and further antennas may stand at one end only.",
  why: "A carrier that one end sends and the other has no receiver for carries nothing; one end in two polarizations and the other in one are two different hops. Levels and outage of such a hop are not known.",
  fix: "State one of the arrangements that go with the other end's, or none at this end: it has the hop's.",
  source: "common practice",
  needs: [],
  restsOn: ["arrangement"],
  fixes: asTheOther,
  good: tail("1+1 hot-standby"),
  bad: tail("2+0 single-polarization"),
  check({ hop, report }) {
    const common = arrangementByName(hop.arrangement.name);
    for (const [index, end] of hop.ends.entries()) {
      const own = unfitAt(hop, end);
      if (own === undefined || common === undefined) continue;
      const far = hop.ends[1 - index]!;
      const other = far.arrangement
        ? address("hop", hop.name, far.site.name, "arrangement")
        : address("hop", hop.name, "arrangement");
      report({
        at: address("hop", hop.name, end.site.name, "arrangement"),
        message: `${own.name} at ${end.site.name} does not work with ${common.name} at ${far.site.name}: ${listed(apartIn(own, common))}`,
        help: partnersWords(common),
        related: [{ at: other, message: common.name }],
      });
    }
  },
};

function partnersWords(facts: ArrangementFacts): string {
  const partners = partnersOf(facts).map(({ name }) => name);
  if (partners.length === 0) return `With ${facts.name} goes only ${facts.name}.`;
  return `With ${facts.name} ${partners.length > 1 ? "go" : "goes"} ${listed(partners)}, and ${facts.name} itself.`;
}

/** It counts as this already: nothing else of the hop changes. */
function asTheOther(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  if (!here) return [];
  const { name } = here.hop.arrangement;
  const title = `Take arrangement ${name} at ${here.site}, as at the other end`;
  return [decision(title, { do: "state", in: here.at, line: `arrangement ${name}` })];
}
