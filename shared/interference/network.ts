/**
 * Interference of a network, kept up to date: every receiver of its hops against every sender in reach, and every
 * receiver of others against its senders. What a hop's change does not touch stays as it was.
 *
 * Profiles are asked for one by one and handed in: whoever holds the terrain runs the generator.
 */
import type { CouplingLoss, InterferenceTerms } from "../design/interference.js";
import type { Ahead, Asking, ProfileAsked } from "./asking.js";
import { atReceiver, coarseAsked, type KnownEntries } from "./at-receiver.js";
import { Cells } from "./cells.js";
import { type PathTerms, pathTermsOf } from "./entry-path.js";
import { Filters } from "./filters.js";
import type { ForeignStations } from "./foreign.js";
import { LayeredMap } from "./layered-map.js";
import type { InterferenceAt } from "./receiver-result.js";
import { type Found, SenderIndex } from "./search.js";
import type { Receiver, Sender } from "./station.js";
import type { HopStations } from "./stations.js";

export interface NetworkState {
  /** Of each hop that stands; the same object as long as it is the same. */
  readonly hops: ReadonlyMap<string, HopStations>;
  /** Of others; the same object as long as the lists are the same. */
  readonly foreign: ForeignStations;
  readonly terms: InterferenceTerms;
  /** Stated at a site between two hops; the same object as long as it is the same. */
  readonly couplings: ReadonlyMap<string, readonly CouplingLoss[]>;
}

/** What was found, for whoever judges and shows it. */
export interface InterferenceFound {
  /** At the receivers of a hop. */
  of(hop: string): readonly InterferenceAt[];
  /** At those receivers of others that any sender of the network reaches. */
  ofOthers(): Iterable<InterferenceAt>;
  /** Why it could not be computed; undefined: it was. */
  readonly problem?: string | undefined;
}

const NONE: readonly InterferenceAt[] = [];

/** Below this a sender that comes, goes or changes leaves a receiver's result as it was, I/N. */
const UNTOUCHED_DB = -70;

/** Where something may differ: receivers of hops by their keys, the hops that they are of, and receivers of others. */
interface Touched {
  readonly own: ReadonlySet<string>;
  readonly hops: ReadonlySet<string>;
  readonly others: readonly Receiver[];
}

interface Indexes {
  readonly own: SenderIndex;
  readonly foreign: SenderIndex;
}

export class InterferenceNetwork implements InterferenceFound {
  private state: NetworkState | undefined;
  private readonly filters: Filters;
  private indexes: Indexes | undefined;
  private entries: LayeredMap<string, KnownEntries>;
  /** The terms that entries were computed with. */
  private termsKey: string | undefined;
  private readonly byHop: LayeredMap<string, readonly InterferenceAt[]>;
  private readonly atOthers: LayeredMap<string, InterferenceAt>;

  /** @param from goes on from what this one knows, and leaves it as it is */
  constructor(from?: InterferenceNetwork) {
    this.state = from?.state;
    this.filters = from?.filters ?? new Filters();
    this.entries = new LayeredMap(from?.entries);
    this.termsKey = from?.termsKey;
    this.byHop = new LayeredMap(from?.byHop);
    this.atOthers = new LayeredMap(from?.atOthers);
    this.indexes = from?.indexes;
  }

  /** Whether anything was computed yet. */
  get isComputed(): boolean {
    return this.state !== undefined;
  }

  /** Takes over what a run on a copy computed that was broken off: the next one need not compute it again. */
  learn({ entries, termsKey }: InterferenceNetwork): void {
    this.entries = entries;
    this.termsKey = termsKey;
  }

  of(hop: string): readonly InterferenceAt[] {
    return this.byHop.get(hop) ?? NONE;
  }

  ofOthers(): Iterable<InterferenceAt> {
    return this.atOthers.values();
  }

  /**
   * Broken off, it leaves this one half way: run it on a copy where that may happen.
   * @param ahead told of profiles that will be asked for soon, each once and in this order: whoever can has them read
   * meanwhile
   * @returns names of the hops at whose receivers something may have changed, those that went included
   */
  *update(next: NetworkState, ahead?: Ahead): Asking<ReadonlySet<string>> {
    const before = this.state;
    const path = pathTermsOf(next.terms);
    const termsKey = JSON.stringify(next.terms);
    // Entries may have been learnt from a run with other terms than those of the results before.
    if (this.termsKey !== termsKey) this.entries.clear();
    this.termsKey = termsKey;
    const sameTerms = before !== undefined && JSON.stringify(before.terms) === termsKey;
    const touched = sameTerms ? this.touchedBy(before, next, path) : "all";
    this.state = next;
    if (before?.foreign !== next.foreign) {
      this.forget(before?.foreign.receivers ?? []);
      this.atOthers.clear();
    }
    const changed = new Set<string>();
    for (const hop of before?.hops.keys() ?? [])
      if (!next.hops.has(hop)) {
        this.forget(before!.hops.get(hop)!.receivers);
        this.byHop.delete(hop);
        changed.add(hop);
      }
    const indexes = this.indexesOf(sameTerms ? before : undefined, next, path);
    if (touched === "all") yield* this.atAll(before, next, indexes, path, ahead);
    else yield* this.atTouched(touched, before, next, indexes, path);
    for (const hop of touched === "all" ? next.hops.keys() : touched.hops) changed.add(hop);
    return changed;
  }

  private *atTouched(
    { own, hops, others }: Touched,
    before: NetworkState | undefined,
    next: NetworkState,
    indexes: Indexes,
    path: PathTerms,
  ): Asking<void> {
    for (const hop of hops) {
      const { receivers } = next.hops.get(hop)!;
      const known = this.of(hop);
      this.forgetGone(before?.hops.get(hop), receivers);
      const results: InterferenceAt[] = [];
      for (const receiver of receivers) {
        const same = known.find((one) => one.receiver === receiver);
        if (same !== undefined && !own.has(receiver.key)) results.push(same);
        else {
          results.push(yield* this.atReceiver(receiver, foundAt(receiver, indexes), path, next));
          yield undefined;
        }
      }
      this.byHop.set(hop, results);
    }
    for (const receiver of others) {
      const found = foundAt(receiver, { own: indexes.own });
      this.takeAtOther(receiver, yield* this.atReceiver(receiver, found, path, next));
      yield undefined;
    }
  }

  /**
   * All receivers, some at a time: what is to be computed at the next ones is known while it is computed at these, so that
   * their profiles are read meanwhile.
   */
  private *atAll(
    before: NetworkState | undefined,
    next: NetworkState,
    indexes: Indexes,
    path: PathTerms,
    ahead: Ahead | undefined,
  ): Asking<void> {
    const results = new Map<string, InterferenceAt[]>();
    for (const [hop, { receivers }] of next.hops) {
      this.forgetGone(before?.hops.get(hop), receivers);
      results.set(hop, []);
    }
    const all = [
      ...byPlace(next.hops).flatMap(([hop, { receivers }]) =>
        receivers.map((receiver, place): Waiting => ({ receiver, hop, place })),
      ),
      ...next.foreign.receivers.map((receiver, place): Waiting => ({ receiver, place })),
    ];
    const take = ({ receiver, hop, place }: Waiting, result: InterferenceAt) => {
      if (hop === undefined) this.takeAtOther(receiver, result);
      else results.get(hop)![place] = result;
    };
    const groupAt = (start: number): readonly Prepared[] =>
      all.slice(start, start + AT_ONCE).map((waiting) => {
        const from = waiting.hop === undefined ? { own: indexes.own } : indexes;
        return { waiting, found: foundAt(waiting.receiver, from) };
      });
    const tell = (group: readonly Prepared[]) =>
      ahead?.(
        group.flatMap(({ waiting: { receiver }, found }) =>
          coarseAsked(receiver, found, this.entries.get(receiver.key), next),
        ),
      );
    let group = groupAt(0);
    // Those of the group before that want a closer look at some profiles.
    let closer: readonly Begun[] = [];
    tell(group);
    for (let start = AT_ONCE; group.length + closer.length > 0; start += AT_ONCE) {
      const following = groupAt(start);
      tell(following);
      const begun: Begun[] = [];
      for (const { waiting, found } of group) {
        const running = this.atReceiver(waiting.receiver, found, path, next, ahead);
        let step = running.next();
        while (!step.done && step.value?.stepM !== undefined) step = running.next(yield step.value);
        if (step.done) take(waiting, step.value);
        else begun.push({ waiting, running, step });
        yield undefined;
      }
      for (const { waiting, running, step: first } of closer) {
        let step: typeof first | IteratorReturnResult<InterferenceAt> = first;
        while (!step.done) step = running.next(yield step.value);
        take(waiting, step.value);
        yield undefined;
      }
      group = following;
      closer = begun;
    }
    for (const [hop, at] of results) this.byHop.set(hop, at);
  }

  /** What nobody of the network reaches is not kept. */
  private takeAtOther(receiver: Receiver, result: InterferenceAt): void {
    if (result.entries.length > 0 || result.coLocated.length > 0) this.atOthers.set(receiver.key, result);
    else this.atOthers.delete(receiver.key);
  }

  private *atReceiver(
    receiver: Receiver,
    found: readonly Found[],
    path: PathTerms,
    state: NetworkState,
    ahead?: Ahead,
  ): Asking<InterferenceAt> {
    const known = this.entries.get(receiver.key);
    const { filters } = this;
    const { result, entries } = yield* atReceiver(receiver, found, known, { path, state, filters, ahead });
    if (entries.size > 0) this.entries.set(receiver.key, entries);
    else this.entries.delete(receiver.key);
    return result;
  }

  /**
   * What was indexed before goes on, as far as it is the same.
   * @param before undefined: with other terms, or none
   */
  private indexesOf(before: NetworkState | undefined, next: NetworkState, path: PathTerms): Indexes {
    const { terms, foreign } = next;
    const short = terms.shortTermDegradationDb !== undefined || terms.towardOthersShortTermDb !== undefined;
    const percent = short ? path.shortTermPercent : path.longTermPercent;
    const made = (senders: Iterable<Sender>) =>
      new SenderIndex(Cells.of(senders), this.filters, percent, path.seaLevelN, terms.searchDistanceM);
    const known = before === undefined ? undefined : this.indexes;
    return (this.indexes = {
      own:
        known?.own.changed(...this.movedBetween(before!, next)) ??
        made([...next.hops.values()].flatMap(({ senders }) => senders)),
      foreign: known !== undefined && before!.foreign === foreign ? known.foreign : made(foreign.senders),
    });
  }

  /** Senders that went, and those that came. */
  private movedBetween(before: NetworkState, next: NetworkState): readonly [Sender[], Sender[]] {
    const [gone, come]: [Sender[], Sender[]] = [[], []];
    for (const [hop, stations] of next.hops) {
      const was = before.hops.get(hop);
      if (was === stations) continue;
      gone.push(...(was?.senders ?? []));
      come.push(...stations.senders);
    }
    for (const [hop, { senders }] of before.hops) if (!next.hops.has(hop)) gone.push(...senders);
    return [gone, come];
  }

  private touchedBy(before: NetworkState, next: NetworkState, path: PathTerms): Touched | "all" {
    if (before.foreign !== next.foreign || before.couplings !== next.couplings) return "all";
    const [own, hops] = [new Set<string>(), new Set<string>()];
    const touch = (hop: string, key: string) => {
      own.add(key);
      hops.add(hop);
    };
    for (const [hop, stations] of next.hops) {
      if (before.hops.get(hop) === stations) continue;
      hops.add(hop);
      for (const { key } of stations.receivers) touch(hop, key);
    }
    const moved = this.movedBetween(before, next).flat();
    if (moved.length === 0) return { own, hops, others: [] };
    const index = new SenderIndex(Cells.of(moved), this.filters, path.shortTermPercent, path.seaLevelN);
    for (const [hop, { receivers }] of next.hops)
      for (const receiver of receivers) if (index.reaches(receiver, UNTOUCHED_DB)) touch(hop, receiver.key);
    const others = next.foreign.receivers.filter((receiver) => index.reaches(receiver, UNTOUCHED_DB));
    return { own, hops, others };
  }

  private forgetGone(before: HopStations | undefined, receivers: readonly Receiver[]): void {
    this.forget((before?.receivers ?? []).filter(({ key }) => !receivers.some((one) => one.key === key)));
  }

  private forget(receivers: readonly Receiver[]): void {
    for (const { key } of receivers) this.entries.delete(key);
  }
}

/** What matters at a receiver, of each index. */
function foundAt(
  receiver: Receiver,
  { own, foreign }: { readonly own: SenderIndex; readonly foreign?: SenderIndex },
): readonly Found[] {
  return foreign === undefined ? [own.find(receiver)] : [own.find(receiver), foreign.find(receiver)];
}

interface Waiting {
  readonly receiver: Receiver;
  /** Undefined: of others. */
  readonly hop?: string;
  /** Among those of its hop. */
  readonly place: number;
}

interface Prepared {
  readonly waiting: Waiting;
  readonly found: readonly Found[];
}

/** As far as its coarse profiles go, and the first that it wants a closer look at. */
interface Begun {
  readonly waiting: Waiting;
  readonly running: Asking<InterferenceAt>;
  readonly step: IteratorYieldResult<ProfileAsked | undefined>;
}

/** Receivers that are looked at in one go: enough that the other side has work, and no pause is missed for long. */
const AT_ONCE = 32;

const AREA_DEG = 0.25;

/** Neighbours one after another, so that the terrain of one is still at hand for the next. */
function byPlace(hops: ReadonlyMap<string, HopStations>): readonly (readonly [string, HopStations])[] {
  const areaOf = ({ receivers: [first] }: HopStations) => {
    const { latitudeDeg = 0, longitudeDeg = 0 } = first?.place.position ?? {};
    return Math.floor(latitudeDeg / AREA_DEG) * 10_000 + Math.floor(longitudeDeg / AREA_DEG);
  };
  return [...hops].sort(([, a], [, b]) => areaOf(a) - areaOf(b));
}
