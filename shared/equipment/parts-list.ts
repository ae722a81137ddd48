/**
 * What to order, from the same facts as the budget: by end of a hop, by site, for the network, and spares by rule.
 * Counts follow from the arrangement; nothing is counted that the design does not name but a waveguide that it needs.
 */
import type { Design } from "../design/design.js";
import type { Delivery, PartKind, SpareRule } from "../design/equipment.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { cableLength, groundingKits } from "./cable-run.js";
import { withDelivery, withoutDelivery } from "./delivery.js";
import { GUIDE_TO_CHOOSE } from "./guide-to-choose.js";
import { feederPieces, guidePieces } from "./pieces.js";
import { type SiteEnd, type SitePlan, sitePlans } from "./site-plan.js";
import { antennasStated, couplersStated } from "./stands.js";
import { sharedWithPartner } from "./structure-load.js";
import { type UnitSetting, unitsOf } from "./units.js";
import { siteWiring } from "./wiring/site-wiring.js";

export interface Part {
  readonly kind: PartKind;
  /** Of the catalogue; of connectors and kits, what they are for. */
  readonly name: string;
  readonly title?: string;
  /** As the catalogue states it. */
  readonly orderCode?: string;
  /** What parts of one name differ by: half and sub-band of a unit, length of a feeder. */
  readonly detail?: string;
  /** What our own words in name and detail stand for, for whoever says it in another language. */
  readonly says?: PartSays;
  /** Pieces. */
  readonly quantity: number;
  /** All pieces together, of cables. */
  readonly lengthM?: number;
  /** One piece; undefined where pieces differ. */
  readonly eachM?: number;
  /** True when a length is estimated, not stated. */
  readonly estimated: boolean;
  /** Set where something is needed that the design does not name: nothing can be ordered yet. */
  readonly toChoose?: true;
  /** As the design states it, of parts of one end or site. */
  readonly delivery?: Delivery;
}

type PartSays =
  | ({ readonly is: "setting" } & Pick<UnitSetting, "half" | "subBand" | "open">)
  /** @param entry of the catalogue that it goes with */
  | { readonly is: "fitting"; readonly entry: string; readonly connector?: string }
  | { readonly is: "piece"; readonly lengthM: number };

export interface SpareParts extends Part {
  readonly rule: SpareRule;
}

/** Parts at one end of a hop. */
export function partsOfEnd(end: SiteEnd, plan: SitePlan, design: Design): readonly Part[] {
  const { facts } = end;
  if (facts === undefined) return [];
  const parts = merged([
    ...unitParts(end, facts),
    ...antennaParts(end, plan),
    ...couplerParts(end, facts),
    ...cableParts(end, facts, plan, design.groundingEveryM),
    ...terminations(end, plan),
    ...bracketParts(end),
  ]);
  return withDelivery(parts, end.end.installation?.deliveries);
}

/** Parts of a site: its ends of hops, its mounts, chassis and cards. */
export function partsOfSite(plan: SitePlan, design: Design): readonly Part[] {
  return merged([...plan.ends.flatMap((end) => partsOfEnd(end, plan, design)), ...partsBesideEnds(plan)]);
}

/** Parts of a site that belong to no hop: mounts, chassis, cards, and what is patched in the rack. */
export function partsBesideEnds(plan: SitePlan): readonly Part[] {
  const parts = merged([
    ...patchCables(plan),
    ...(plan.equipment?.mounts ?? []).map(({ title }) => piece("mount", { name: title }, 1)),
    ...(plan.equipment?.chassis ?? []).flatMap(({ chassis }) =>
      chassis ? [piece("chassis", chassis, 1)] : [],
    ),
    ...plan.placed.cards.map(({ card }) => piece("card", card, 1)),
    // A card without a free slot is still ordered; a rule tells that it has none.
    ...plan.placed.left.map(({ card, count }) => piece("card", card, count)),
  ]);
  return withDelivery(parts, plan.equipment?.deliveries);
}

/** Parts of the whole network, whether they are there already or not. */
export function partsOfNetwork(design: Design): readonly Part[] {
  const all = [...sitePlans(design).values()].flatMap((plan) => partsOfSite(plan, design));
  return merged(all.map(withoutDelivery));
}

/** Spares for parts in use: the share of each type, rounded up, and at least so many. */
export function spareParts(parts: readonly Part[], rules: readonly SpareRule[]): readonly SpareParts[] {
  return parts.flatMap((part): SpareParts[] => {
    const rule = rules.find(({ kind }) => kind === part.kind);
    if (rule === undefined || part.toChoose) return [];
    // 5 % of 20 are 1, also where the product is a hair above it.
    const share = Math.ceil((part.quantity * rule.sharePercent) / 100 - 1e-9);
    const quantity = Math.max(share, rule.least);
    const lengthM = part.lengthM === undefined ? undefined : (part.lengthM / part.quantity) * quantity;
    return quantity > 0 ? [{ ...part, quantity, lengthM, rule }] : [];
  });
}

/** Equal parts that are equally far added up, in the order of kinds, then of names. */
export function merged(parts: readonly Part[]): readonly Part[] {
  const sums = new Map<string, Part>();
  for (const part of parts) {
    const { state, date, remark } = part.delivery ?? {};
    const key = [part.kind, part.name, part.detail, state, date, remark].join("\n");
    const sum = sums.get(key);
    sums.set(key, sum === undefined ? part : added(sum, part));
  }
  return [...sums.values()].sort(
    (a, b) =>
      ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind) ||
      compare(a.name, b.name) ||
      compare(a.detail ?? "", b.detail ?? ""),
  );
}

const ORDER: readonly PartKind[] = [
  "unit",
  "antenna",
  "coupler",
  "feeder",
  "cable",
  "connector",
  "grounding kit",
  "termination",
  "mount",
  "patch cable",
  "chassis",
  "card",
];

function added(a: Part, b: Part): Part {
  const lengthM = a.lengthM === undefined ? b.lengthM : a.lengthM + (b.lengthM ?? 0);
  const eachM = a.eachM === b.eachM ? a.eachM : undefined;
  return { ...a, quantity: a.quantity + b.quantity, lengthM, eachM, estimated: a.estimated || b.estimated };
}

/** Without a locale: the same list everywhere. */
function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Each unit by the half and sub-band of its own channel. */
function unitParts({ hop, end }: SiteEnd, facts: ArrangementFacts): Part[] {
  const { radio } = hop;
  if (radio === undefined) return [];
  return unitsOf(hop, end, facts).map((unit) => {
    const { half, subBand, open } = unit;
    const detail = unitWords(unit);
    const part = piece("unit", radio, 1);
    return detail === undefined ? part : { ...part, detail, says: { is: "setting", half, subBand, open } };
  });
}

/** What units of one radio are ordered by: `high half, sub-band A`. */
export function unitWords({ half, subBand, open }: UnitSetting): string | undefined {
  return words([
    half === undefined ? undefined : `${half} half`,
    subBand === undefined ? (open ? "sub-band open" : undefined) : `sub-band ${subBand}`,
  ]);
}

/** A part that the arrangement has no use for is mounted all the same: a rule tells it. */
function antennaParts(one: SiteEnd, plan: SitePlan): Part[] {
  return antennasStated(one.end).flatMap(({ antenna, fact }) =>
    antenna === undefined || (fact === "antenna" && sharedWithPartner(one, plan))
      ? []
      : [piece("antenna", antenna, 1)],
  );
}

function couplerParts({ hop, end }: SiteEnd, facts: ArrangementFacts): Part[] {
  const parts = couplersStated(end).map(({ coupler }) => piece("coupler", coupler, 1));
  for (const { stand, count } of feederPieces(hop, end, facts)) {
    const { feeder, feederLengthM } = stand;
    if (feeder !== undefined && feederLengthM !== undefined)
      parts.push({
        ...piece("feeder", feeder, count),
        detail: `${feederLengthM} m`,
        says: { is: "piece", lengthM: feederLengthM },
      });
  }
  const toChoose = guidePieces(hop, end, facts)
    .filter(({ lead }) => lead === "piece to choose" || lead === "line to choose")
    .reduce((sum, { count }) => sum + count, 0);
  if (toChoose > 0) parts.push({ ...piece("feeder", { name: GUIDE_TO_CHOOSE }, toChoose), toChoose: true });
  return parts;
}

function cableParts(
  { end }: SiteEnd,
  facts: ArrangementFacts,
  plan: SitePlan,
  groundingEveryM: number | undefined,
): Part[] {
  const cable = end.installation?.cable;
  const length = cableLength(end, plan.equipment);
  const quantity = facts.outdoorUnits;
  if (cable === undefined || length === undefined || quantity === 0) return [];
  const { lengthM, estimated } = length;
  const parts: Part[] = [
    { ...piece("cable", cable, quantity), lengthM: quantity * lengthM, eachM: lengthM, estimated },
  ];
  if (cable.connector !== undefined) {
    const { connector, name } = cable;
    parts.push({
      ...piece("connector", { name: `${connector} for ${name}` }, 2 * quantity),
      says: { is: "fitting", entry: name, connector },
    });
  }
  // Fibre has no screen to ground.
  if (cable.kind !== "fibre") {
    const kits = groundingKits(lengthM, groundingEveryM) * quantity;
    parts.push({ ...fitting("grounding kit", cable.name, kits), estimated });
  }
  return parts;
}

/** Arms of couplers that no unit is on. */
function terminations({ hop }: SiteEnd, plan: SitePlan): readonly Part[] {
  let known = OPEN_ARMS.get(plan);
  if (known === undefined) OPEN_ARMS.set(plan, (known = openArms(plan)));
  return known.get(hop.name) ?? [];
}

/** A site may have a thousand hops: its couplers are looked through once. */
const OPEN_ARMS = new WeakMap<SitePlan, ReadonlyMap<string, readonly Part[]>>();

function openArms(plan: SitePlan): ReadonlyMap<string, readonly Part[]> {
  const byHop = new Map<string, Part[]>();
  for (const { kind, name, of, ports } of siteWiring(plan).parts.values()) {
    const open = ports.filter(({ terminated }) => terminated).length;
    if (kind !== "coupler" || of === undefined || open === 0) continue;
    byHop.set(of.hop, [...(byHop.get(of.hop) ?? []), fitting("termination", name ?? "", open)]);
  }
  return byHop;
}

function bracketParts({ end }: SiteEnd): Part[] {
  return (end.installation?.brackets ?? []).map(({ title, count }) => piece("mount", { name: title }, count));
}

/** By what they carry: services, directly or over a panel. Wires to contacts come off a reel. */
function patchCables(plan: SitePlan): Part[] {
  const { joints, parts } = siteWiring(plan);
  return joints.flatMap(({ by, ends: [from] }) => {
    const port = parts.get(from.part)?.ports.find(({ name }) => name === from.port);
    return by.kind === "patch" && port ? [piece("patch cable", { name: port.type }, 1)] : [];
  });
}

interface Named {
  readonly name: string;
  readonly title?: string;
  readonly orderCode?: string;
}

function piece(kind: PartKind, { name, title, orderCode }: Named, quantity: number): Part {
  return { kind, name, title, ...(orderCode !== undefined && { orderCode }), quantity, estimated: false };
}

function fitting(kind: PartKind, entry: string, quantity: number): Part {
  return { ...piece(kind, { name: `for ${entry}` }, quantity), says: { is: "fitting", entry } };
}

function words(parts: readonly (string | undefined)[]): string | undefined {
  const said = parts.filter((part) => part !== undefined);
  return said.length > 0 ? said.join(", ") : undefined;
}
