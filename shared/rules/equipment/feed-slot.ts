import { address, nth } from "../../design/address.js";
import type { Feed } from "../../design/equipment.js";
import { LOWEST_SERVICE_V } from "../../equipment/dc-feed.js";
import { isInlet } from "../../equipment/placement.js";
import { siteLoad } from "../../equipment/power.js";
import type { SitePlan } from "../../equipment/site-plan.js";
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
    "Each `feed` of a site against the power cards of its chassis, or a chassis with its supply built in; fuses of one feed against each other; the rating of a fuse against what its chassis draws at the lowest voltage of service; and a second power card of a chassis on the same feed as the first.",
  why: "Whoever switches a fuse off to work on one card must not take another with it. Two cards on one feed fail together.",
  fix: "Another slot, fuse or feed.",
  source: "common practice",
  good: fed("feed A fuse 1 slot 6\nfeed B fuse 1 slot 7"),
  bad: fed("feed A fuse 1 slot 6\nfeed A fuse 1 slot 7"),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const feeds = plan.equipment?.feeds ?? [];
    const first = plan.equipment!.chassis[0]!.name;
    const fuses = new Map<string, number>();
    const slots = new Map<string, number>();
    const ofChassis = new Map<string, Feed>();
    for (const [index, feed] of feeds.entries()) {
      const { name, fuse, slot, chassis = first } = feed;
      const at = address("site", plan.site.name, nth("feed", index));
      const related = (other: number) => [
        { at: address("site", plan.site.name, nth("feed", other)), message: "the other" },
      ];
      const place = slot === undefined ? `chassis ${chassis}` : `slot ${slot} of ${chassis}`;
      const [sameFuse, sameSlot] = [fuses.get(`${name} ${fuse}`), slots.get(place)];
      const before = ofChassis.get(chassis);
      if (!takesFeed(plan, chassis, slot))
        report({ at, message: `there is no power card in ${place} at ${plan.site.name}` });
      else if (sameFuse !== undefined)
        report({
          at,
          message: `fuse ${fuse} of feed ${name} at ${plan.site.name} feeds two cards`,
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
      const needsA =
        (siteLoad(plan).chassis.find((one) => one.chassis.name === chassis)?.feedW ?? 0) / LOWEST_SERVICE_V;
      if (feed.ratingA !== undefined && needsA > feed.ratingA)
        report({
          at,
          severity: "warning",
          message: `fuse ${fuse} of feed ${name} at ${plan.site.name} is rated ${trimmed(feed.ratingA, 1)} A; chassis ${chassis} draws ${trimmed(needsA, 1)} A at ${LOWEST_SERVICE_V} V, all of it through one feed when the other fails`,
        });
      fuses.set(`${name} ${fuse}`, sameFuse ?? index);
      slots.set(place, sameSlot ?? index);
      ofChassis.set(chassis, before ?? feed);
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
