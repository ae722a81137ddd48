import { address } from "../../design/address.js";
import type { SiteEnd, SitePlan } from "../../equipment/site-plan.js";
import { trimmed } from "../../format/numbers.js";
import type { NetworkRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { equippedSites } from "./site-rules.js";

/** Most that reaches a device over copper: type 4 of IEEE 802.3, from memory, not checked against the standard. */
const GREATEST_W = 71.3;

const OUTDOOR = `cable CAT { kind ethernet }
radio R18O like R18 { construction all-outdoor; port GE; draws 45 W }
card FERN-POWERED { kind ethernet; ports 4 GE powered; draws 10 W }
`;
const HOP = {
  hop: "polarization vertical\n  radio R18O\n  mode 55 MHz 128QAM\n  arrangement all-outdoor 1+0",
  keld: "antenna A18-06 at 40 m\n    transmits high\n    cable CAT",
};

export const ethernetPower: NetworkRule = {
  scope: "network",
  id: "ethernet-power",
  severity: "error",
  title: "A unit on copper Ethernet needs a port that feeds it",
  checks:
    "All-outdoor units whose cable is copper Ethernet against the powered ports of the site's cards, and their consumption against 71.3 W, the most that reaches a device.",
  why: "Copper carries traffic and power to the unit; a port without power leaves it dark, and a hungry unit needs a cable of its own.",
  fix: "A card with powered ports, or fibre with a power cable.",
  source: "IEEE 802.3, from memory; common practice",
  good: OUTDOOR + equipped("chassis HEDGE {\n  slot 1 HEATH\n  slot 3 FERN-POWERED\n}", HOP),
  bad: OUTDOOR + equipped("chassis HEDGE {\n  slot 1 HEATH\n  slot 3 FERN\n}", HOP),
  check(context) {
    for (const plan of equippedSites(context)) {
      let free = poweredPorts(plan);
      for (const end of plan.ends) {
        const needed = fedOverCopper(end) ? (end.facts?.outdoorUnits ?? 0) : 0;
        if (needed === 0) continue;
        const why =
          tooHungry(end) ??
          (needed > free ? `${free} powered ports are left, it needs ${needed}` : undefined);
        free = Math.max(0, free - needed);
        if (why === undefined) continue;
        const { hop } = end;
        context.report(
          {
            at: address("hop", hop.name, plan.site.name, "cable"),
            message: `${hop.name} cannot be fed over copper Ethernet at ${plan.site.name}: ${why}`,
          },
          hop.name,
        );
      }
    }
  },
};

function fedOverCopper({ hop, end }: SiteEnd): boolean {
  return hop.radio?.unit?.construction === "all-outdoor" && end.installation?.cable?.kind === "ethernet";
}

function tooHungry({ hop }: SiteEnd): string | undefined {
  const drawsW = hop.radio?.unit?.drawsW;
  return drawsW !== undefined && drawsW > GREATEST_W
    ? `${hop.radio!.name} draws ${trimmed(drawsW, 1)} W, at most ${GREATEST_W} W reach it`
    : undefined;
}

function poweredPorts(plan: SitePlan): number {
  return plan.placed.cards
    .flatMap(({ card }) => card.ports)
    .reduce((sum, { count, powered }) => sum + (powered ? count : 0), 0);
}
