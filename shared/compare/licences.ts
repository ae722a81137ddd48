/** What an administration was told of each transmission, and what of it is no longer true. */
import type { Polarization } from "../design/design.js";
import type { Licence } from "../design/licence.js";
import { bandwidth, dbm, degrees, frequency, metres, trimmed } from "../format/numbers.js";
import type { Departure } from "../licence/departures.js";
import { type Held, heldHop } from "../licence/held.js";
import type { Transmission } from "../licence/transmissions.js";
import { pairedByAir } from "./carriers.js";
import type { EvaluatedHop } from "./consequences.js";

/** What both sides of a design state of licences. */
export interface StatedLicences {
  readonly was: readonly Licence[];
  readonly is: readonly Licence[];
  /** ISO date: of two licences for the same the one in force counts. */
  readonly day: string;
}

const NONE_STATED: StatedLicences = { was: [], is: [], day: "" };

export interface LicenceChange {
  readonly hop: string;
  /** Transmitting site. */
  readonly site: string;
  readonly action: "license" | "amend" | "cancel";
  /** Number of the licence that it rests on, where one is stated. */
  readonly licence?: string;
  /** For example `18.565 GHz, 55 MHz, vertical`: of the new side, of the old one where it is cancelled. */
  readonly transmission: string;
  readonly frequencyHz: number;
  readonly polarization?: Polarization;
  /** When it is amended: figures that differ; of a stated licence those that it grants and the new side does not keep. */
  readonly figures: readonly { readonly label: string; readonly was?: string; readonly is?: string }[];
}

/**
 * Two sides of one hop; undefined where it does not exist or cannot be evaluated. A transmission that rests on a stated
 * licence has to be amended where it no longer keeps what is granted, and not where it changes within that.
 * @param stated licences of the hop on both sides
 */
export function licenceChanges(
  was: EvaluatedHop | undefined,
  is: EvaluatedHop | undefined,
  siteNow: (site: string) => string,
  stated: StatedLicences = NONE_STATED,
): LicenceChange[] {
  const before = (was ? licensedOf(was, stated.was, stated.day) : []).map((one) => ({
    ...one,
    site: siteNow(one.site),
  }));
  const after = is ? licensedOf(is, stated.is, stated.day) : [];
  const pairs = paired(before, after);
  const changes = after.flatMap((now): LicenceChange[] => {
    const then = pairs.get(now);
    if (now.licence !== undefined) {
      const figures = departuresSince(then, now);
      return figures.length > 0 ? [{ ...change(now, "amend"), figures }] : [];
    }
    if (then === undefined) return [change(now, "license")];
    const figures = figureChanges(then, now);
    return figures.length > 0 ? [{ ...change(now, "amend"), figures }] : [];
  });
  const kept = new Set(pairs.values());
  return [...changes, ...before.filter((one) => !kept.has(one)).map((one) => change(one, "cancel"))];
}

/** What the new side does not keep of its licence, and kept before or departed from otherwise. */
function departuresSince(then: Licensed | undefined, now: Licensed): LicenceChange["figures"] {
  const known = then?.licence === now.licence ? (then?.departures ?? []) : [];
  return now.departures
    .filter(({ figure, is }) => !known.some((one) => one.figure === figure && one.is === is))
    .map(({ figure, granted, is }) => ({ label: figure, was: granted, is }));
}

interface Licensed {
  readonly hop: string;
  readonly site: string;
  readonly frequencyHz: number;
  readonly polarization?: Polarization;
  readonly summary: string;
  readonly figures: readonly Figure[];
  /** Number of the licence that it rests on. */
  readonly licence?: string;
  readonly departures: readonly Departure[];
}

interface Figure {
  readonly label: string;
  readonly text?: string;
  readonly value?: number;
  readonly step?: number;
}

/** A transmission is known by its site and what is on the air; the order of carriers and of lines says nothing. */
function paired(
  before: readonly Licensed[],
  after: readonly Licensed[],
): Map<Licensed, Licensed | undefined> {
  const sites = new Set([...before, ...after].map(({ site }) => site));
  const at = (all: readonly Licensed[], site: string) => all.filter((one) => one.site === site);
  return new Map([...sites].flatMap((site) => [...pairedByAir(at(before, site), at(after, site))]));
}

function figureChanges(was: Licensed, is: Licensed): LicenceChange["figures"] {
  const changed = is.figures.flatMap((now, index) => {
    const then = was.figures[index]!;
    return differ(then, now) ? [{ label: now.label, was: then.text, is: now.text }] : [];
  });
  // Where one mode is both the judged and the strongest, its power is told once.
  const [licensed] = changed.filter(({ label }) => label === LICENSED);
  return changed.filter(
    ({ label, was, is }) => label !== JUDGED || was !== licensed?.was || is !== licensed?.is,
  );
}

function differ(was: Figure, is: Figure): boolean {
  return is.value === undefined || was.value === undefined || is.step === undefined
    ? is.text !== was.text
    : Math.abs(is.value - was.value) >= is.step * (1 - 5e-7);
}

const LICENSED = "greatest EIRP";
const JUDGED = "EIRP in the judged mode";

/** One a carrier and end, in an order of their own. */
function licensedOf({ hop, result }: EvaluatedHop, licences: readonly Licence[], day: string): Licensed[] {
  const all = heldHop(hop, result, licences, day).held;
  return ([0, 1] as const).flatMap((at) =>
    all
      .filter(({ sent }) => sent.at === at)
      .map(licensedAs)
      .toSorted(
        (a, b) =>
          a.frequencyHz - b.frequencyHz ||
          (a.summary < b.summary ? -1 : a.summary > b.summary ? 1 : 0) ||
          licensedDbm(a) - licensedDbm(b),
      ),
  );
}

function licensedAs({ sent, licence, departures }: Held): Licensed {
  const { hop, site, frequencyHz, polarization, bandwidthHz, azimuthDeg } = sent;
  const figures: Figure[] = [
    { label: "frequency", text: frequency(frequencyHz) },
    { label: "bandwidth", text: bandwidthHz === undefined ? undefined : bandwidth(bandwidthHz) },
    { label: "polarization", text: polarization },
    power(LICENSED, sent.greatestEirpDbm),
    power(JUDGED, sent.judgedEirpDbm),
    { label: "antenna", text: sent.antenna },
    { label: "antenna height", text: heightText(sent) },
    { label: "antenna of the standby unit", text: standbyText(sent) },
    {
      label: "azimuth",
      text: azimuthDeg === undefined ? undefined : degrees(azimuthDeg),
      value: azimuthDeg,
      step: 0.01,
    },
    { label: "position", text: positionText(sent.position) },
  ];
  const summary = figures
    .slice(0, 3)
    .flatMap(({ text }) => text ?? [])
    .join(", ");
  return { hop, site, frequencyHz, polarization, summary, figures, licence: licence?.number, departures };
}

function power(label: string, value: number | undefined): Figure {
  return { label, text: value === undefined ? undefined : dbm(value), value, step: 0.1 };
}

function licensedDbm({ figures }: Licensed): number {
  return figures.find(({ label }) => label === LICENSED)?.value ?? 0;
}

function heightText({ antennaHeightM }: Pick<Transmission, "antennaHeightM">): string | undefined {
  return antennaHeightM === undefined ? undefined : metres(antennaHeightM);
}

function standbyText({ standby }: Transmission): string | undefined {
  const height = standby && heightText(standby);
  return height === undefined ? standby?.antenna : `${standby!.antenna} at ${height}`;
}

/** To about a metre, as licences state it. */
function positionText(
  position: { readonly latitudeDeg: number; readonly longitudeDeg: number } | undefined,
): string | undefined {
  return position && `${trimmed(position.latitudeDeg, 5)} ${trimmed(position.longitudeDeg, 5)}`;
}

function change(transmission: Licensed, action: LicenceChange["action"]): LicenceChange {
  const { hop, site, summary, frequencyHz, polarization, licence } = transmission;
  const told = { hop, site, action, transmission: summary, frequencyHz, polarization, figures: [] };
  return licence === undefined ? told : { ...told, licence };
}
