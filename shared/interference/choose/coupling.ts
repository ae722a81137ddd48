/**
 * What senders bring to receivers on any channels that hops may be given: losses over the terrain once for each pair of
 * places, as if both were on one frequency of the band, and the filters for each pair of channels. The engine of
 * interference works out every term; here they are put apart, since channel and polarization change two of them alone.
 */
import { INTERFERENCE_DEFAULTS, type InterferenceTerms } from "../../design/interference.js";
import { Cells } from "../cells.js";
import { coLocatedOf } from "../co-located.js";
import { entryOf } from "../entry.js";
import { type EntryPath, entryPath, pathTermsOf } from "../entry-path.js";
import { Filters, reachHz } from "../filters.js";
import { toNoiseDb } from "../level.js";
import { limitsAt } from "../limits.js";
import type { Asking, NetworkState } from "../network.js";
import { SenderIndex } from "../search.js";
import type { Receiver, Sender } from "../station.js";
import type { HopStations } from "../stations.js";
import { FilterTables } from "./filter-tables.js";
import type { Actor, Choice, Link, Problem, ReceiverToKeep } from "./problem.js";

export interface ChannelOption {
  /** The same for the same channel of the same plan and width. */
  readonly key: string;
  readonly widthHz: number;
  readonly lowHz: number;
  readonly highHz: number;
}

/** A hop with the channels and polarizations that it may be given; one of each: it is fixed. */
export interface HopOptions {
  readonly name: string;
  readonly isOpen: boolean;
  /** The first is that of the stations; none: they are on channels of their own that nobody else is given. */
  readonly channels: readonly ChannelOption[];
  /** On the first channel, on each of its polarizations in turn. */
  readonly stations: readonly HopStations[];
}

/** The same station of an actor on each of its polarizations. */
interface Side<Station> {
  readonly actor: number;
  readonly isOpen: boolean;
  readonly views: readonly Station[];
  /** By channel. */
  readonly frequenciesHz: readonly number[];
}

/** Frequencies that open hops of one half may get; what may meet there is looked at as if it were on one of them. */
interface Band {
  readonly fromHz: number;
  readonly toHz: number;
  readonly widestHz: number;
}

/** @param around lists of others, criteria and coupling losses of the network */
export function* coupled(hops: readonly HopOptions[], around: Omit<NetworkState, "hops">): Asking<Problem> {
  const { actors, senders, receivers } = actorsOf(hops, around);
  const filters = new Filters();
  const tables = new FilterTables(filters);
  const bands = bandsOf(senders);
  const indexes = bands.map((band) => indexOf(senders, band, around, filters));
  const links: Link[] = [];
  for (const [at, receiver] of receivers.entries()) {
    for (const [place, band] of bands.entries()) {
      const there = onBand(receiver, band);
      if (there === undefined) continue;
      const { index, sides } = indexes[place]!;
      const { entries, coLocated } = index.find(there);
      yield undefined;
      for (const stand of [...entries, ...coLocated]) {
        const sender = sides.get(stand)!;
        const filter = tables.between(sender, receiver);
        if (filter === undefined) continue;
        const powers = coLocated.includes(stand)
          ? nearPowers(stand, there, around, filters)
          : farPowers(
              sender,
              receiver,
              { stand, there, filters },
              yield* pathOver(stand, there, around.terms),
            );
        if (powers === undefined) continue;
        links.push({
          sender: sender.actor,
          receiver: at,
          ...powers,
          filter,
          polarizations: receiver.views.length,
          numbers: receiver.frequenciesHz.length,
        });
      }
    }
  }
  const kept = receivers.map(
    ({ actor, views: [first] }): ReceiverToKeep => ({ actor, ...limitsOf(first!, around.terms) }),
  );
  return { actors, receivers: kept, links };
}

function actorsOf(
  hops: readonly HopOptions[],
  { foreign }: Pick<NetworkState, "foreign">,
): {
  readonly actors: readonly Actor[];
  readonly senders: readonly Side<Sender>[];
  readonly receivers: readonly Side<Receiver>[];
} {
  const actors: Actor[] = [];
  const senders: Side<Sender>[] = [];
  const receivers: Side<Receiver>[] = [];
  for (const { name, isOpen, channels, stations } of hops) {
    const actor = actors.push({ name, choices: choicesOf(channels, stations.length) }) - 1;
    const frequencies = (hz: number) =>
      isOpen ? channels.map(({ lowHz, highHz }) => (hz === channels[0]!.highHz ? highHz : lowHz)) : [hz];
    const sides = <S extends Sender | Receiver>(of: (each: HopStations) => readonly S[]) =>
      of(stations[0]!).map((first, index): Side<S> => {
        const views = stations.map((each) => of(each)[index] ?? first);
        return { actor, isOpen, views, frequenciesHz: frequencies(first.frequencyHz) };
      });
    senders.push(...sides((each) => each.senders));
    receivers.push(...sides((each) => each.receivers));
  }
  const others = actors.push({ name: "others", choices: choicesOf([], 1) }) - 1;
  const alone = <S extends Sender | Receiver>(station: S): Side<S> => ({
    actor: others,
    isOpen: false,
    views: [station],
    frequenciesHz: [station.frequencyHz],
  });
  senders.push(...foreign.senders.map(alone));
  receivers.push(...foreign.receivers.map(alone));
  return { actors, senders, receivers };
}

/** Channel by channel, each on its polarizations in turn. */
function choicesOf(channels: readonly ChannelOption[], polarizations: number): readonly Choice[] {
  if (channels.length === 0) return [{ channel: "", widthHz: 0, numberAt: 0, polarizationAt: 0 }];
  return channels.flatMap(({ key, widthHz }, numberAt) =>
    Array.from({ length: polarizations }, (_, polarizationAt) => ({
      channel: key,
      widthHz,
      numberAt,
      polarizationAt,
    })),
  );
}

/** Spans of the open hops' frequencies, those that meet as one. */
function bandsOf(senders: readonly Side<Sender>[]): readonly Band[] {
  const spans = senders
    .filter(({ isOpen }) => isOpen)
    .map(({ frequenciesHz, views: [first] }) => ({
      fromHz: Math.min(...frequenciesHz),
      toHz: Math.max(...frequenciesHz),
      widestHz: first!.bandwidthHz,
    }))
    .sort((a, b) => a.fromHz - b.fromHz);
  const bands: Band[] = [];
  for (const span of spans) {
    const last = bands.at(-1);
    if (last === undefined || span.fromHz > last.toHz) bands.push(span);
    else
      bands[bands.length - 1] = {
        fromHz: last.fromHz,
        toHz: Math.max(last.toHz, span.toHz),
        widestHz: Math.max(last.widestHz, span.widestHz),
      };
  }
  return bands;
}

/** A station as if it were in the middle of a band; undefined: it is out of reach of it. */
function onBand<S extends Sender | Receiver>(
  { views: [first], frequenciesHz, isOpen }: Side<S>,
  { fromHz, toHz, widestHz }: Band,
): S | undefined {
  const beyondHz = isOpen ? 0 : reachHz(first!.bandwidthHz, widestHz);
  const isThere = frequenciesHz.some((hz) => hz >= fromHz - beyondHz && hz <= toHz + beyondHz);
  return isThere ? { ...first!, frequencyHz: (fromHz + toHz) / 2 } : undefined;
}

function indexOf(
  senders: readonly Side<Sender>[],
  band: Band,
  { terms }: Pick<NetworkState, "terms">,
  filters: Filters,
): { readonly index: SenderIndex; readonly sides: ReadonlyMap<Sender, Side<Sender>> } {
  const sides = new Map<Sender, Side<Sender>>();
  for (const side of senders) {
    const stand = onBand(side, band);
    if (stand !== undefined) sides.set(stand, side);
  }
  const { longTermPercent, shortTermPercent, seaLevelN } = pathTermsOf(terms);
  const isShort = terms.shortTermDegradationDb !== undefined || terms.towardOthersShortTermDb !== undefined;
  const percent = isShort ? shortTermPercent : longTermPercent;
  const cells = Cells.of(sides.keys());
  return { index: new SenderIndex(cells, filters, percent, seaLevelN, terms.searchDistanceM), sides };
}

function* pathOver(sender: Sender, receiver: Receiver, terms: InterferenceTerms): Asking<EntryPath> {
  const profile = yield {
    from: sender.place.position,
    to: receiver.place.position,
    stepM: terms.profileStepM ?? INTERFERENCE_DEFAULTS.profileStepM,
  };
  return entryPath(sender, receiver, pathTermsOf(terms), profile);
}

type Powers = Pick<Link, "sum" | "single" | "short">;

interface OnBand {
  readonly stand: Sender;
  readonly there: Receiver;
  readonly filters: Filters;
}

/** What the engine makes of each pair of polarizations, without what its filters take off at one frequency. */
function farPowers(
  sender: Side<Sender>,
  receiver: Side<Receiver>,
  { stand, there, filters }: OnBand,
  path: EntryPath,
): Powers {
  const passDb = toNoiseDb(0, stand, there, filters);
  const entries = sender.views.flatMap(({ polarization: sends }) =>
    receiver.views.map(({ polarization: hears }) =>
      entryOf({ ...stand, polarization: sends }, { ...there, polarization: hears }, path, filters),
    ),
  );
  const powers = (of: (entry: (typeof entries)[number]) => number) =>
    Float64Array.from(entries, (entry) => power(of(entry) - passDb));
  return {
    sum: powers((entry) => entry.inSumToNoiseDb),
    single: powers((entry) => entry.toNoiseDb),
    short: powers((entry) => entry.shortToNoiseDb),
  };
}

/** At one place, where a coupling loss is stated; the same on any polarization. */
function nearPowers(
  stand: Sender,
  there: Receiver,
  { couplings }: Pick<NetworkState, "couplings">,
  filters: Filters,
): Powers | undefined {
  const { toNoiseDb: coupledDb } = coLocatedOf(stand, there, couplings, filters);
  if (coupledDb === undefined) return undefined;
  // Four is the most: two polarizations of each.
  const all = new Float64Array(4).fill(power(coupledDb - toNoiseDb(0, stand, there, filters)));
  return { sum: all, single: all, short: all };
}

function limitsOf(receiver: Receiver, terms: InterferenceTerms): Omit<ReceiverToKeep, "actor"> {
  const { sumDb, singleDb, shortDb } = limitsAt(receiver, terms);
  return {
    ...(sumDb !== undefined && { sum: power(sumDb) }),
    ...(singleDb !== undefined && { single: power(singleDb) }),
    ...(shortDb !== undefined && { short: power(shortDb) }),
  };
}

function power(db: number): number {
  return 10 ** (db / 10);
}
