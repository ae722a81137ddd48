import { address } from "../../design/address.js";
import { type EthernetFeed, ethernetFeeds, MOST_TO_DEVICE_W } from "../../equipment/ethernet-feeds.js";
import type { SiteEnd } from "../../equipment/site-plan.js";
import { trimmed } from "../../format/numbers.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit } from "./site-rules.js";

const OUTDOOR = `cable CAT { kind ethernet }
radio R18O like R18 { construction all-outdoor; port GE; draws 45 W }
`;
const HOP = {
  hop: "polarization vertical\n  radio R18O\n  mode 55 MHz 128QAM\n  arrangement all-outdoor 1+0",
  keld: "antenna DISH60-18 at 40 m\n    transmits high\n    cable CAT",
};

export const ethernetPower: SiteRule = {
  scope: "network",
  each: "site",
  id: "ethernet-power",
  severity: "error",
  arrangements: ({ construction }) => construction === "all-outdoor",
  title: "A unit on copper Ethernet needs a port that feeds it",
  checks:
    "All-outdoor units whose cable is copper Ethernet against the powered ports of the site's cards, what they take with their cable's loss against the power budget that a card states, and their consumption against 71.3 W, the most that reaches a device.",
  why: "Copper carries traffic and power to the unit; a port without power leaves it dark, and a hungry unit needs a cable of its own.",
  fix: "Another card with powered ports, or fibre with a power cable.",
  source: "IEEE 802.3, from memory; common practice",
  good: OUTDOOR + equipped("chassis COPSE {\n  slot 3 BRACKEN\n}", HOP),
  bad: OUTDOOR + equipped("chassis COPSE {\n  slot 3 FERN\n}", HOP),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    for (const feed of ethernetFeeds(plan)) {
      const why = tooHungry(feed.end) ?? lacking(feed);
      if (why === undefined) continue;
      const { hop } = feed.end;
      report(
        {
          at: address("hop", hop.name, plan.site.name, "cable"),
          message: `${hop.name} cannot be fed over copper Ethernet at ${plan.site.name}: ${why}`,
        },
        hop.name,
      );
    }
  },
};

function tooHungry({ hop }: SiteEnd): string | undefined {
  const drawsW = hop.radio?.unit?.drawsW;
  return drawsW !== undefined && drawsW > MOST_TO_DEVICE_W
    ? `${hop.radio!.name} draws ${trimmed(drawsW, 1)} W, at most ${MOST_TO_DEVICE_W} W reach it`
    : undefined;
}

function lacking({ units, unitW, lacks }: EthernetFeed): string | undefined {
  if (lacks === undefined) return undefined;
  if (lacks.what === "port")
    return `${lacks.left} powered ${lacks.left === 1 ? "port is" : "ports are"} left, it needs ${units}`;
  return `a unit takes ${trimmed(unitW ?? 0, 1)} W with its cable, the cards with a powered port left give ${trimmed(lacks.mostLeftW, 1)} W more`;
}
