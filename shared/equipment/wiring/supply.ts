/** Direct current: from the plant through a fuse of feed A or B to each power card. */
import { address, nth } from "../../design/address.js";
import type { Feed, InstalledChassis } from "../../design/equipment.js";
import { isInlet } from "../placement.js";
import type { SitePlan } from "../site-plan.js";
import type { Assembly } from "./assembly.js";
import { cardId, chassisId } from "./ids.js";
import type { PortRef } from "./wiring.js";

const PLANT = "plant";

/** Feeds that a second power card is there for: one that fails must not take both. Common practice. */
const FEEDS = ["A", "B"] as const;

export function supplyFeeds(plan: SitePlan, to: Assembly): void {
  const inlets = (plan.equipment?.chassis ?? []).flatMap((installed) => inletsOf(installed, plan));
  if (inlets.length === 0) return;
  const stated = plan.equipment?.feeds ?? [];
  const only = plan.equipment?.chassis[0]?.name;
  const statedFor = (inlet: Inlet): readonly [Feed, number] | undefined => {
    const index = stated.findIndex(
      ({ chassis = only, slot }) => chassis === inlet.chassis && slot === inlet.slot,
    );
    return index < 0 ? undefined : [stated[index]!, index];
  };
  const fuses = new Map<string, number>();
  const nextFuse = (feed: string) => {
    for (;;) {
      const number = (fuses.get(feed) ?? 0) + 1;
      fuses.set(feed, number);
      if (!stated.some(({ name, fuse }) => name === feed && fuse === number)) return number;
    }
  };
  const joints = inlets.map((inlet) => {
    const found = statedFor(inlet);
    if (found !== undefined) return { inlet, feed: found[0], proposed: false };
    const name = FEEDS[inlet.index % FEEDS.length]!;
    return { inlet, feed: { name, fuse: nextFuse(name) } as Feed, proposed: true };
  });
  const outlets = joints.map(({ feed }) => outletOf(feed));
  to.part({
    id: PLANT,
    kind: "plant",
    at: address("site", plan.site.name, plan.equipment?.plantW === undefined ? nth("chassis", 0) : "plant"),
    ports: [...new Set(outlets)].map((name) => ({ name, type: "supply" })),
  });
  for (const [index, { inlet, feed, proposed }] of joints.entries()) {
    const { name, fuse, ratingA } = feed;
    to.joint([{ part: PLANT, port: outlets[index]! }, inlet.port], {
      by: { kind: "fuse", feed: name, fuse, ...(ratingA !== undefined && { ratingA }) },
      carries: { kind: "feed", feed: name },
      proposed,
    });
  }
}

function outletOf({ name, fuse }: Feed): string {
  return `${name} ${fuse}`;
}

interface Inlet {
  readonly chassis: string;
  readonly slot?: number;
  readonly port: PortRef;
  /** Among those of its chassis, from 0. */
  readonly index: number;
}

/** Power cards of a chassis, or those that have the supply built in; where it takes none, its own supply. */
function inletsOf(installed: InstalledChassis, { placed }: SitePlan): Inlet[] {
  const { name: chassis } = installed;
  const cards = placed.cards
    .filter((one) => one.chassis === installed && isInlet(one.card))
    .toSorted((a, b) => a.slot - b.slot);
  if (cards.length > 0)
    return cards.map(({ slot }, index) => ({
      chassis,
      slot,
      index,
      port: { part: cardId(chassis, slot), port: "supply" },
    }));
  const takesCards = installed.chassis?.slots.some(({ kind }) => kind === "power") ?? true;
  return takesCards ? [] : [{ chassis, index: 0, port: { part: chassisId(chassis), port: "supply" } }];
}
