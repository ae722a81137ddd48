/** What all senders together do to one receiver. */
import type { InterferenceTerms } from "../design/interference.js";
import { degradationDb } from "../radio/degradation.js";
import { byKey } from "./cells.js";
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
  /** So many of them lie above the cut: more are there than are computed at one receiver. */
  readonly beyondMost?: number;
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
  { cutToNoiseDb, beyondMost = 0 }: { readonly cutToNoiseDb?: number; readonly beyondMost?: number },
): InterferenceAt {
  const sorted = entries.toSorted((a, b) => b.toNoiseDb - a.toNoiseDb || byKey(a.sender, b.sender));
  // What was cut counts in the sum as it could at most be: no verdict rests on leaving it out.
  const local = coLocated.flatMap(({ toNoiseDb }) => toNoiseDb ?? []);
  const rest = [...local, ...(cutToNoiseDb === undefined ? [] : [cutToNoiseDb])];
  const toNoiseDb = sumDb([...sorted.map(({ inSumToNoiseDb }) => inSumToNoiseDb), ...rest]);
  const fullToNoiseDb = sumDb([...sorted.map(({ fullInSumToNoiseDb }) => fullInSumToNoiseDb), ...rest]);
  // Nor alone may one of those that are too many be the strongest.
  const alone = beyondMost > 0 ? rest : local;
  const shortToNoiseDb = greatest([...sorted.map((entry) => entry.shortToNoiseDb), ...alone]);
  const singleToNoiseDb = greatest([...sorted.map((entry) => entry.toNoiseDb), ...alone]);
  return {
    receiver,
    terms,
    entries: sorted,
    coLocated,
    ...(cutToNoiseDb !== undefined && { cutToNoiseDb }),
    ...(beyondMost > 0 && { beyondMost }),
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
