/** What takes interference off a receiver, the least change first; each is tried on the whole network before it is offered. */
import { address } from "../../design/address.js";
import type { Hop, HopEnd } from "../../design/design.js";
import type { Fix } from "../../design/fact-change.js";
import { transmitPowerDbm } from "../../evaluate/level/levels.js";
import { trimmed } from "../../format/numbers.js";
import { reachHz } from "../../interference/filters.js";
import { limitsAt } from "../../interference/limits.js";
import type { InterferenceAt } from "../../interference/receiver-result.js";
import { isOwn } from "../../interference/station.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import { DEFAULT_CAP_DB } from "../../spectrum/net-filter-discrimination.js";
import { largerAntennasAt } from "./antennas.js";
import { exchangeHalves } from "./halves.js";
import { decision, type Mending } from "./mending.js";
import { channelsFor } from "./radio-or-channel.js";

/** So many channels of each hop are tried, and antennas of each end. */
const MOST_CHANNELS = 2;
const MOST_ANTENNAS = 1;
/** Nobody lowers a power by more. */
const MOST_LESS_DB = 30;

/** @param at the receiver that suffers */
export function lessInterference(mending: Mending, at: InterferenceAt): readonly Fix[] {
  const causing = strongestOwn(mending, at);
  const suffering = endOf(mending, at.receiver);
  const both = [suffering, causing].filter((one) => one !== undefined);
  const each = <T>(made: (hop: Hop) => readonly T[]) => both.flatMap(({ hop }) => made(hop));
  return [
    ...(causing ? [...powerControl(causing), ...lessPower(causing, at)] : []),
    ...each((hop) => told(mending, hop, otherPolarization(hop))),
    ...each((hop) => told(mending, hop, otherChannels(mending, hop, at))),
    ...each((hop) => exchangeHalves({ ...mending, hop })),
    ...[causing, suffering].flatMap((one) =>
      one === undefined
        ? []
        : told(mending, one.hop, largerAntennasAt(mending, one.hop, one.end).slice(0, MOST_ANTENNAS)),
    ),
  ];
}

interface EndOfHop {
  readonly hop: Hop;
  readonly end: HopEnd;
}

function endOf({ design }: Mending, { of, place }: InterferenceAt["receiver"]): EndOfHop | undefined {
  const hop = isOwn(of) ? design.hops.get(of.hop) : undefined;
  const end = hop?.ends.find(({ site }) => site.name === place.site);
  return hop && end && { hop, end };
}

/** The end of this design that brings most; undefined: it is others'. */
function strongestOwn({ design }: Mending, { entries }: InterferenceAt): EndOfHop | undefined {
  const [entry] = entries;
  if (entry === undefined || !isOwn(entry.sender.of)) return undefined;
  const hop = design.hops.get(entry.sender.of.hop);
  const end = hop?.ends.find(({ site }) => site.name === entry.sender.place.site);
  return hop && end && { hop, end };
}

/** Of another hop than the one the finding stands on its name is told. */
function told({ hop: here }: Mending, { name }: Hop, fixes: readonly Fix[]): readonly Fix[] {
  return name === here?.name ? fixes : fixes.map((fix) => ({ ...fix, title: `${name}: ${fix.title}` }));
}

function powerControl({ hop, end }: EndOfHop): readonly Fix[] {
  const rangeDb = hop.radio?.powerControlRangeDb ?? 0;
  if (!(rangeDb > 0) || (end.powerControl !== undefined && end.powerControl.reductionDb !== 0)) return [];
  const { name } = end.site;
  return [
    decision(`Use power control at ${name} in ${hop.name} (lowers the power while nothing fades)`, {
      do: "state",
      in: address("hop", hop.name, name),
      line: "power-control yes",
    }),
  ];
}

/** As much less as the criteria ask for, to a whole dB. */
function lessPower({ hop, end }: EndOfHop, at: InterferenceAt): readonly Fix[] {
  const powers = hop.modes.flatMap((mode) => transmitPowerDbm(end, mode) ?? []);
  const lessDb = reductionWanted(at, { hop: hop.name, site: end.site.name });
  if (powers.length === 0 || lessDb === undefined || !(lessDb > 0 && lessDb <= MOST_LESS_DB)) return [];
  const dbm = Math.floor(Math.max(...powers) - lessDb);
  const { name } = end.site;
  return [
    decision(`Lower the power to ${trimmed(dbm, 0)} dBm at ${name} in ${hop.name} (changes the licence)`, {
      do: "state",
      in: address("hop", hop.name, name),
      line: `power ${trimmed(dbm, 1)} dBm`,
    }),
  ];
}

/**
 * How much weaker the senders of one end have to come in, dB; undefined where all others bring too much already.
 *
 *     r = 10 log(s/(limit - rest))    of a sum;    r = I/N - limit    of one entry
 */
function reductionWanted(
  { entries, receiver, terms, toNoiseDb, cutToNoiseDb }: InterferenceAt,
  { hop, site }: { readonly hop: string; readonly site: string },
): number | undefined {
  const limits = limitsAt(receiver, terms);
  const ofEnd = entries.filter(
    ({ sender: { of, place } }) => isOwn(of) && of.hop === hop && place.site === site,
  );
  const most = (of: (typeof ofEnd)[number][], db: (one: (typeof ofEnd)[number]) => number) =>
    Math.max(...of.map(db));
  const wanted = [
    limits.singleDb === undefined ? 0 : most(ofEnd, (one) => one.toNoiseDb) - limits.singleDb,
    limits.shortDb === undefined ? 0 : most(ofEnd, (one) => one.shortToNoiseDb) - limits.shortDb,
  ];
  if (limits.sumDb !== undefined && toNoiseDb !== undefined) {
    const own = ofEnd.reduce((sum, one) => sum + power(one.inSumToNoiseDb), 0);
    const left = power(limits.sumDb) - (power(toNoiseDb) - own);
    // What was cut stays in the sum as it could at most be, and is not lowered.
    if (!(left > 0) || (cutToNoiseDb !== undefined && power(cutToNoiseDb) >= power(limits.sumDb)))
      return undefined;
    wanted.push(10 * Math.log10(own / left));
  }
  return Math.max(...wanted);
}

function power(db: number): number {
  return 10 ** (db / 10);
}

/** Of a hop on one polarization. */
function otherPolarization(hop: Hop): readonly Fix[] {
  const { polarization } = hop;
  if (polarization !== "vertical" && polarization !== "horizontal") return [];
  if (hop.ends.some((end) => factsAt(hop, end)?.polarizations !== 1)) return [];
  const other = polarization === "vertical" ? "horizontal" : "vertical";
  return [
    decision(`Take ${other} polarization (changes the licence and the mounting)`, {
      do: "state",
      in: address("hop", hop.name),
      line: `polarization ${other}`,
    }),
  ];
}

/** Those first that filters keep apart far enough, and that no other hop at either site has. */
function otherChannels(mending: Mending, hop: Hop, at: InterferenceAt): readonly Fix[] {
  const sites = new Set(hop.ends.map(({ site }) => site.name));
  const taken = new Set<number>();
  for (const other of mending.design.hops.values()) {
    if (other.name === hop.name || !other.ends.some(({ site }) => sites.has(site.name))) continue;
    for (const { transmitFrequencyHz } of other.ends) taken.add(transmitFrequencyHz ?? 0);
  }
  const frequencies = hop.ends.flatMap(({ transmitFrequencyHz }) => transmitFrequencyHz ?? []);
  const lowHz = Math.min(...frequencies);
  const leastHz = leastShiftHz(at);
  const faults = (one: { readonly lowHz: number; readonly highHz: number }) =>
    2 * Number(Math.abs(one.lowHz - lowHz) <= leastHz) +
    Number(taken.has(one.lowHz) || taken.has(one.highHz));
  return channelsFor({ ...mending, hop }, (a, b) => faults(a) - faults(b)).slice(0, MOST_CHANNELS);
}

/** Where the most that filters are trusted with leaves too much, a channel has to be out of their reach. */
function leastShiftHz({ entries: [entry], receiver, terms, toNoiseDb = 0 }: InterferenceAt): number {
  const { sumDb, singleDb, shortDb } = limitsAt(receiver, terms);
  const limitDb = Math.min(...[sumDb, singleDb, shortDb].filter((db) => db !== undefined));
  const leftDb = toNoiseDb + (entry?.filterDb ?? 0) - DEFAULT_CAP_DB;
  return entry !== undefined && leftDb > limitDb
    ? reachHz(entry.sender.bandwidthHz, receiver.bandwidthHz)
    : 0;
}
