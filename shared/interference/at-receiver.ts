/** What comes in at one receiver, of senders that were found to matter there: over coarse profiles, then closer where a verdict rests on it. */
import { type CouplingLoss, INTERFERENCE_DEFAULTS, type InterferenceTerms } from "../design/interference.js";
import { type Ahead, type Asking, askedFor, type KnownAtStep, knownPath } from "./asking.js";
import { restingOnCoarse } from "./closer.js";
import { coLocatedOf } from "./co-located.js";
import { type Entry, entryOf } from "./entry.js";
import { entryPath, type PathTerms, type ProfileStep } from "./entry-path.js";
import type { Filters } from "./filters.js";
import { limitsAt } from "./limits.js";
import { type InterferenceAt, interferenceAt } from "./receiver-result.js";
import type { Found } from "./search.js";
import type { Receiver, Sender } from "./station.js";

/** Remembered apart by the step of their profile: which of them counts is decided anew each time. */
interface KnownEntry {
  readonly receiver: Receiver;
  readonly coarse: Entry;
  readonly own?: Entry;
}

/** At one receiver, by the keys of the senders. */
export type KnownEntries = ReadonlyMap<string, KnownEntry>;

interface StatedAround {
  readonly terms: InterferenceTerms;
  /** Stated at a site between two hops. */
  readonly couplings: ReadonlyMap<string, readonly CouplingLoss[]>;
}

export interface Around {
  readonly path: PathTerms;
  readonly state: StatedAround;
  readonly filters: Filters;
  readonly ahead?: Ahead | undefined;
}

/** @param known entries of an earlier run */
export function* atReceiver(
  receiver: Receiver,
  found: readonly Found[],
  known: KnownEntries | undefined,
  around: Around,
): Asking<{ readonly result: InterferenceAt; readonly entries: KnownEntries }> {
  const { terms, couplings } = around.state;
  const stepM = coarseStepM(terms);
  const now = new Map<string, KnownEntry>();
  const entries = new Map<string, Entry>();
  for (const sender of found.flatMap(({ entries }) => entries)) {
    const before = coarseOf(known?.get(sender.key));
    const coarse = yield* entryAt(sender, receiver, before, around, "coarse", stepM);
    entries.set(sender.key, coarse);
    now.set(sender.key, { receiver, coarse });
  }
  const coLocated = found.flatMap(({ coLocated: near }) =>
    near.map((sender) => coLocatedOf(sender, receiver, couplings, around.filters)),
  );
  const cut = found.flatMap(({ cutToNoiseDb }) => cutToNoiseDb ?? []);
  const cutToNoiseDb =
    cut.length === 0 ? undefined : 10 * Math.log10(cut.reduce((sum, db) => sum + 10 ** (db / 10), 0));
  const beyondMost = found.reduce((sum, one) => sum + (one.beyondMost ?? 0), 0);
  const limits = limitsAt(receiver, terms);
  for (;;) {
    const rest = { cutToNoiseDb, beyondMost };
    const result = interferenceAt(receiver, terms, [...entries.values()], coLocated, rest);
    const closer = restingOnCoarse(result, limits).map(({ sender }) => sender);
    if (closer.length === 0) return { result, entries: now };
    around.ahead?.(unknown(closer, receiver, (sender) => ownOf(known?.get(sender.key)), undefined));
    for (const sender of closer) {
      const own = yield* entryAt(sender, receiver, ownOf(known?.get(sender.key)), around, "own");
      entries.set(sender.key, own);
      now.set(sender.key, { ...now.get(sender.key)!, own });
    }
  }
}

/** Profiles at the coarse step that will be asked for there. */
export function coarseAsked(
  receiver: Receiver,
  found: readonly Found[],
  known: KnownEntries | undefined,
  { terms }: Pick<StatedAround, "terms">,
): ReturnType<typeof unknown> {
  const senders = found.flatMap(({ entries }) => entries);
  return unknown(senders, receiver, (sender) => coarseOf(known?.get(sender.key)), coarseStepM(terms));
}

function unknown(
  senders: readonly Sender[],
  receiver: Receiver,
  knownOf: (sender: Sender) => KnownAtStep | undefined,
  stepM: number | undefined,
) {
  return senders
    .filter((sender) => knownPath(sender, receiver, knownOf(sender)) === undefined)
    .map((sender) => askedFor(sender, receiver, stepM));
}

function coarseOf(known: KnownEntry | undefined): KnownAtStep | undefined {
  return known && { receiver: known.receiver, entry: known.coarse };
}

function ownOf(known: KnownEntry | undefined): KnownAtStep | undefined {
  return known?.own && { receiver: known.receiver, entry: known.own };
}

function* entryAt(
  sender: Sender,
  receiver: Receiver,
  was: KnownAtStep | undefined,
  { path, filters }: Around,
  step: ProfileStep,
  stepM?: number,
): Asking<Entry> {
  if (was?.entry.sender === sender && was.receiver === receiver) return was.entry;
  const over =
    knownPath(sender, receiver, was) ??
    entryPath(sender, receiver, path, yield askedFor(sender, receiver, stepM), step);
  return entryOf(sender, receiver, over, filters);
}

function coarseStepM({ profileStepM }: InterferenceTerms): number {
  return profileStepM ?? INTERFERENCE_DEFAULTS.profileStepM;
}
