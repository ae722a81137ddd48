/** What has to be ordered and what comes back, by the difference of what both sides mount. */
import type { Hop, HopEnd } from "../design/design.js";
import { trimmed } from "../format/numbers.js";
import { arrangementByName } from "../radio/arrangements.js";

export interface OrderChange {
  readonly part: string;
  /** Above 0: to order; below: to return. */
  readonly count: number;
  readonly unit: "pieces" | "m";
  readonly hops: readonly string[];
}

export interface PartUsed {
  readonly part: string;
  readonly count: number;
  readonly unit: OrderChange["unit"];
}

/** Hops that are the same on both sides need not be among them: they cancel out. */
export function orderChanges(was: readonly Hop[], is: readonly Hop[]): OrderChange[] {
  const totals = new Map<string, { part: PartUsed; count: number; hops: Set<string> }>();
  const add = (hop: Hop, sign: 1 | -1) => {
    for (const part of partsOf(hop)) {
      const key = `${part.part}\t${part.unit}`;
      const total = totals.get(key) ?? { part, count: 0, hops: new Set() };
      total.count += sign * part.count;
      total.hops.add(hop.name);
      totals.set(key, total);
    }
  };
  for (const hop of was) add(hop, -1);
  for (const hop of is) add(hop, 1);
  return [...totals.values()]
    .filter(({ count }) => Math.abs(count) > 0.05)
    .map(({ part, count, hops }) => ({
      part: part.part,
      unit: part.unit,
      count: Number(trimmed(count, 1)),
      hops: [...hops].sort(),
    }))
    .sort((a, b) => b.count - a.count || (a.part < b.part ? -1 : 1));
}

/** What the text of a hop names, at both ends. Units of a radio are different parts in each half of the band. */
export function partsOf(hop: Hop): PartUsed[] {
  const arrangement = arrangementByName(hop.arrangement.name);
  return hop.ends.flatMap((end) => [
    ...radioUnits(hop, end, arrangement?.transceivers ?? 1),
    ...pieces("antenna", end.antenna?.name, mainAntennas(end, arrangement?.antennas ?? 1)),
    ...pieces("antenna", end.diversityAntenna?.name, 1),
    ...pieces("coupler", end.coupler?.name, Math.max(1, arrangement?.couplers ?? 1)),
    ...feederOf(end),
  ]);
}

function radioUnits({ radio }: Hop, { transmits }: HopEnd, count: number): PartUsed[] {
  if (!radio) return [];
  const half = transmits === undefined ? "" : `, ${transmits} half`;
  return [{ part: `radio ${radio.name}${half}`, count, unit: "pieces" }];
}

/** The second antenna of space diversity is stated by itself. */
function mainAntennas({ diversityAntenna }: HopEnd, count: number): number {
  return Math.max(1, diversityAntenna ? count - 1 : count);
}

function pieces(kind: string, name: string | undefined, count: number): PartUsed[] {
  return name === undefined ? [] : [{ part: `${kind} ${name}`, count, unit: "pieces" }];
}

function feederOf({ feeder, feederLengthM }: HopEnd): PartUsed[] {
  if (!feeder || feederLengthM === undefined) return [];
  return [{ part: `feeder ${feeder.name}`, count: feederLengthM, unit: "m" }];
}
