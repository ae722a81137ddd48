/** Which cards feed the units that hang on copper Ethernet, by ports and by what the cards give in all. */
import { type CableLength, cableLength } from "./cable-run.js";
import type { PlacedCard } from "./placement.js";
import type { SiteEnd, SitePlan } from "./site-plan.js";

/** Most that reaches a device, and what its source gives for it. Types of IEEE 802.3, from memory, not checked. */
const TYPES = [
  { deviceW: 12.95, sourceW: 15.4 },
  { deviceW: 25.5, sourceW: 30 },
  { deviceW: 51, sourceW: 60 },
  { deviceW: 71.3, sourceW: 90 },
] as const;

export const MOST_TO_DEVICE_W = TYPES.at(-1)!.deviceW;

/** The length that the difference between source and device is allowed for, m. */
const WHOLE_LENGTH_M = 100;

/**
 * What a unit takes from its port, W: its own consumption and the share of its type's cable loss that falls on the
 * length; the whole of it where no length is known.
 * @returns undefined without a consumption, or beyond what reaches a device
 */
function takenFromPort(drawsW: number | undefined, lengthM: number | undefined): number | undefined {
  const type = TYPES.find(({ deviceW }) => drawsW !== undefined && drawsW <= deviceW);
  if (type === undefined || drawsW === undefined) return undefined;
  const share = Math.min(1, (lengthM ?? WHOLE_LENGTH_M) / WHOLE_LENGTH_M);
  return drawsW * (1 + (type.sourceW / type.deviceW - 1) * share);
}

export interface EthernetFeed {
  readonly end: SiteEnd;
  readonly units: number;
  /** What one unit takes; undefined: not known, and counted as nothing. */
  readonly unitW?: number;
  /** Of its cable; undefined: not known. */
  readonly length?: CableLength;
  /** Cards that feed its units, one for each that is fed. */
  readonly cards: readonly PlacedCard[];
  /** Why some are not: no powered port was left, or none of a card with so much to give. */
  readonly lacks?:
    | { readonly what: "port"; readonly left: number }
    | { readonly what: "power"; readonly mostLeftW: number };
}

/** Feeds of a site, the hungriest units first, so that small ones do not take what only they could do without. */
export function ethernetFeeds(plan: SitePlan): readonly EthernetFeed[] {
  let known = feeds.get(plan);
  if (known === undefined) feeds.set(plan, (known = assign(plan)));
  return known;
}

const feeds = new WeakMap<SitePlan, readonly EthernetFeed[]>();

interface Source {
  readonly card: PlacedCard;
  ports: number;
  leftW: number;
}

function assign(plan: SitePlan): readonly EthernetFeed[] {
  let sources = plan.placed.cards.flatMap((card): Source[] => {
    const ports = card.card.ports.reduce((sum, { count, powered }) => sum + (powered ? count : 0), 0);
    return ports > 0 ? [{ card, ports, leftW: card.card.powerBudgetW ?? Number.POSITIVE_INFINITY }] : [];
  });
  return plan.ends
    .filter(onCopper)
    .map((end) => {
      const length = cableLength(end.end, plan.equipment);
      const unitW = takenFromPort(end.hop.radio?.unit?.drawsW, length?.lengthM);
      return { end, units: end.facts?.outdoorUnits ?? 0, unitW, length };
    })
    .toSorted((a, b) => (b.unitW ?? 0) - (a.unitW ?? 0))
    .map(({ end, units, unitW, length }): EthernetFeed => {
      const cards: PlacedCard[] = [];
      for (let i = 0; i < units; i++) {
        sources = sources.filter(({ ports }) => ports > 0);
        const source = sources.find(({ leftW }) => leftW >= (unitW ?? 0));
        if (source === undefined) break;
        source.ports--;
        source.leftW -= unitW ?? 0;
        cards.push(source.card);
      }
      if (cards.length === units) return { end, units, unitW, length, cards };
      const left = sources.reduce((sum, { ports }) => sum + ports, 0);
      const mostLeftW = Math.max(0, ...sources.map(({ leftW }) => leftW));
      const lacks =
        left === 0
          ? ({ what: "port", left: cards.length } as const)
          : ({ what: "power", mostLeftW } as const);
      return { end, units, unitW, length, cards, lacks };
    });
}

function onCopper({ hop, end }: SiteEnd): boolean {
  return hop.radio?.unit?.construction === "all-outdoor" && end.installation?.cable?.kind === "ethernet";
}
