import type { Fix } from "../../design/fact-change.js";
import { portsThere } from "../../equipment/ports.js";
import { addToSite, portsOf } from "../fixes/cards.js";
import type { Mending } from "../fixes/mending.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { chassisAddress, hasIndoorUnit } from "./site-rules.js";

export const emulationClock: SiteRule = {
  scope: "network",
  each: "site",
  id: "emulation-clock",
  severity: "warning",
  title: "TDM over packet needs a clock that both ends share",
  checks: "Cards that carry TDM over packet, against the clock ports of the chassis and cards of their site.",
  why: "Packets do not carry the pace of the bits: two ends that each go by a clock of their own slip, and the line behind them drops bits.",
  fix: "A controller or a chassis with a clock port, fed from a clock that the far end has too; or accept it where the clock comes over the hop itself.",
  source: "common practice",
  fixes: addClock,
  good: equipped("chassis SPINNEY {\n  slot 11 HEATH\n  slot 5 MIST\n  slot 7 IVY\n}"),
  bad: equipped("chassis COPSE {\n  slot 2 MIST\n  slot 3 IVY\n}"),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    if ((portsThere(plan).get("sync") ?? 0) > 0) return;
    // One clock serves all cards of the site: the first is told.
    const first = plan.placed.cards.find(({ card }) => card.kind === "circuit-emulation");
    if (first === undefined) return;
    const { card, slot, chassis } = first;
    report({
      at: chassisAddress(plan, chassis),
      message: `${card.name} in slot ${slot} at ${plan.site.name} carries TDM over packet; no part of the site has a clock port`,
    });
  },
};

/** A card with a clock port. */
function addClock(mending: Mending): readonly Fix[] {
  return addToSite(mending, (card) => (portsOf(card, "sync") > 0 ? 1 : Number.POSITIVE_INFINITY));
}
