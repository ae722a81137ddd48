/** Direct current: from the plant through a fuse of feed A or B to each power card, and to units that have their own pair. */
import { type Address, address, nth } from "../../design/address.js";
import type { Feed, InstalledChassis } from "../../design/equipment.js";
import { branchesOf } from "../branches.js";
import { isInlet } from "../placement.js";
import type { SiteEnd, SitePlan } from "../site-plan.js";
import type { Assembly } from "./assembly.js";
import { cardId, chassisId, unitId } from "./ids.js";
import type { PortRef } from "./wiring.js";

const PLANT = "plant";
export const SUPPLY = "supply";

/** Feeds that a second power card is there for: one that fails must not take both. Common practice. */
const FEEDS = ["A", "B"] as const;

/** A fuse and what it feeds. */
interface Fused {
  readonly inlet: Inlet;
  readonly feed: Feed;
  readonly proposed: boolean;
}

interface Inlet {
  readonly port: PortRef;
  /** Among those of its chassis or hop, from 0. */
  readonly index: number;
  readonly of:
    | { readonly chassis: string; readonly slot?: number }
    | { readonly hop: string; readonly branch: string };
}

/** The plant with a fuse for each inlet of the site, as stated or proposed; nothing of it is joined yet. */
export function addPlant(plan: SitePlan, to: Assembly): readonly Fused[] {
  const inlets = [
    ...(plan.equipment?.chassis ?? []).flatMap((installed) => inletsOf(installed, plan)),
    ...plan.ends.flatMap(unitInlets),
  ];
  if (inlets.length === 0) return [];
  const stated = plan.equipment?.feeds ?? [];
  const fuses = new Map<string, number>();
  const nextFuse = (feed: string) => {
    for (;;) {
      const number = (fuses.get(feed) ?? 0) + 1;
      fuses.set(feed, number);
      if (!stated.some(({ name, fuse }) => name === feed && fuse === number)) return number;
    }
  };
  const fused = inlets.map((inlet): Fused => {
    const feed = statedFor(inlet, plan);
    if (feed !== undefined) return { inlet, feed, proposed: false };
    // Units of one hop stand by each other as power cards do.
    const name = FEEDS[inlet.index % FEEDS.length]!;
    return { inlet, feed: { name, fuse: nextFuse(name) }, proposed: true };
  });
  to.part({
    id: PLANT,
    kind: "plant",
    at: plantAddress(plan),
    ports: [...new Set(fused.map(({ feed }) => outletOf(feed)))].map((name) => ({ name, type: SUPPLY })),
  });
  return fused;
}

/** Where it is stated, or else what it is there for. */
function plantAddress({ site, equipment }: SitePlan): Address {
  if (equipment?.plantW !== undefined) return address("site", site.name, "plant");
  return (equipment?.chassis.length ?? 0) > 0
    ? address("site", site.name, nth("chassis", 0))
    : address("site", site.name);
}

/** Fuses of chassis, or of units, whose parts are there by now. */
export function joinFeeds(fused: readonly Fused[], of: "chassis" | "hop", to: Assembly): void {
  for (const { inlet, feed, proposed } of fused) {
    if (!(of in inlet.of)) continue;
    const { name, fuse, ratingA } = feed;
    to.joint([{ part: PLANT, port: outletOf(feed) }, inlet.port], {
      by: { kind: "fuse", feed: name, fuse, ...(ratingA !== undefined && { ratingA }) },
      carries: { kind: "feed", feed: name },
      proposed,
    });
  }
}

/** Whether the units of an end have a pair for direct current of their own: over copper Ethernet the port powers them. */
export function takesOwnFeed({ hop, end, facts }: SiteEnd): boolean {
  return (
    facts !== undefined &&
    facts.outdoorUnits > 0 &&
    hop.radio?.unit?.construction === "all-outdoor" &&
    end.installation?.cable?.kind === "fibre"
  );
}

function statedFor({ of, index }: Inlet, { equipment }: SitePlan): Feed | undefined {
  const feeds = equipment?.feeds ?? [];
  if ("hop" in of) return feeds.filter(({ hop }) => hop === of.hop)[index];
  const only = equipment?.chassis[0]?.name;
  return feeds.find(
    ({ hop, chassis = only, slot }) => hop === undefined && chassis === of.chassis && slot === of.slot,
  );
}

function outletOf({ name, fuse }: Feed): string {
  return `${name} ${fuse}`;
}

/** Power cards of a chassis, or those that have the supply built in; where it takes none, its own supply. */
function inletsOf(installed: InstalledChassis, { placed }: SitePlan): Inlet[] {
  const { name: chassis } = installed;
  const cards = placed.cards
    .filter((one) => one.chassis === installed && isInlet(one.card))
    .toSorted((a, b) => a.slot - b.slot);
  if (cards.length > 0)
    return cards.map(({ slot }, index) => ({
      of: { chassis, slot },
      index,
      port: { part: cardId(chassis, slot), port: SUPPLY },
    }));
  const takesCards = installed.chassis?.slots.some(({ kind }) => kind === "power") ?? true;
  return takesCards ? [] : [{ of: { chassis }, index: 0, port: { part: chassisId(chassis), port: SUPPLY } }];
}

function unitInlets(one: SiteEnd): Inlet[] {
  const { hop, facts } = one;
  if (facts === undefined || !takesOwnFeed(one)) return [];
  return branchesOf(facts).map(({ name: branch }, index) => ({
    of: { hop: hop.name, branch },
    index,
    port: { part: unitId(hop.name, branch), port: SUPPLY },
  }));
}
