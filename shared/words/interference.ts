/** How senders and receivers are called where people read. */
import type { ModeResult } from "../evaluate/account/level-result.js";
import { decibels, frequency, kilometres } from "../format/numbers.js";
import { withoutSteering } from "../format/steering.js";
import type { Entry } from "../interference/entry.js";
import { isOwn, type Owner, type Receiver, type Sender } from "../interference/station.js";

/** `KELD-TARN at KELD`, or `a transmission of others, "north relay", line 12 of register.csv` */
export function senderWords({ of, place }: Pick<Sender, "of" | "place">): string {
  return isOwn(of) ? `${of.hop} at ${place.site}` : foreignWords(of);
}

export function foreignWords(of: Exclude<Owner, { readonly hop: string }>): string {
  const name = of.name === undefined ? "" : ` "${plainName(of.name)}",`;
  return `a transmission of others,${name} ${lineWords(of)}`;
}

/** `line 12 of register.csv` */
export function lineWords({ line, file }: Exclude<Owner, { readonly hop: string }>): string {
  return file === undefined ? `line ${line}` : `line ${line} of ${plainName(file)}`;
}

/** Longer names of others end here; their line is told beside them. */
const MOST_OF_NAME = 40;

/** A name from a list that somebody else wrote: short, on one line, and nothing in it turns the direction. */
export function plainName(name: string): string {
  const plain = withoutSteering(name, () => "\ufffd");
  const signs = [...plain];
  return signs.length > MOST_OF_NAME ? `${signs.slice(0, MOST_OF_NAME).join("")}…` : plain;
}

/** `KELD, 18.92 GHz, vertical` */
export function receiverWords({ of, place, frequencyHz, polarization }: Receiver): string {
  const where = isOwn(of) ? place.site : foreignWords(of);
  return [where, frequency(frequencyHz), polarization].filter((part) => part !== undefined).join(", ");
}

/** The strongest entry as the end of a sentence. */
export function entryWords({
  sender,
  path,
  relation,
  offsetHz,
  leavesOffAxisDeg,
  arrivesOffAxisDeg,
}: Entry): string {
  const offset = isSameFrequency(offsetHz)
    ? "on the same frequency"
    : `${frequency(Math.abs(offsetHz))} apart`;
  const looking = isAimed(sender) ? `${degrees(leavesOffAxisDeg)} off its axis` : "taken as looking this way";
  return `${senderWords(sender)}, ${offset}, ${relationWords(relation)}, ${kilometres(path.distanceM)} away, ${looking} and ${degrees(arrivesOffAxisDeg)} off this axis`;
}

/** Whether it is known where the antenna looks; else it counts with its whole gain everywhere. */
export function isAimed({ place }: Pick<Sender, "place">): boolean {
  return place.boresight !== undefined;
}

export function isSameFrequency(offsetHz: number): boolean {
  return Math.abs(offsetHz) < 1;
}

export function relationWords(relation: Entry["relation"]): string {
  return RELATION[relation];
}

/** Least that a threshold is told to be raised by: the last digit printed. */
const LEAST_TOLD_DB = 0.05;

/** By how much interference raises a threshold, where it can be seen in the figures. */
export function isRaised({ degradationDb = 0 }: Pick<ModeResult, "degradationDb">): boolean {
  return degradationDb >= LEAST_TOLD_DB;
}

/** Whether the degradation that counts is stated or computed: the greater counts. */
export function degradationOrigin({
  degradationDb = 0,
  computedDegradationDb: computedDb,
}: Pick<ModeResult, "degradationDb" | "computedDegradationDb">): string {
  if (computedDb === undefined) return "as stated";
  if (computedDb >= degradationDb) return "as computed from what others send";
  return `as stated; computed are ${decibels(computedDb)}`;
}

const RELATION = {
  parallel: "same polarization",
  crossed: "crossed polarization",
  oblique: "polarizations at 45°",
} as const;

function degrees(value: number): string {
  return `${value.toFixed(1)}°`;
}
