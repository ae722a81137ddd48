import { address } from "../../design/address.js";
import { type IfPortUse, portGroups } from "../../equipment/if-ports.js";
import type { NetworkRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { equippedSites } from "./site-rules.js";

const DUAL = "antenna A18-06D like A18-06 {\n  polarizations dual\n}\n\n";
const XPIC = {
  hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 2+0 xpic",
  keld: "antenna A18-06D at 40 m\n    coupler O18 direct\n    transmits high",
  tarn: "antenna A18-06D at 40 m\n    coupler O18 direct\n    transmits low",
};

export const xpicPair: NetworkRule = {
  scope: "network",
  id: "xpic-pair",
  severity: "error",
  title: "The IF ports of an XPIC pair must be able to pair",
  checks:
    "Whether the two IF ports of each pair of polarizations are on a card with XPIC, or on cards of neighbouring slots that pair.",
  why: "The canceller needs the signal of the other polarization: between cards without a link it never gets it.",
  fix: "One card with two channels and XPIC, or two that pair in neighbouring slots.",
  source: "common practice",
  good: DUAL + equipped("chassis HEDGE {\n  slot 3 HAIL-TWIN\n}", XPIC),
  bad: DUAL + equipped("chassis HEDGE {\n  slot 3 MIST\n  slot 5 MIST\n}", XPIC),
  check(context) {
    for (const plan of equippedSites(context)) {
      const uses = Map.groupBy(plan.ifPorts.uses, ({ hop }) => hop);
      for (const { hop, facts } of plan.ends) {
        if (facts === undefined || facts.xpicPairs === 0) continue;
        const own = uses.get(hop.name) ?? [];
        for (const group of portGroups(facts)) {
          const [one, other] = group.map((branch) => own.find((use) => use.branch === branch));
          const why = one && other && unpaired(one, other);
          if (!why) continue;
          context.report(
            {
              at: address("hop", hop.name, plan.site.name),
              message: `${group.join(" and ")} of ${hop.name} cannot pair for XPIC at ${plan.site.name}: ${why}`,
            },
            hop.name,
          );
          break;
        }
      }
    }
  },
};

function unpaired(one: IfPortUse, other: IfPortUse): string | undefined {
  for (const { card } of [one.card, other.card]) if (card.xpic === false) return `${card.name} has no XPIC`;
  if (one.card === other.card) return undefined;
  const [low, high] = [one.card.slot, other.card.slot].sort((a, b) => a - b);
  const slots = `slots ${low} and ${high}`;
  if (one.card.chassis !== other.card.chassis) return "they are on cards of different chassis";
  if (one.card.card.pairs !== "neighbour" || other.card.card.pairs !== "neighbour") {
    return `they are on two cards, in ${slots}, that do not pair`;
  }
  return Math.abs(one.card.slot - other.card.slot) === 1 ? undefined : `${slots} are not neighbours`;
}
