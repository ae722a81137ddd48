import { address } from "../../design/address.js";
import type { Hop } from "../../design/design.js";
import type { Card } from "../../design/equipment.js";
import type { IfPortUse } from "../../equipment/if-ports.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import { bitsPerSymbol } from "../../radio/modulation.js";
import type { NetworkRule } from "../rule.js";
import { equipped } from "./example-equipment.js";

const sites = (far: string) => `chassis BOX { slot 1 to 2 traffic; controller built-in }
card WAVE { kind if; ports 1 IF; carries packet }
card GUST { kind if; ports 1 IF; carries tdm }

site FELL {
  at 47.55 -30.4
  structure mast 60 m
  chassis BOX {
    slot 1 ${far}
  }
}

${equipped("chassis BOX {\n  slot 1 WAVE\n}", {}, "").replaceAll("TARN", "FELL")}`;

export const ifCardsDiffer: NetworkRule = {
  scope: "network",
  id: "if-cards-differ",
  severity: "error",
  title: "The IF cards of both ends must speak alike",
  checks:
    "What the IF cards at both ends of a hop carry over the air, packets or TDM, against each other, where both state it. That one has a higher modulation than the other is a remark: the hop goes no higher than both.",
  why: "Two cards that share nothing synchronize and carry no traffic; one that could do more is paid for and not used.",
  fix: "Cards of one sort at both ends, or one that carries both.",
  source: "common practice",
  good: sites("WAVE"),
  bad: sites("GUST"),
  check({ design, sites, report }) {
    const ends = new Map<string, Map<string, IfPortUse[]>>();
    for (const [site, { plan }] of sites)
      for (const use of plan.ifPorts.uses) {
        const { carries, highestModulation } = use.card.card;
        if (carries === undefined && highestModulation === undefined) continue;
        const here = ends.get(use.hop) ?? new Map<string, IfPortUse[]>();
        ends.set(use.hop, here.set(site, [...(here.get(site) ?? []), use]));
      }
    for (const [name, bySite] of ends) {
      const hop = design.hops.get(name);
      if (hop === undefined) continue;
      const [own, far] = hop.ends.map(({ site }) => bySite.get(site.name) ?? []);
      const found = firstFault(hop, facing(hop, own!, far!));
      if (found) report({ at: address("hop", name), ...found }, name);
    }
  },
};

/** Cards whose units speak to each other: of one carrier, or of any two where a standby takes over. */
function facing(hop: Hop, own: readonly IfPortUse[], far: readonly IfPortUse[]): readonly [Card, Card][] {
  const anyTwo = hop.ends.some((end) => factsAt(hop, end)?.hotStandby);
  return own.flatMap(({ branch, card }) =>
    far.flatMap((other): [Card, Card][] =>
      anyTwo || other.branch === branch ? [[card.card, other.card.card]] : [],
    ),
  );
}

function firstFault({ name, ends }: Hop, pairs: readonly [Card, Card][]) {
  const [here, there] = ends.map(({ site }) => site.name);
  const apart = pairs.find(([one, other]) => sharesNothing(one, other));
  if (apart !== undefined) {
    const [one, other] = apart;
    return {
      message: `the IF cards of ${name} share no traffic: ${one.name} at ${here} carries ${WORDS[one.carries!]}, ${other.name} at ${there} carries ${WORDS[other.carries!]}`,
    };
  }
  const uneven = pairs.find(([one, other]) => bitsOf(one) !== bitsOf(other) && bitsOf(one) && bitsOf(other));
  if (uneven === undefined) return undefined;
  const [lower, higher] = bitsOf(uneven[0])! < bitsOf(uneven[1])! ? uneven : [uneven[1], uneven[0]];
  return {
    severity: "info" as const,
    message: `${name} goes no higher than ${lower.highestModulation}, the highest of ${lower.name} at one end; ${higher.name} at the other could ${higher.highestModulation}`,
  };
}

const WORDS = { packet: "packets", tdm: "TDM", both: "both" } as const;

function sharesNothing(one: Card, other: Card): boolean {
  if (one.carries === undefined || other.carries === undefined) return false;
  return one.carries !== other.carries && one.carries !== "both" && other.carries !== "both";
}

function bitsOf({ highestModulation }: Card): number | undefined {
  return highestModulation === undefined ? undefined : bitsPerSymbol(highestModulation);
}
