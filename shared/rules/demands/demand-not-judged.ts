import type { DemandResult, OpenLack } from "../../demands/result.js";
import { address } from "../../design/address.js";
import { someOf } from "../../words/demands.js";
import { listed } from "../../words/lists.js";
import type { NetworkRule } from "../rule.js";
import { exampleDemand } from "./example-demand.js";

export const demandNotJudged: NetworkRule = {
  scope: "network",
  id: "demand-not-judged",
  severity: "error",
  ofResults: true,
  title: "What a demand asks must be judged",
  checks:
    "Whether the hops of its routes tell enough for a verdict on everything that a demand asks: rate and level of their modes, outage, length, ground, and for `availability-with-equipment` their failures. What is missed whatever is unknown is told as missed.",
  why: "What cannot be judged finds nothing, which reads as if all were well.",
  fix: "State what the hops lack, or accept with a reason that the demand stays open for now.",
  source: "common practice",
  good: exampleDemand(["committed 100 Mbit/s", "availability 99.9 %"]),
  bad: exampleDemand(["committed 100 Mbit/s", "availability-with-equipment 99.9 %"]),
  check({ demands, report }) {
    for (const { demand, open, verdicts, short } of demands?.demands.values() ?? []) {
      if (open.length === 0) continue;
      const criteria = criteriaOf(verdicts);
      if (open.some(({ lacks }) => lacks.includes("capacity")) && short.length === 0)
        criteria.unshift("rate");
      if (criteria.length === 0) continue;
      report({
        at: address("demand", demand.name),
        message: `${demand.name}: ${listed(criteria)} ${criteria.length === 1 ? "is" : "are"} not judged: ${lackingWords(open)}`,
        related: open
          .slice(0, 4)
          .map(({ hop }) => ({ at: address("hop", hop), message: `too little is known of ${hop}` })),
        notJudged: RULES_OF.flatMap(([criterion, rule]) => (criteria.includes(criterion) ? rule : [])),
      });
    }
  },
};

type Criterion = "rate" | "availability" | "availability with equipment" | "latency";

const RULES_OF: readonly (readonly [Criterion, string])[] = [
  ["rate", "demand-capacity"],
  ["availability", "demand-availability"],
  ["availability with equipment", "demand-availability"],
  ["latency", "demand-latency"],
];

function criteriaOf(verdicts: DemandResult["verdicts"]): Criterion[] {
  return [
    ...(verdicts.availability === "open" ? (["availability"] as const) : []),
    ...(verdicts.availabilityWithEquipment === "open" ? (["availability with equipment"] as const) : []),
    ...(verdicts.latency === "open" ? (["latency"] as const) : []),
  ];
}

const LACKING: Readonly<Record<OpenLack, string>> = {
  capacity: "rate or level of a mode",
  outage: "the outage",
  rain: "more than a bound of the rain",
  length: "the length",
  ground: "part of the ground",
  equipment: "failures of equipment (`mtbf` of the radio, `repair-time`)",
};

/** `the outage of A-B and C-D is not known`, a clause for each that lacks. */
function lackingWords(open: DemandResult["open"]): string {
  return (Object.keys(LACKING) as OpenLack[])
    .flatMap((lack) => {
      const hops = open.filter(({ lacks }) => lacks.includes(lack)).map(({ hop }) => hop);
      return hops.length === 0
        ? []
        : `${LACKING[lack]} of ${someOf(hops)} ${lack === "equipment" ? "are" : "is"} not known`;
    })
    .join("; ");
}
