import { address } from "../../design/address.js";
import { partedPairs } from "../../equipment/if-ports.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit, searchWords } from "./site-rules.js";

const DUAL = "antenna DISH60-18-VH like DISH60-18 {\n  polarizations dual\n}\n\n";
const XPIC = {
  hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 2+0 xpic",
  keld: "antenna DISH60-18-VH at 40 m\n    coupler O18 direct\n    transmits high",
  tarn: "antenna DISH60-18-VH at 40 m\n    coupler O18 direct\n    transmits low",
};

function helpWords(plan: SitePlan): string {
  const out =
    "A card with XPIC and two free IF ports, or two cards that pair in neighbouring slots, lets them pair.";
  return [searchWords(plan), out].filter((part) => part !== undefined).join(" ");
}

export const xpicPair: SiteRule = {
  scope: "network",
  each: "site",
  id: "xpic-pair",
  severity: "error",
  arrangements: ({ xpicPairs, ifCables }) => xpicPairs > 0 && ifCables > 0,
  title: "The IF ports of an XPIC pair must be able to pair",
  checks:
    "Whether the two IF ports of each pair of polarizations are on a card with XPIC, or on cards of neighbouring slots that pair.",
  why: "The canceller needs the signal of the other polarization: between cards without a link it never gets it.",
  fix: "One card with two channels and XPIC, or two that pair in neighbouring slots.",
  source: "common practice",
  good: DUAL + equipped("chassis HEDGE {\n  slot 5 SQUALL\n}", XPIC),
  bad: DUAL + equipped("chassis HEDGE {\n  slot 5 MIST-LINK\n  slot 8 MIST-LINK\n}", XPIC),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const uses = Map.groupBy(plan.ifPorts.uses, ({ hop }) => hop);
    for (const { hop, facts } of plan.ends) {
      if (facts === undefined) continue;
      const [parted] = partedPairs(facts, uses.get(hop.name) ?? []);
      if (parted === undefined) continue;
      report(
        {
          at: address("hop", hop.name, plan.site.name),
          message: `${parted.branches.join(" and ")} of ${hop.name} cannot pair for XPIC at ${plan.site.name}: ${parted.why}`,
          help: parted.ports.some(({ automatic }) => automatic) ? helpWords(plan) : undefined,
        },
        hop.name,
      );
    }
  },
};
