/**
 * Interference of a network, kept up to date: every receiver of its hops against every sender in reach, and every
 * receiver of others against its senders. What a hop's change does not touch stays as it was.
 *
 * Profiles are asked for one by one and handed in: whoever holds the terrain runs the generator.
 */
import { type CouplingLoss, INTERFERENCE_DEFAULTS, type InterferenceTerms } from "../design/interference.js";
import type { LatLon } from "../geodesy/coordinates.js";
import type { TerrainProfile } from "../terrain/profile.js";
import { Bands } from "./bands.js";
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
import { type Found, SenderIndex } from "./search.js";
import { isOwn, type Receiver, type Sender } from "./station.js";
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
  /** At those receivers of others that any sender of the network reaches, in the order of their lists; the same array as long as they are the same. */
  ofOthers(): readonly InterferenceAt[];
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

/** What is known at a receiver, of a station of its key. */
interface KnownAt {
  readonly own: Found;
  readonly foreign?: Found;
  /** By the keys of their senders. */
  readonly entries: ReadonlyMap<string, KnownEntry>;
}

interface Indexes {
  readonly own: SenderIndex;
  readonly foreign: SenderIndex;
  readonly ownReceivers: Bands;
  readonly foreignReceivers: Bands;
}

/** Stations that went, and those that came or came instead, by hop. */
interface Moved {
  readonly gone: ReadonlyMap<string, HopStations>;
  readonly come: ReadonlyMap<string, HopStations>;
}

export class InterferenceNetwork implements InterferenceFound {
  private state: NetworkState | undefined;
  private readonly filters: Filters;
  private indexes: Indexes | undefined;
  private known: LayeredMap<string, KnownAt>;
  /** The terms that what is known was computed with. */
  private termsKey: string | undefined;
  private readonly byHop: LayeredMap<string, readonly InterferenceAt[]>;
  private readonly atOthers: LayeredMap<string, InterferenceAt>;
  /** The same in the order of the lists, as long as nothing changes. */
  private listedAtOthers: readonly InterferenceAt[] | undefined;

  /** @param from goes on from what this one knows, and leaves it as it is */
  constructor(from?: InterferenceNetwork) {
    this.state = from?.state;
    this.filters = from?.filters ?? new Filters();
    this.known = new LayeredMap(from?.known);
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
  learn({ known, termsKey }: InterferenceNetwork): void {
    this.known = known;
    this.termsKey = termsKey;
  }

  of(hop: string): readonly InterferenceAt[] {
    return this.byHop.get(hop) ?? NONE;
  }

  ofOthers(): readonly InterferenceAt[] {
    const { receivers = [] } = this.state?.foreign ?? {};
    return (this.listedAtOthers ??= receivers.flatMap(({ key }) => this.atOthers.get(key) ?? []));
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
    if (this.termsKey !== termsKey) this.known.clear();
    this.termsKey = termsKey;
    const from = before !== undefined && JSON.stringify(before.terms) === termsKey ? before : undefined;
    const moved = movedBetween(from, next);
    const indexes = this.indexesOf(from, next, moved, path);
    const goesOn = from?.foreign === next.foreign && from.couplings === next.couplings;
    const touched = goesOn ? this.touchedBy(moved, indexes, path) : "all";
    this.state = next;
    this.listedAtOthers = undefined;
    if (before?.foreign !== next.foreign) {
      this.forget(before?.foreign.receivers ?? []);
      this.atOthers.clear();
    }
    const changed = new Set<string>();
    for (const [hop, { receivers }] of from === undefined ? (before?.hops ?? []) : moved.gone)
      if (!next.hops.has(hop)) {
        this.forget(receivers);
        this.byHop.delete(hop);
        changed.add(hop);
      }
    for (const [hop, { receivers }] of touched === "all"
      ? byPlace(next.hops)
      : hopsOf(touched, moved, next)) {
      const known = this.byHop.get(hop) ?? [];
      this.forget(
        (before?.hops.get(hop)?.receivers ?? []).filter(
          ({ key }) => !receivers.some((one) => one.key === key),
        ),
      );
      const results: InterferenceAt[] = [];
      for (const receiver of receivers) {
        const same = known.find((one) => one.receiver === receiver);
        if (same !== undefined && touched !== "all" && !touched.own.has(receiver)) results.push(same);
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
    const before = this.known.get(receiver.key);
    const known = before?.entries;
    const own = indexes.own.find(receiver, before?.own);
    const foreign = indexes.foreign?.find(receiver, before?.foreign);
    const found = foreign === undefined ? [own] : [own, foreign];
    const senders = found.flatMap(({ entries }) => entries);
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
        this.known.set(receiver.key, { own, ...(foreign !== undefined && { foreign }), entries: now });
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
  private indexesOf(
    before: NetworkState | undefined,
    { terms, foreign, hops }: NetworkState,
    { gone, come }: Moved,
    path: PathTerms,
  ): Indexes {
    const short = terms.shortTermDegradationDb !== undefined || terms.towardOthersShortTermDb !== undefined;
    const percent = short ? path.shortTermPercent : path.longTermPercent;
    const made = (senders: Iterable<Sender>) =>
      new SenderIndex(Cells.of(senders), this.filters, percent, path.seaLevelN, terms.searchDistanceM);
    const known = before === undefined ? undefined : this.indexes;
    const { foreign: foreignSenders, foreignReceivers } =
      known !== undefined && before!.foreign === foreign
        ? known
        : { foreign: made(foreign.senders), foreignReceivers: Bands.of(foreign.receivers) };
    const [went, came] = [[...gone.values()], [...come.values()]];
    return (this.indexes = {
      own: known?.own.changed(sendersOf(went), sendersOf(came)) ?? made(sendersOf(hops.values())),
      foreign: foreignSenders,
      ownReceivers:
        known?.ownReceivers.changed(receiversOf(went), receiversOf(came)) ??
        Bands.of(receiversOf(hops.values())),
      foreignReceivers,
    });
  }

  /** Receivers whose result may differ. */
  private touchedBy(
    { gone, come }: Moved,
    { ownReceivers, foreignReceivers }: Indexes,
    path: PathTerms,
  ): Touched {
    const senders = sendersOf([...gone.values(), ...come.values()]);
    const index = new SenderIndex(Cells.of(senders), this.filters, path.shortTermPercent, path.seaLevelN);
    const reached = (receivers: Bands) =>
      receivers.near(senders).filter((receiver) => index.reaches(receiver, UNTOUCHED_DB));
    return {
      own: new Set([...receiversOf(come.values()), ...reached(ownReceivers)]),
      others: reached(foreignReceivers),
    };
  }

  private forget(receivers: readonly Receiver[]): void {
    for (const { key } of receivers) this.known.delete(key);
  }
}

interface Touched {
  readonly own: ReadonlySet<Receiver>;
  readonly others: readonly Receiver[];
}

/** Hops with a receiver that is touched, and those that changed in anything. */
function hopsOf({ own }: Touched, { come }: Moved, { hops }: NetworkState): Iterable<[string, HopStations]> {
  const all = new Map(come);
  for (const { of } of own) if (isOwn(of)) all.set(of.hop, hops.get(of.hop)!);
  return all;
}

/** @param before undefined: there is none to go on from, and all have come */
function movedBetween(before: NetworkState | undefined, { hops }: NetworkState): Moved {
  const [gone, come] = [new Map<string, HopStations>(), new Map<string, HopStations>()];
  if (before === undefined) return { gone, come: hops };
  let stayed = 0;
  for (const [hop, stations] of hops) {
    const was = before.hops.get(hop);
    if (was !== undefined) stayed++;
    if (was === stations) continue;
    if (was !== undefined) gone.set(hop, was);
    come.set(hop, stations);
  }
  if (stayed < before.hops.size)
    for (const [hop, stations] of before.hops) if (!hops.has(hop)) gone.set(hop, stations);
  return { gone, come };
}

function sendersOf(stations: Iterable<HopStations>): readonly Sender[] {
  return [...stations].flatMap(({ senders }) => senders);
}

function receiversOf(stations: Iterable<HopStations>): readonly Receiver[] {
  return [...stations].flatMap(({ receivers }) => receivers);
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
