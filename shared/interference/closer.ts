/**
 * Which entries a verdict rests on, so that their profiles are read again at the raster's own step (P.452 reference,
 * section on profiles): a coarse one may pass between two tops.
 */
import type { Entry } from "./entry.js";
import type { Limits } from "./limits.js";
import type { InterferenceAt } from "./receiver-result.js";

/** What an entry comes to, I/N, and what shields it beyond the least loss of any terrain. */
interface Part {
  readonly entry: Entry;
  readonly db: number;
  readonly shieldDb: number;
}

/**
 * Entries over a coarse profile that make a verdict missed, and those whose shielding keeps one met: in the order of
 * what they bring, so many that without them the rest neither misses a limit that is missed, nor would miss one that is
 * met if it were not shielded. None: every verdict rests on what was read as closely as the terrain allows.
 */
export function restingOnCoarse(at: InterferenceAt, limits: Limits): readonly Entry[] {
  const { entries, coLocated, cutToNoiseDb } = at;
  const local = coLocated.flatMap(({ toNoiseDb }) => toNoiseDb ?? []);
  const rest = sum(cutToNoiseDb === undefined ? local : [...local, cutToNoiseDb]);
  const long = (dbOf: (entry: Entry) => number) =>
    entries.map((entry): Part => ({ entry, db: dbOf(entry), shieldDb: entry.path.longTermShieldDb }));
  const found = new Set<Entry>([
    ...inSum(
      long((entry) => entry.inSumToNoiseDb),
      rest,
      limits.sumDb,
    ),
    ...alone(
      long((entry) => entry.toNoiseDb),
      limits.singleDb,
    ),
    ...alone(
      entries.map((entry) => ({ entry, db: entry.shortToNoiseDb, shieldDb: entry.path.shortTermShieldDb })),
      limits.shortDb,
    ),
  ]);
  return [...found];
}

function isCoarse({ entry }: Part): boolean {
  return entry.path.step === "coarse";
}

function inSum(parts: readonly Part[], rest: number, limitDb: number | undefined): readonly Entry[] {
  if (limitDb === undefined) return [];
  const limit = power(limitDb);
  const total = parts.reduce((all, { db }) => all + power(db), rest);
  const missed = total > limit;
  // What was measured at the site misses it by itself.
  if (rest > limit) return [];
  // Of one that is missed the strongest, with or without a closer look before; of one that is met those yet to be looked at.
  const counted = missed ? parts : parts.filter(isCoarse);
  const mostOf = ({ db, shieldDb }: Part) => (missed ? db : db + shieldDb);
  let left = missed
    ? total
    : counted.reduce((all, part) => all + power(mostOf(part)) - power(part.db), total);
  const found: Entry[] = [];
  for (const part of counted.toSorted((a, b) => mostOf(b) - mostOf(a))) {
    if (!(left > limit)) break;
    left -= power(mostOf(part)) - (missed ? 0 : power(part.db));
    if (isCoarse(part)) found.push(part.entry);
  }
  return found;
}

function alone(parts: readonly Part[], limitDb: number | undefined): readonly Entry[] {
  if (limitDb === undefined) return [];
  const missed = parts.some(({ db }) => db > limitDb);
  return parts
    .filter((part) => isCoarse(part) && (missed ? part.db : part.db + part.shieldDb) > limitDb)
    .map(({ entry }) => entry);
}

function power(db: number): number {
  return 10 ** (db / 10);
}

function sum(levels: readonly number[]): number {
  return levels.reduce((all, db) => all + power(db), 0);
}
