/** What a licence grants beside what the design has, figure by figure: for pages and hovers. */
import { daysBetween } from "../design/day.js";
import type { Licence } from "../design/licence.js";
import { bandwidth, dbm, decibels, frequency, metres } from "../format/numbers.js";
import { formatDms } from "../geodesy/coordinates.js";
import type { Departure } from "./departures.js";
import type { Held } from "./held.js";
import type { Transmission } from "./transmissions.js";

export interface LicensedRow {
  readonly figure: Departure["figure"];
  readonly granted: string;
  /** Undefined: the design does not say. */
  readonly is?: string;
  /** The design does not keep it. */
  readonly departs: boolean;
}

/** What is stated, in the order of the language. */
export function licensedRows({ licence, sent, departures }: Held): readonly LicensedRow[] {
  if (licence === undefined) return [];
  return FIGURES.flatMap(([figure, granted, is]): LicensedRow[] => {
    const told = granted(licence);
    const departs = departures.some((one) => one.figure === figure || isOfDesignator(one, figure, licence));
    return told === undefined ? [] : [{ figure, granted: told, is: is(sent), departs }];
  });
}

/** Without a bandwidth of its own that of the designator counts. */
function isOfDesignator(one: Departure, figure: Departure["figure"], { bandwidthHz }: Licence): boolean {
  return figure === "emission" && one.figure === "bandwidth" && bandwidthHz === undefined;
}

type Row = readonly [
  figure: Departure["figure"],
  granted: (licence: Licence) => string | undefined,
  is: (sent: Transmission) => string | undefined,
];

const FIGURES: readonly Row[] = [
  [
    "frequency",
    ({ frequencyHz }) => told(frequencyHz, frequency),
    ({ frequencyHz }) => frequency(frequencyHz),
  ],
  [
    "bandwidth",
    ({ bandwidthHz }) => told(bandwidthHz, bandwidth),
    (sent) => told(sent.bandwidthHz, bandwidth),
  ],
  ["emission", ({ emission }) => emission, ({ emission }) => emission],
  ["polarization", ({ polarization }) => polarization, ({ polarization }) => polarization],
  ["EIRP", ({ eirpDbm }) => told(eirpDbm, inBoth), ({ greatestEirpDbm }) => told(greatestEirpDbm, inBoth)],
  ["antenna", ({ antenna }) => antenna, ({ antenna }) => antenna],
  [
    "height",
    ({ antennaHeightM }) => told(antennaHeightM, metres),
    (sent) => told(sent.antennaHeightM, metres),
  ],
  ["position", ({ position }) => told(position, place), ({ position }) => told(position, place)],
];

/** `until 2030-06-30, 1308 days left`, `ended on 2026-05-01`, `without an end`. @param today ISO date */
export function lastsWords({ since, until }: Licence, today: string | undefined): string {
  if (today === undefined) return until === undefined ? "without an end" : `until ${until}`;
  const begins = since !== undefined && since > today ? `from ${since} on, ` : "";
  if (until === undefined) return `${begins}without an end`;
  if (until < today) return `ended on ${until}`;
  return `${begins}until ${until}, ${daysLeft(until, today)}`;
}

/** The last day itself is one of them. */
export function daysLeft(until: string, today: string): string {
  const days = daysBetween(today, until);
  return days === 1 ? "1 day left" : `${days} days left`;
}

function told<T>(value: T | undefined, write: (value: T) => string): string | undefined {
  return value === undefined ? undefined : write(value);
}

/** A licence may be in either unit. */
function inBoth(powerDbm: number): string {
  return `${dbm(powerDbm)} (${decibels(powerDbm - 30)}W)`;
}

function place({ latitudeDeg, longitudeDeg }: NonNullable<Licence["position"]>): string {
  return `${formatDms(latitudeDeg, "latitude")} ${formatDms(longitudeDeg, "longitude")}`;
}
