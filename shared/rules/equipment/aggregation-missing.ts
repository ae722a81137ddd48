import { address } from "../../design/address.js";
import type { Hop } from "../../design/design.js";
import type { Fix } from "../../design/fact-change.js";
import { ETHERNET_RATE_BPS } from "../../equipment/port-rate.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import { trimmed } from "../../format/numbers.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { exampleHop } from "../example-preamble.js";
import { addToSite } from "../fixes/cards.js";
import type { Mending } from "../fixes/mending.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit } from "./site-rules.js";

const LOW = {
  hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement dual-band low\n  pair MOSS-TARN-80",
};
const HIGH = exampleHop({
  hop: "polarization vertical\n  arrangement dual-band high\n  pair MOSS-TARN",
  keld: "transmits 83 GHz",
  tarn: "transmits 73 GHz",
})
  .replaceAll("KELD", "MOSS")
  .replace("hop MOSS-TARN", "hop MOSS-TARN-80");
const pair = (cards: string) => `${equipped(`chassis COPSE {\n${cards}\n}`, LOW)}\n\n${HIGH}`;

export const aggregationMissing: SiteRule = {
  scope: "network",
  each: "site",
  id: "aggregation-missing",
  severity: "warning",
  arrangements: ({ bandOfPair }) => bandOfPair !== undefined,
  title: "Two bands become one at a card that aggregates, with a port as fast as the wide one",
  checks:
    "Sites with cards at which a dual-band pair ends, against cards that aggregate, and their fastest Ethernet port against the rate of the high band's fastest mode.",
  why: "Without it the pair is two links side by side, and through a slow port the wide band carries no more than the port.",
  fix: "A card that aggregates two bands; or accept it where the outdoor unit aggregates.",
  source: "common practice",
  fixes: addAggregation,
  good: pair("  slot 2 MIST\n  slot 3 BRAMBLE"),
  bad: pair("  slot 2 MIST\n  slot 3 FERN"),
  check({ plan, pairs, report }) {
    if (!hasIndoorUnit(plan)) return;
    if (plan.placed.cards.length === 0) return;
    for (const [index, { hop }] of plan.ends.entries()) {
      const high = highBandOf(hop, pairs[index]);
      const fault = high && faultOf(plan, high);
      if (!fault) continue;
      report(
        {
          at: address("hop", hop.name, plan.site.name),
          message: `${hop.name} and ${high.name} become one at ${plan.site.name}, but ${fault}`,
        },
        hop.name,
      );
    }
  },
};

/** The pair is judged once, at its low band. */
function highBandOf(hop: Hop, other: Hop | undefined): Hop | undefined {
  const band = (one: Hop) => arrangementByName(one.arrangement.name)?.bandOfPair;
  return other !== undefined && band(hop) === "low" && band(other) === "high" ? other : undefined;
}

function faultOf({ placed }: SitePlan, high: Hop): string | undefined {
  const cards = placed.cards.filter(({ card }) => card.kind === "aggregation");
  if (cards.length === 0) return "no card there aggregates two bands";
  const portBps = Math.max(
    0,
    ...cards.flatMap(({ card }) => card.ports.map(({ type }) => ETHERNET_RATE_BPS[type] ?? 0)),
  );
  const highBps = Math.max(0, ...high.modes.map(({ bitRateBps }) => bitRateBps ?? 0));
  if (portBps >= highBps) return undefined;
  return `the fastest port that aggregates carries ${trimmed(portBps / 1e6, 0)} Mbit/s of ${trimmed(highBps / 1e6, 0)} Mbit/s`;
}

/** A card that aggregates the two bands of a pair. */
function addAggregation(mending: Mending): readonly Fix[] {
  return addToSite(mending, ({ kind }) => (kind === "aggregation" ? 1 : Number.POSITIVE_INFINITY));
}
