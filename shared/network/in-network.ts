/**
 * The second step of a hop: the figures that rest on other hops. The first computes each hop by itself
 * (`evaluate/hop.ts`); this one asks for the others through a reader that notes what it was told, and what was made of
 * the answers holds as long as each of them is the same.
 */
import type { Design, Hop } from "../design/design.js";
import type { HopResult } from "../evaluate/account/result.js";
import type { InterferenceAt } from "../interference/receiver-result.js";
import type { Memory } from "./memory.js";
import { type PairResult, pairResult } from "./pairs.js";

export interface HopInNetwork {
  readonly hop: Hop;
  /** Of the hop by itself; undefined: it is not evaluated. */
  readonly result?: HopResult;
  /** Of a hop that names the other of its dual-band pair, where that is declared. */
  readonly pair?: Pair;
  /** At its receivers; undefined: interference was not computed. */
  readonly interference?: readonly InterferenceAt[];
}

export interface Pair {
  readonly other: Hop;
  readonly otherResult?: HopResult;
  /** Figures of both together; undefined where they do not name each other, or one is not evaluated. */
  readonly both?: PairResult;
}

/** The hops of a network with what their first step made of them. */
export interface EvaluatedHops {
  hop(name: string): Hop | undefined;
  result(name: string): HopResult | undefined;
  /** The same object as long as it is the same. */
  interference?(name: string): readonly InterferenceAt[];
}

type Read = (name: string) => Pick<HopInNetwork, "hop" | "result"> | undefined;

interface Known {
  readonly hop: Hop;
  readonly result: HopResult | undefined;
  readonly interference: readonly InterferenceAt[] | undefined;
  /** What was asked for, and what was told. */
  readonly read: ReadonlyMap<string, ReturnType<Read>>;
  readonly outcome: HopInNetwork;
}

interface KnownOfAll {
  readonly known: readonly Known[];
  readonly outcomes: readonly HopInNetwork[];
}

const OF_ONE = {};
const OF_ALL = {};

/** One hop in its network. The same object as before, where neither it nor what it rests on changed. */
export function hopInNetwork(hop: Hop, hops: EvaluatedHops, memory: Memory): HopInNetwork {
  return renewed(hop, hops, memory).outcome;
}

/** All hops in their network, in the order of the design: the same array as long as each of them is the same. */
export function hopsInNetwork(
  { hops }: Design,
  results: ReadonlyMap<string, HopResult>,
  memory: Memory,
  interference?: EvaluatedHops["interference"],
): readonly HopInNetwork[] {
  const evaluated: EvaluatedHops = {
    hop: (name) => hops.get(name),
    result: (name) => results.get(name),
    ...(interference && { interference }),
  };
  return memory.renew(OF_ALL, OF_ALL, (before: KnownOfAll | undefined): KnownOfAll => {
    let isSame = before?.known.length === hops.size;
    const known = Array.from(hops.values(), (hop, place) => {
      const was = before?.known[place];
      if (was?.hop === hop && still(was, evaluated)) return was;
      const now = renewed(hop, evaluated, memory);
      if (now !== was) isSame = false;
      return now;
    });
    return before && isSame ? before : { known, outcomes: known.map(({ outcome }) => outcome) };
  }).outcomes;
}

function renewed(hop: Hop, hops: EvaluatedHops, memory: Memory): Known {
  return memory.renew(OF_ONE, hop, (known: Known | undefined): Known => {
    if (known && still(known, hops)) return known;
    const result = hops.result(hop.name);
    const interference = hops.interference?.(hop.name);
    const read = new Map<string, ReturnType<Read>>();
    const reading: Read = (name) => {
      const other = hops.hop(name);
      const told = other && { hop: other, result: hops.result(name) };
      read.set(name, told);
      return told;
    };
    const alone = { hop, result, ...(interference && { interference }) };
    return { hop, result, interference, read, outcome: inNetwork(alone, reading) };
  });
}

/** Whether what it rests on is what it was. */
function still({ hop: { name }, result, interference, read }: Known, hops: EvaluatedHops): boolean {
  if (result !== hops.result(name) || interference !== hops.interference?.(name)) return false;
  return read.size === 0 || stillTold(read, hops);
}

function stillTold(read: Known["read"], hops: EvaluatedHops): boolean {
  for (const [name, told] of read)
    if (hops.hop(name) !== told?.hop || (told && hops.result(name) !== told.result)) return false;
  return true;
}

function inNetwork(alone: HopInNetwork, read: Read): HopInNetwork {
  const { hop, result } = alone;
  const other = hop.pairedWith === undefined ? undefined : read(hop.pairedWith);
  if (other === undefined) return alone;
  const both =
    result && other.result && pairResult({ hop, result }, { hop: other.hop, result: other.result });
  return { ...alone, pair: { other: other.hop, otherResult: other.result, both } };
}
