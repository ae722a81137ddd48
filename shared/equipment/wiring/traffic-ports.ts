/**
 * Which traffic port serves what: as the design states; the rest each from a place of its own on to the first port that
 * is fast enough and free, so that little moves when others come or go; and only where that leaves something over, those
 * that are in the way give up their port for another (augmenting paths: a port is found whenever one exists).
 */
import type { PortType } from "../../design/equipment.js";
import { byDraw, draw } from "../placement.js";
import { skip } from "../skip.js";

export interface TrafficPort {
  readonly type: PortType;
  readonly powered: boolean;
  /** Of the part that has it. */
  readonly part: string;
}

export interface TrafficNeed {
  /** What a place is drawn from: needs of one key follow each other. */
  readonly key: string;
  readonly type: PortType;
  /** From a powered port of this part alone. */
  readonly poweredBy?: string;
}

/** From the slowest: each serves those before it. */
const ETHERNET: readonly PortType[] = ["FE", "GE", "2.5GE", "10GE"];

/** How much faster a port is than what it serves; undefined: it does not serve it. */
function faster(port: TrafficPort, { type, poweredBy }: TrafficNeed): number | undefined {
  if (poweredBy !== undefined && !(port.powered && poweredBy === port.part)) return undefined;
  if (port.type === type) return 0;
  const [have, want] = [ETHERNET.indexOf(port.type), ETHERNET.indexOf(type)];
  return want >= 0 && have > want ? have - want : undefined;
}

export function serves(port: TrafficPort, need: TrafficNeed): boolean {
  return faster(port, need) !== undefined;
}

/**
 * @param taken indexes of ports that are stated for something else
 * @returns index of a port for each need, in their order; undefined: none is left
 */
export function assignPorts(
  ports: readonly TrafficPort[],
  needs: readonly TrafficNeed[],
  taken: ReadonlySet<number>,
): readonly (number | undefined)[] {
  const given = new Map<TrafficNeed, number>();
  const rings = ringsOf(ports, taken);
  const left: TrafficNeed[] = [];
  for (const need of hardestFirst(needs)) {
    const ring = rings.serving(need).find((one) => one.owners.length < one.ports.length);
    if (ring === undefined) left.push(need);
    else {
      given.set(need, firstFree(ring, need));
      ring.owners.push(need);
    }
  }
  // One that finds nothing leaves all as it was: its like find nothing either.
  const hopeless = new Set<string>();
  for (const need of left) {
    if (hopeless.has(kindOf(need))) continue;
    if (!makeRoom(need, rings.serving, given)) hopeless.add(kindOf(need));
  }
  return needs.map((need) => given.get(need));
}

/** What few ports serve takes its port before what many do. */
function hardestFirst(needs: readonly TrafficNeed[]): readonly TrafficNeed[] {
  const rank = ({ type, poweredBy }: TrafficNeed) =>
    (poweredBy === undefined ? 0 : ETHERNET.length) + Math.max(0, ETHERNET.indexOf(type));
  const byKey = [...Map.groupBy(needs, ({ key }) => key)].map(([key, own]) => ({ key, own }));
  return byDraw(byKey)
    .flatMap(({ own }) => own)
    .toSorted((a, b) => rank(b) - rank(a));
}

/** Ports that serve the same needs, entered at a place of one's own. */
interface Ring {
  readonly ports: readonly number[];
  /** See `skip`. */
  readonly next: number[];
  readonly owners: TrafficNeed[];
}

type Serving = (need: TrafficNeed) => readonly Ring[];

function kindOf({ type, poweredBy }: TrafficNeed): string {
  return `${type} ${poweredBy ?? ""}`;
}

function ringsOf(ports: readonly TrafficPort[], taken: ReadonlySet<number>): { readonly serving: Serving } {
  const byKind = new Map<string, number[]>();
  for (const [index, { type, powered, part }] of ports.entries()) {
    if (taken.has(index)) continue;
    const kind = powered ? `${type} ${part}` : type;
    const ring = byKind.get(kind);
    if (ring) ring.push(index);
    else byKind.set(kind, [index]);
  }
  const rings = [...byKind.values()].map(
    (own): Ring => ({ ports: own, next: Array.from({ length: own.length + 1 }, (_, i) => i), owners: [] }),
  );
  const known = new Map<string, readonly Ring[]>();
  /** Nearest in speed first, and unpowered before powered for what needs no power. */
  const serving = (need: TrafficNeed): readonly Ring[] => {
    const kind = kindOf(need);
    const found =
      known.get(kind) ??
      rings
        .flatMap((ring) => costOf(ring, need))
        .toSorted(byCost)
        .map(({ ring }) => ring);
    known.set(kind, found);
    return found;
  };
  const costOf = (ring: Ring, need: TrafficNeed) => {
    const port = ports[ring.ports[0]!]!;
    const by = faster(port, need);
    return by === undefined ? [] : [{ ring, cost: 2 * by + (port.powered ? 1 : 0) }];
  };
  return { serving };
}

function byCost(a: { readonly cost: number }, b: { readonly cost: number }): number {
  return a.cost - b.cost;
}

/** From the need's own place on to the first that is free, and round. */
function firstFree({ ports, next }: Ring, { key }: TrafficNeed): number {
  const behind = skip(next, draw(key) % ports.length);
  const at = behind < ports.length ? behind : skip(next, 0);
  next[at] = at + 1;
  return ports[at]!;
}

/** Who has to go where, so that a ring has room. */
interface Move {
  readonly need: TrafficNeed;
  readonly from: Ring;
  readonly to: Ring;
}

/** The fewest moves that give a need a port. @returns false where none do */
function makeRoom(need: TrafficNeed, serving: Serving, given: Map<TrafficNeed, number>): boolean {
  const before = new Map<Ring, Move | undefined>(serving(need).map((ring) => [ring, undefined]));
  const reached = [...before.keys()];
  for (const ring of reached) {
    if (ring.owners.length < ring.ports.length) {
      moveAlong(need, ring, before, given);
      return true;
    }
    const kinds = new Set<string>();
    for (const owner of ring.owners) {
      if (kinds.has(kindOf(owner))) continue;
      kinds.add(kindOf(owner));
      for (const to of serving(owner)) {
        if (before.has(to)) continue;
        before.set(to, { need: owner, from: ring, to });
        reached.push(to);
      }
    }
  }
  return false;
}

/** From the ring with room back to the need: each takes the port of the one that moves on. */
function moveAlong(
  need: TrafficNeed,
  room: Ring,
  before: ReadonlyMap<Ring, Move | undefined>,
  given: Map<TrafficNeed, number>,
): void {
  let ring = room;
  let port: number | undefined;
  for (let move = before.get(ring); move !== undefined; move = before.get(ring)) {
    const left = given.get(move.need)!;
    given.set(move.need, port ?? firstFree(move.to, move.need));
    move.to.owners.push(move.need);
    move.from.owners.splice(move.from.owners.indexOf(move.need), 1);
    port = left;
    ring = move.from;
  }
  given.set(need, port ?? firstFree(ring, need));
  ring.owners.push(need);
}
