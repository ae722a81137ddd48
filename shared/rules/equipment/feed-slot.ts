import { address, nth } from "../../design/address.js";
import type { Feed } from "../../design/equipment.js";
import { LOWEST_SERVICE_V } from "../../equipment/dc-feed.js";
import { isInlet } from "../../equipment/placement.js";
import { siteLoad } from "../../equipment/power.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import { takesOwnFeed } from "../../equipment/wiring/supply.js";
import { trimmed } from "../../format/numbers.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit } from "./site-rules.js";

const fed = (feeds: string) => equipped(`${feeds}\nchassis HEDGE {\n  slot 6 EMBER\n  slot 7 EMBER\n}`);

export const feedSlot: SiteRule = {
  scope: "network",
  each: "site",
  id: "feed-slot",
  severity: "error",
  title: "A stated feed leads to a power card, each fuse and each card once",
  checks:
    "Each `feed` of a site against the power cards of its chassis, a chassis with its supply built in, or the all-outdoor units on a fibre of the hop that it names; fuses of one feed against each other; the rating of a fuse against what its chassis or unit draws at the lowest voltage of service; and a second power card of a chassis on the same feed as the first.",
  why: "Whoever switches a fuse off to work on one card must not take another with it. Two cards on one feed fail together.",
  fix: "Another slot, fuse or feed.",
  source: "common practice",
  good: fed("feed A fuse 1 slot 6\nfeed B fuse 1 slot 7"),
  bad: fed("feed A fuse 1 slot 6\nfeed A fuse 1 slot 7"),
  check({ plan, report }) {
    const feeds = plan.equipment?.feeds ?? [];
    const first = plan.equipment?.chassis[0]?.name;
    const fuses = new Map<string, number>();
    const slots = new Map<string, number>();
    const ofChassis = new Map<string, Feed>();
    const units = new Map<string, number>();
    for (const [index, feed] of feeds.entries()) {
      const { name, fuse, slot, hop, chassis = first } = feed;
      if (hop === undefined && !hasIndoorUnit(plan)) continue;
      const at = address("site", plan.site.name, nth("feed", index));
      const related = (other: number) => [
        { at: address("site", plan.site.name, nth("feed", other)), message: "the other" },
      ];
      const unit = hop === undefined ? undefined : nextUnit(plan, hop, units);
      const place = placeOf(feed, chassis);
      const sameFuse = fuses.get(`${name} ${fuse}`);
      const sameSlot = hop === undefined ? slots.get(place) : undefined;
      const before = hop === undefined ? ofChassis.get(chassis!) : undefined;
      if (unit === "none") report({ at, message: noUnitWords(plan, hop!) });
      else if (hop === undefined && !takesFeed(plan, chassis!, slot))
        report({ at, message: `there is no power card in ${place} at ${plan.site.name}` });
      else if (sameFuse !== undefined)
        report({
          at,
          message: `fuse ${fuse} of feed ${name} at ${plan.site.name} feeds two things`,
          related: related(sameFuse),
        });
      else if (sameSlot !== undefined)
        report({ at, message: `${place} at ${plan.site.name} is fed twice`, related: related(sameSlot) });
      else if (before !== undefined && before.name === name)
        report({
          at,
          severity: "warning",
          message: `both power cards of chassis ${chassis} at ${plan.site.name} are on feed ${name}: they fail together`,
          related: related(feeds.indexOf(before)),
        });
      const needsA = drawnW(plan, feed, chassis) / LOWEST_SERVICE_V;
      if (feed.ratingA !== undefined && needsA > feed.ratingA)
        report({
          at,
          severity: "warning",
          message: `fuse ${fuse} of feed ${name} at ${plan.site.name} is rated ${trimmed(feed.ratingA, 1)} A; ${place} draws ${trimmed(needsA, 1)} A at ${LOWEST_SERVICE_V} V${hop === undefined ? ", all of it through one feed when the other fails" : ""}`,
        });
      fuses.set(`${name} ${fuse}`, sameFuse ?? index);
      if (hop !== undefined) continue;
      slots.set(place, sameSlot ?? index);
      ofChassis.set(chassis!, before ?? feed);
    }
  },
};

function takesFeed({ placed, equipment }: SitePlan, name: string, slot: number | undefined): boolean {
  const installed = equipment?.chassis.find((one) => one.name === name);
  const inlets = placed.cards.filter((one) => one.chassis === installed && isInlet(one.card));
  if (slot !== undefined) return inlets.some((one) => one.slot === slot);
  if (installed === undefined || inlets.length > 0) return false;
  return installed.chassis?.slots.every(({ kind }) => kind !== "power") ?? true;
}

function placeOf({ slot, hop }: Feed, chassis: string | undefined): string {
  if (hop !== undefined) return `a unit of ${hop}`;
  return slot === undefined ? `chassis ${chassis}` : `slot ${slot} of ${chassis}`;
}

/** What a fuse carries, W; 0 where no consumption is stated. */
function drawnW(plan: SitePlan, { hop }: Feed, chassis: string | undefined): number {
  if (hop === undefined)
    return siteLoad(plan).chassis.find((one) => one.chassis.name === chassis)?.feedW ?? 0;
  return plan.ends.find((end) => end.hop.name === hop)?.hop.radio?.unit?.drawsW ?? 0;
}

/** Counts the units of a hop that are fed so far. */
function nextUnit(plan: SitePlan, hop: string, fed: Map<string, number>): "none" | "unit" {
  const end = plan.ends.find((one) => one.hop.name === hop);
  const count = (fed.get(hop) ?? 0) + 1;
  fed.set(hop, count);
  if (end?.facts === undefined || !takesOwnFeed(end)) return "none";
  return count > end.facts.outdoorUnits ? "none" : "unit";
}

function noUnitWords(plan: SitePlan, hop: string): string {
  const end = plan.ends.find((one) => one.hop.name === hop);
  if (end === undefined) return `hop ${hop} does not end at ${plan.site.name}`;
  return takesOwnFeed(end)
    ? `hop ${hop} has no further unit at ${plan.site.name} that a feed could go to`
    : `no unit of ${hop} at ${plan.site.name} has a feed of its own: that is for all-outdoor units on a fibre`;
}
