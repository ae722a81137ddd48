/** The indoor side of a site: what is handed over, cards in their chassis, direct current, contacts. */
import { address, nth } from "../../design/address.js";
import type { InstalledChassis, PortClaim, PortType, Service } from "../../design/equipment.js";
import { cardFact } from "../card-fact.js";
import { isInlet, type PlacedCard, slotCountOf } from "../placement.js";
import type { SitePlan } from "../site-plan.js";
import type { Assembly } from "./assembly.js";
import { cardId, chassisId, serviceId } from "./ids.js";
import { assignPorts, serves, type TrafficNeed } from "./traffic-ports.js";
import type { JoinedBy, LooseEnd, PortRef, StatedFault, WiredPart, WiredPort } from "./wiring.js";

/** Chassis, their cards, and the backplane between them. */
export function addRack(plan: SitePlan, to: Assembly): void {
  const byChassis = Map.groupBy(plan.placed.cards, ({ chassis }) => chassis);
  for (const [index, installed] of (plan.equipment?.chassis ?? []).entries()) {
    const at = address("site", plan.site.name, nth("chassis", index));
    const cards = (byChassis.get(installed) ?? []).toSorted((a, b) => a.slot - b.slot);
    to.part(chassisPart(installed, at, cards));
    for (const card of cards) {
      const id = cardId(installed.name, card.slot);
      to.part(cardPart(card, `${at} / ${cardFact(card)}`));
      to.joint(
        [
          { part: id, port: BACKPLANE },
          { part: chassisId(installed.name), port: slotPort(card.slot) },
        ],
        {
          by: { kind: "backplane" },
          carries: { kind: "slot" },
          proposed: card.automatic,
        },
      );
    }
  }
  for (const { chassis, card } of plan.placed.left) {
    const id = `card ${chassis.name}/${card.name} without a slot`;
    to.part({ id, kind: "card", name: card.name, at: address("card", card.name), ports: [] });
    to.loose({ part: id, port: BACKPLANE, lacks: "slot" });
  }
}

const BACKPLANE = "backplane";

function slotPort(slot: number): string {
  return `slot ${slot}`;
}

function chassisPart(
  { name, chassis }: InstalledChassis,
  at: string,
  cards: readonly PlacedCard[],
): WiredPart {
  const slots: WiredPort[] = cards.map(({ slot }) => ({ name: slotPort(slot), type: BACKPLANE }));
  const takesFeed =
    chassis !== undefined &&
    !chassis.slots.some(({ kind }) => kind === "power") &&
    !cards.some(({ card }) => isInlet(card));
  return {
    id: chassisId(name),
    kind: "chassis",
    name: chassis?.name,
    title: chassis?.title,
    at,
    place: { chassis: name },
    ports: [
      ...slots,
      ...(takesFeed ? [{ name: "supply", type: "supply" } as const] : []),
      ...numbered(chassis?.ports ?? []),
    ],
  };
}

function cardPart({ chassis, slot, card, automatic }: PlacedCard, at: string): WiredPart {
  const supply: WiredPort[] = isInlet(card) ? [{ name: "supply", type: "supply" }] : [];
  return {
    id: cardId(chassis.name, slot),
    kind: "card",
    name: card.name,
    title: card.title,
    at,
    place: {
      chassis: chassis.name,
      slot,
      ...(slotCountOf(card) > 1 && { slotCount: slotCountOf(card) }),
    },
    ports: [...numbered(card.ports), ...supply, { name: BACKPLANE, type: BACKPLANE }],
    ...(automatic && { proposed: true }),
  };
}

/** Ports are numbered from 1 in the order of the lines of their entry. */
function numbered(
  lines: readonly { readonly count: number; readonly type: PortType; readonly powered?: boolean }[],
): WiredPort[] {
  const types = lines.flatMap(({ count, type, powered = false }) =>
    Array.from({ length: count }, () => ({ type, powered })),
  );
  const counted = new Map<PortType, number>();
  return types.map(({ type, powered }, index) => {
    const ofType = (counted.get(type) ?? 0) + 1;
    counted.set(type, ofType);
    return { name: String(index + 1), type, ofType, ...(powered && { powered: true as const }) };
  });
}

/** Panels of the rack that join both impedances of E1, before what may need them. */
export function addBaluns(plan: SitePlan, to: Assembly): void {
  for (const [index, { title, count }] of (plan.equipment?.baluns ?? []).entries()) {
    const ports = Array.from({ length: count }, (_, k) => [
      { name: `${k + 1} out`, type: "E1-75" as const },
      { name: `${k + 1} in`, type: "E1-120" as const },
    ]).flat();
    const at = address("site", plan.site.name, nth("balun", index));
    to.part({ id: `balun ${index + 1}`, kind: "balun", title, at, ports });
  }
}

/** Contacts of the site, each on the input that it states: inputs are counted over chassis and cards. */
export function addContacts(plan: SitePlan, to: Assembly): void {
  const inputs = to.portsOf("alarm-in");
  const taken = new Set<number>();
  for (const [index, { input, title }] of (plan.equipment?.alarms ?? []).entries()) {
    const id = `contact ${index + 1}`;
    const at = address("site", plan.site.name, nth("alarm", index));
    to.part({ id, kind: "contact", title, at, ports: [{ name: "contact", type: "contact" }] });
    const contact = { part: id, port: "contact" };
    const port = inputs[input - 1];
    if (port === undefined || taken.has(input)) to.loose({ ...contact, lacks: "alarm input" });
    else to.joint([contact, port], { by: { kind: "wire" }, carries: { kind: "alarm", input } });
    taken.add(input);
  }
}

/** What wants a traffic port beside the services: all-outdoor units. */
export interface UnitTraffic {
  readonly key: string;
  readonly from: PortRef;
  readonly type: PortType;
  readonly by: JoinedBy;
  readonly hop: string;
  readonly branch: string;
  /** The card that powers it over its cable. */
  readonly poweredBy?: string;
}

interface Wanting extends TrafficNeed {
  readonly end: PortRef;
  /** A unit hangs at the far end of its port, a service comes to it. */
  readonly unit?: UnitTraffic;
  readonly service?: { readonly title: string; readonly index: number };
}

/** Services and all-outdoor units on the traffic ports of the site, directly or over a balun panel. */
export function addTraffic(plan: SitePlan, units: readonly UnitTraffic[], to: Assembly): void {
  const ports = to.trafficPorts();
  const taken = new Set(ports.flatMap(({ ref }, index) => (to.isJoined(ref) ? [index] : [])));
  const wanting: Wanting[] = units.map((unit) => ({
    key: unit.key,
    type: unit.type,
    poweredBy: unit.poweredBy,
    end: unit.from,
    unit,
  }));
  for (const [index, service] of (plan.equipment?.services ?? []).entries()) {
    const id = addService(plan, service, index, to);
    for (let k = 0; k < service.count; k++) {
      const one: Wanting = {
        key: `${service.title} ${index}`,
        type: service.type,
        end: { part: id, port: String(k + 1) },
        service: { title: service.title, index: k + 1 },
      };
      const claim = service.ports?.[k];
      if (claim === undefined) wanting.push(one);
      else joinStated(one, claim, taken, to);
    }
  }
  const given = assignPorts(ports, wanting, taken);
  const over: Wanting[] = [];
  for (const [index, one] of wanting.entries()) {
    const port = given[index];
    if (port === undefined) over.push(one);
    else {
      taken.add(port);
      joinTraffic(one, ports[port]!.ref, true, to);
    }
  }
  overBaluns(over, taken, to);
}

/** The port that the design states; one of the other impedance is reached over a panel, as long as that has pairs. */
function joinStated(one: Wanting, claim: PortClaim, taken: Set<number>, to: Assembly): void {
  const stated = to.statedPort(claim);
  const fault = typeof stated === "string" ? stated : taken.has(stated) ? "taken" : joinTo(one, stated, to);
  if (fault !== undefined) to.loose({ ...one.end, lacks: "traffic port", fault });
  else taken.add(stated as number);
}

/** @returns why it cannot be joined to that port */
function joinTo(one: Wanting, stated: number, to: Assembly): StatedFault | undefined {
  const port = to.trafficPorts()[stated]!;
  if (!serves(port, one)) {
    const over = port.type === OTHER_IMPEDANCE[one.type] && joinOver(one, port.ref, false, to);
    return over ? undefined : "another kind";
  }
  joinTraffic(one, port.ref, false, to);
  return undefined;
}

function addService(plan: SitePlan, { title, count, type }: Service, index: number, to: Assembly): string {
  const id = serviceId(index);
  const ports = Array.from({ length: count }, (_, k) => ({ name: String(k + 1), type }));
  to.part({ id, kind: "service", title, at: address("site", plan.site.name, nth("service", index)), ports });
  return id;
}

function joinTraffic({ end, unit, service }: Wanting, port: PortRef, proposed: boolean, to: Assembly): void {
  if (unit !== undefined) {
    const { by, hop, branch } = unit;
    to.joint([port, end], { by, carries: { kind: "hop", hop, branch }, proposed });
  } else
    to.joint([end, port], { by: { kind: "patch" }, carries: { kind: "service", ...service! }, proposed });
}

function lackOf({ poweredBy, unit }: Wanting, to: Assembly): LooseEnd["lacks"] {
  if (!to.hasRack()) return unit === undefined ? "indoor unit" : "handed over";
  return poweredBy === undefined ? "traffic port" : "powered port";
}

const OTHER_IMPEDANCE: Partial<Record<PortType, PortType>> = { "E1-75": "E1-120", "E1-120": "E1-75" };

/** E1 that finds no port of its impedance goes over a balun panel to one of the other. */
function overBaluns(over: readonly Wanting[], taken: ReadonlySet<number>, to: Assembly): void {
  if (over.length === 0) return;
  const ports = to.trafficPorts();
  const free = Map.groupBy(
    [...ports.keys()].filter((index) => !taken.has(index)),
    (index) => ports[index]!.type,
  );
  for (const one of over) {
    const other = OTHER_IMPEDANCE[one.type];
    const left = other && free.get(other);
    const port = left?.[0];
    if (port !== undefined && joinOver(one, ports[port]!.ref, true, to)) left!.shift();
    else to.loose({ ...one.end, lacks: lackOf(one, to) });
  }
}

/** @returns false where no pair of a panel is left */
function joinOver({ end, service }: Wanting, port: PortRef, proposed: boolean, to: Assembly): boolean {
  const pair = service && to.takeBalunPair();
  if (!pair) return false;
  const how = { by: { kind: "patch" }, carries: { kind: "service", ...service }, proposed } as const;
  to.joint([end, pair.outer], how);
  to.joint([pair.inner, port], how);
  return true;
}
