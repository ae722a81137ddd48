/**
 * Interference of a network, kept up to date: every receiver of its hops against every sender in reach, and every
 * receiver of others against its senders. What a hop's change does not touch stays as it was.
 *
 * Profiles are asked for one by one and handed in: whoever holds the terrain runs the generator.
 */
import { type CouplingLoss, INTERFERENCE_DEFAULTS, type InterferenceTerms } from "../design/interference.js";
import type { LatLon } from "../geodesy/coordinates.js";
import type { TerrainProfile } from "../terrain/profile.js";
import { Cells } from "./cells.js";
import { restingOnCoarse } from "./closer.js";
import { coLocatedOf } from "./co-located.js";
import { type Entry, entryOf } from "./entry.js";
import { entryPath, type PathTerms, type ProfileStep, pathTermsOf } from "./entry-path.js";
import { Filters } from "./filters.js";
import type { ForeignStations } from "./foreign.js";
import { LayeredMap } from "./layered-map.js";
import { limitsAt } from "./limits.js";
import { type InterferenceAt, interferenceAt } from "./receiver-result.js";
import { isSamePath } from "./same-path.js";
import { SenderIndex } from "./search.js";
import type { Receiver, Sender } from "./station.js";
import type { HopStations } from "./stations.js";

/**
 * What a run asks of its host: a profile each time, which is handed in; undefined where it only lets other work in, since
 * much may be computed between two profiles.
 */
export type Asking<T> = Generator<ProfileAsked | undefined, T, TerrainProfile | undefined>;

/** A profile from a sender to a receiver. */
export interface ProfileAsked {
  readonly from: LatLon;
  readonly to: LatLon;
  /** Undefined: the raster's own. */
  readonly stepM?: number;
}

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

/** Remembered apart by the step of their profile: which of them counts is decided anew each time. */
interface KnownEntry {
  readonly receiver: Receiver;
  readonly coarse: Entry;
  readonly own?: Entry;
}

/** Receivers whose result may differ: of hops by their keys. */
interface Touched {
  readonly own: ReadonlySet<string>;
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
  private entries: LayeredMap<string, ReadonlyMap<string, KnownEntry>>;
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
   * @returns names of the hops at whose receivers something may have changed, those that went included
   */
  *update(next: NetworkState): Asking<ReadonlySet<string>> {
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
    if (touched !== "all" && touched.own.size + touched.others.length === 0) return changed;
    for (const [hop, { receivers }] of touched === "all" ? byPlace(next.hops) : next.hops) {
      if (touched !== "all" && !receivers.some(({ key }) => touched.own.has(key))) {
        if (before?.hops.get(hop) === next.hops.get(hop)) continue;
      }
      const known = this.byHop.get(hop) ?? [];
      this.forget(
        (before?.hops.get(hop)?.receivers ?? []).filter(
          ({ key }) => !receivers.some((one) => one.key === key),
        ),
      );
      const results: InterferenceAt[] = [];
      for (const receiver of receivers) {
        const same = known.find((one) => one.receiver === receiver);
        if (same !== undefined && touched !== "all" && !touched.own.has(receiver.key)) results.push(same);
        else {
          results.push(yield* this.atReceiver(receiver, indexes, path, next));
          yield undefined;
        }
      }
      this.byHop.set(hop, results);
      changed.add(hop);
    }
    for (const receiver of touched === "all" ? next.foreign.receivers : touched.others) {
      const result = yield* this.atReceiver(receiver, { own: indexes.own }, path, next);
      yield undefined;
      if (result.entries.length > 0 || result.coLocated.length > 0) this.atOthers.set(receiver.key, result);
      else this.atOthers.delete(receiver.key);
    }
    return changed;
  }

  private *atReceiver(
    receiver: Receiver,
    indexes: { readonly own: SenderIndex; readonly foreign?: SenderIndex },
    path: PathTerms,
    { terms, couplings }: NetworkState,
  ): Asking<InterferenceAt> {
    const found = [indexes.own, indexes.foreign].flatMap((index) =>
      index === undefined ? [] : [index.find(receiver)],
    );
    const senders = found.flatMap(({ entries }) => entries);
    const known = this.entries.get(receiver.key);
    const now = new Map<string, KnownEntry>();
    const entries = new Map<string, Entry>();
    for (const sender of senders) {
      const was = known?.get(sender.key);
      const coarse = yield* this.entryAt(sender, receiver, was && { ...was, entry: was.coarse }, {
        path,
        step: "coarse",
        stepM: terms.profileStepM ?? INTERFERENCE_DEFAULTS.profileStepM,
      });
      entries.set(sender.key, coarse);
      now.set(sender.key, { receiver, coarse });
    }
    const coLocated = found.flatMap(({ coLocated: near }) =>
      near.map((sender) => coLocatedOf(sender, receiver, couplings, this.filters)),
    );
    const cut = found.flatMap(({ cutToNoiseDb }) => cutToNoiseDb ?? []);
    const cutToNoiseDb =
      cut.length === 0 ? undefined : 10 * Math.log10(cut.reduce((sum, db) => sum + 10 ** (db / 10), 0));
    const beyondMost = found.reduce((sum, one) => sum + (one.beyondMost ?? 0), 0);
    const limits = limitsAt(receiver, terms);
    for (;;) {
      const result = interferenceAt(receiver, terms, [...entries.values()], coLocated, {
        cutToNoiseDb,
        beyondMost,
      });
      const closer = restingOnCoarse(result, limits);
      if (closer.length === 0) {
        if (now.size > 0) this.entries.set(receiver.key, now);
        else this.entries.delete(receiver.key);
        return result;
      }
      for (const { sender } of closer) {
        const was = known?.get(sender.key);
        const before = was?.own && { ...was, entry: was.own };
        const own = yield* this.entryAt(sender, receiver, before, { path, step: "own" });
        entries.set(sender.key, own);
        now.set(sender.key, { ...now.get(sender.key)!, own });
      }
    }
  }

  private *entryAt(
    sender: Sender,
    receiver: Receiver,
    was: { readonly receiver: Receiver; readonly entry: Entry } | undefined,
    { path, step, stepM }: { readonly path: PathTerms; readonly step: ProfileStep; readonly stepM?: number },
  ): Asking<Entry> {
    if (was?.entry.sender === sender && was.receiver === receiver) return was.entry;
    const over =
      was !== undefined && isSamePath(was.entry.sender, sender) && isSamePath(was.receiver, receiver)
        ? was.entry.path
        : entryPath(
            sender,
            receiver,
            path,
            yield { from: sender.place.position, to: receiver.place.position, stepM },
            step,
          );
    return entryOf(sender, receiver, over, this.filters);
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
    const own = new Set<string>();
    for (const [hop, stations] of next.hops)
      if (before.hops.get(hop) !== stations) for (const { key } of stations.receivers) own.add(key);
    const moved = this.movedBetween(before, next).flat();
    if (moved.length === 0) return { own, others: [] };
    const index = new SenderIndex(Cells.of(moved), this.filters, path.shortTermPercent, path.seaLevelN);
    for (const { receivers } of next.hops.values())
      for (const receiver of receivers) if (index.reaches(receiver, UNTOUCHED_DB)) own.add(receiver.key);
    const others = next.foreign.receivers.filter((receiver) => index.reaches(receiver, UNTOUCHED_DB));
    return { own, others };
  }

  private forget(receivers: readonly Receiver[]): void {
    for (const { key } of receivers) this.entries.delete(key);
  }
}

const AREA_DEG = 0.25;

/** Neighbours one after another, so that the terrain of one is still at hand for the next. */
function byPlace(hops: ReadonlyMap<string, HopStations>): readonly (readonly [string, HopStations])[] {
  const areaOf = ({ receivers: [first] }: HopStations) => {
    const { latitudeDeg = 0, longitudeDeg = 0 } = first?.place.position ?? {};
    return Math.floor(latitudeDeg / AREA_DEG) * 10_000 + Math.floor(longitudeDeg / AREA_DEG);
  };
  return [...hops].sort(([, a], [, b]) => areaOf(a) - areaOf(b));
}
