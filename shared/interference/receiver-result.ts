/** What all senders together do to one receiver. */
import type { InterferenceTerms } from "../design/interference.js";
import { degradationDb } from "../radio/degradation.js";
import type { Entry } from "./entry.js";
import { sumDb } from "./level.js";
import type { Receiver, Sender } from "./station.js";

export interface InterferenceAt {
  readonly receiver: Receiver;
  /** What the network states of interference. */
  readonly terms: InterferenceTerms;
  /** The strongest first. */
  readonly entries: readonly Entry[];
  /** At the same place: told, and judged only where a coupling loss is stated. */
  readonly coLocated: readonly CoLocated[];
  /** I/N of the bounds of all that was not computed. */
  readonly cutToNoiseDb?: number;
  /** I/N of the long-term sum with power control as it usually is, and with full power; undefined: there is none. */
  readonly toNoiseDb?: number;
  readonly fullToNoiseDb?: number;
  /** Of the strongest in the short term: enhancements of different paths are taken not to coincide (from memory). */
  readonly shortToNoiseDb?: number;
  /** Degradations of the threshold of these sums, and of the strongest entry of the long term. */
  readonly degradationDb: number;
  readonly fullDegradationDb: number;
  readonly shortDegradationDb: number;
  readonly singleDegradationDb: number;
}

export interface CoLocated {
  readonly sender: Sender;
  readonly offsetHz: number;
  /** Between the boresights; undefined: one is not known. */
  readonly apartDeg?: number;
  /** I/N, where a coupling loss is stated for the pair. */
  readonly toNoiseDb?: number;
}

export function interferenceAt(
  receiver: Receiver,
  terms: InterferenceTerms,
  entries: readonly Entry[],
  coLocated: readonly CoLocated[],
  cutToNoiseDb: number | undefined,
): InterferenceAt {
  const sorted = entries.toSorted((a, b) => b.toNoiseDb - a.toNoiseDb || compare(a.sender.key, b.sender.key));
  // What was cut counts in the sum as it could at most be: no verdict rests on leaving it out.
  const local = coLocated.flatMap(({ toNoiseDb }) => toNoiseDb ?? []);
  const rest = [...local, ...(cutToNoiseDb === undefined ? [] : [cutToNoiseDb])];
  const toNoiseDb = sumDb([...sorted.map(({ inSumToNoiseDb }) => inSumToNoiseDb), ...rest]);
  const fullToNoiseDb = sumDb([...sorted.map(({ fullInSumToNoiseDb }) => fullInSumToNoiseDb), ...rest]);
  const shortToNoiseDb = greatest([...sorted.map((entry) => entry.shortToNoiseDb), ...local]);
  const singleToNoiseDb = greatest([...sorted.map((entry) => entry.toNoiseDb), ...local]);
  return {
    receiver,
    terms,
    entries: sorted,
    coLocated,
    ...(cutToNoiseDb !== undefined && { cutToNoiseDb }),
    ...(toNoiseDb !== undefined && { toNoiseDb }),
    ...(fullToNoiseDb !== undefined && { fullToNoiseDb }),
    ...(shortToNoiseDb !== undefined && { shortToNoiseDb }),
    degradationDb: costOf(toNoiseDb),
    fullDegradationDb: costOf(fullToNoiseDb),
    shortDegradationDb: costOf(shortToNoiseDb),
    singleDegradationDb: costOf(singleToNoiseDb),
  };
}

function costOf(toNoiseDb: number | undefined): number {
  return toNoiseDb === undefined ? 0 : degradationDb(toNoiseDb);
}

function greatest(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : Math.max(...values);
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
