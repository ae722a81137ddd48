import { address } from "../../design/address.js";
import type { Hop, HopEnd } from "../../design/design.js";
import type { FactChange, Fix } from "../../design/fact-change.js";
import { antennasUsed, leadTo, mountingFact, mountingOf } from "../../equipment/mounting.js";
import { isLedAlone, type Stand } from "../../equipment/stands.js";
import { exampleHop } from "../example-preamble.js";
import { decision, endHere, type Mending } from "../fixes/mending.js";
import { mountingChange } from "../fixes/waveguide.js";
import type { HopRule } from "../rule.js";

const FLEXIBLE = `feeder FLEX-18 {
  kind flexible
  loss 1.1 dB/m at 18.7 GHz
}`;
const mounted = (mounting: string) =>
  `${FLEXIBLE}\n\n${exampleHop({
    keld: `antenna DISH60-18 at 40 m\n    mounting ${mounting}\n    feeder FLEX-18 length 0.9 m\n    transmits high`,
  })}`;

export const directWithFeeder: HopRule = {
  scope: "hop",
  id: "direct-with-feeder",
  severity: "error",
  title: "What is mounted directly has no feeder",
  checks:
    "Whether an end states direct mounting of all its antennas, with their couplers or by itself, and a feeder too.",
  why: "One of the two is left over. Either a waveguide is ordered that fits nowhere and its loss counts, or the unit is ordered for a mounting that it does not get.",
  fix: "Remove the feeder, or mount separately.",
  source: "common practice",
  needs: [],
  fixes: directOrFeeder,
  good: mounted("separate"),
  bad: mounted("direct"),
  check({ hop, report }) {
    for (const end of hop.ends) {
      const found = contradicting(hop, end);
      if (found?.feeder === undefined) continue;
      const { name } = end.site;
      const { feeder, feederFact } = found;
      const fact = mountingFact(found);
      report({
        at: address("hop", hop.name, name, fact),
        about: address("hop", hop.name, name),
        message: `direct mounting at ${name}, and feeder ${feeder.name} all the same; its loss counts`,
        related: [{ at: address("hop", hop.name, name, feederFact), message: `feeder ${feeder.name}` }],
      });
    }
  },
};

/** The first antenna that units sit on and a feeder leads to. */
function contradicting(hop: Hop, end: HopEnd): Stand | undefined {
  return antennasUsed(hop, end).find(
    (stand) => mountingOf(end, stand) === "direct" && leadTo(hop, end, stand) === "feeder",
  );
}

/** One of the two that contradict each other. */
function directOrFeeder(mending: Mending): readonly Fix[] {
  const here = endHere(mending);
  const found = here && contradicting(here.hop, here.end);
  if (!here || !found) return [];
  const separate: FactChange | undefined =
    isLedAlone(found) && found.mounting !== undefined
      ? { do: "replace", at: `${here.at} / ${found.couplerFact}`, argument: "mounting", by: "separate" }
      : mountingChange(here, "separate");
  const without = decision(`Remove the feeder at ${here.site} (changes the equipment)`, {
    do: "remove",
    at: `${here.at} / ${found.feederFact}`,
  });
  return separate
    ? [decision(`Mount separately from the antenna at ${here.site}`, separate), without]
    : [without];
}
