/** What an administration was told of each transmission, and what of it is no longer true. */
import type { Polarization } from "../design/design.js";
import type { CarrierEnd, CarrierResult } from "../evaluate/account/carrier-result.js";
import { bandwidth, dbm, degrees, frequency, metres, trimmed } from "../format/numbers.js";
import { pairedByAir } from "./carriers.js";
import type { EvaluatedHop } from "./consequences.js";

export interface LicenceChange {
  readonly hop: string;
  /** Transmitting site. */
  readonly site: string;
  readonly action: "license" | "amend" | "cancel";
  /** For example `18.565 GHz, 55 MHz, vertical`: of the new side, of the old one where it is cancelled. */
  readonly transmission: string;
  readonly frequencyHz: number;
  readonly polarization?: Polarization;
  /** Figures that differ, when it is amended. */
  readonly figures: readonly { readonly label: string; readonly was?: string; readonly is?: string }[];
}

/** Two sides of one hop; undefined where it does not exist or cannot be evaluated. */
export function licenceChanges(
  was: EvaluatedHop | undefined,
  is: EvaluatedHop | undefined,
  siteNow: (site: string) => string,
): LicenceChange[] {
  const before = (was ? transmissionsOf(was) : []).map((one) => ({ ...one, site: siteNow(one.site) }));
  const after = is ? transmissionsOf(is) : [];
  const pairs = paired(before, after);
  const changes = after.flatMap((now): LicenceChange[] => {
    const then = pairs.get(now);
    if (then === undefined) return [change(now, "license")];
    const figures = figureChanges(then, now);
    return figures.length > 0 ? [{ ...change(now, "amend"), figures }] : [];
  });
  const kept = new Set(pairs.values());
  return [...changes, ...before.filter((one) => !kept.has(one)).map((one) => change(one, "cancel"))];
}

interface Transmission {
  readonly hop: string;
  readonly site: string;
  readonly frequencyHz: number;
  readonly polarization?: Polarization;
  readonly summary: string;
  readonly figures: readonly Figure[];
}

interface Figure {
  readonly label: string;
  readonly text?: string;
  readonly value?: number;
  readonly step?: number;
}

/** A transmission is known by its site and what is on the air; the order of carriers and of lines says nothing. */
function paired(
  before: readonly Transmission[],
  after: readonly Transmission[],
): Map<Transmission, Transmission | undefined> {
  const sites = new Set([...before, ...after].map(({ site }) => site));
  const at = (all: readonly Transmission[], site: string) => all.filter((one) => one.site === site);
  return new Map([...sites].flatMap((site) => [...pairedByAir(at(before, site), at(after, site))]));
}

function figureChanges(was: Transmission, is: Transmission): LicenceChange["figures"] {
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

const LICENSED = "greatest EIRP, licensed";
const JUDGED = "EIRP in the judged mode";

/** One a carrier and end, in an order of their own. Without a frequency there is nothing to license yet. */
function transmissionsOf(hop: EvaluatedHop): Transmission[] {
  const { carriers } = hop.result;
  return ([0, 1] as const).flatMap((at) => {
    const sent = carriers.flatMap((carrier): Sent[] => {
      const frequencyHz = carrier.ends[at].transmitHz;
      return frequencyHz === undefined ? [] : [{ carrier, end: carrier.ends[at], frequencyHz }];
    });
    return onBothPolarizations(sent)
      .map((one) => transmissionOf(hop, at, one))
      .toSorted(
        (a, b) =>
          a.frequencyHz - b.frequencyHz ||
          (a.summary < b.summary ? -1 : a.summary > b.summary ? 1 : 0) ||
          licensedDbm(a) - licensedDbm(b),
      );
  });
}

interface Sent {
  readonly carrier: Pick<CarrierResult, "widthHz" | "polarization">;
  readonly end: CarrierEnd;
  readonly frequencyHz: number;
}

/**
 * Two carriers on one channel have both polarizations, stated or not. Which has which is not known then, so either
 * is told with the greater EIRP.
 */
function onBothPolarizations(sent: readonly Sent[]): Sent[] {
  const byFrequency = Map.groupBy(sent, ({ frequencyHz }) => frequencyHz);
  return [...byFrequency.values()].flatMap((those) => {
    const [one, other] = those;
    if (other === undefined || those.some(({ carrier }) => carrier.polarization !== undefined)) return those;
    const strong = (other.end.licensedEirpDbm ?? 0) > (one!.end.licensedEirpDbm ?? 0) ? other : one!;
    return (["vertical", "horizontal"] as const).map((polarization) => ({
      ...strong,
      carrier: { ...strong.carrier, polarization },
    }));
  });
}

function transmissionOf({ hop, result }: EvaluatedHop, at: 0 | 1, sent: Sent): Transmission {
  const { end, frequencyHz } = sent;
  const { widthHz, polarization } = sent.carrier;
  const azimuthDeg = result.geometry?.[at]?.azimuthDeg;
  const figures: Figure[] = [
    { label: "frequency", text: frequency(frequencyHz) },
    { label: "bandwidth", text: widthHz === undefined ? undefined : bandwidth(widthHz) },
    { label: "polarization", text: polarization },
    power(LICENSED, end.licensedEirpDbm),
    power(JUDGED, end.eirp?.judgedDbm),
    { label: "antenna", text: end.antenna },
    { label: "antenna height", text: heightText(end) },
    { label: "antenna of the standby unit", text: secondAntenna(end) },
    {
      label: "azimuth",
      text: azimuthDeg === undefined ? undefined : degrees(azimuthDeg),
      value: azimuthDeg,
      step: 0.01,
    },
    { label: "position", text: positionText(hop.ends[at].site.position) },
  ];
  const summary = figures
    .slice(0, 3)
    .flatMap(({ text }) => text ?? [])
    .join(", ");
  return { hop: hop.name, site: end.site, frequencyHz, polarization, summary, figures };
}

function power(label: string, value: number | undefined): Figure {
  return { label, text: value === undefined ? undefined : dbm(value), value, step: 0.1 };
}

function licensedDbm({ figures }: Transmission): number {
  return figures.find(({ label }) => label === LICENSED)?.value ?? 0;
}

function heightText({ antennaHeightM }: Pick<CarrierEnd, "antennaHeightM">): string | undefined {
  return antennaHeightM === undefined ? undefined : metres(antennaHeightM);
}

/** Where the standby unit does not send from the same. */
function secondAntenna({ antenna, antennaHeightM, standby }: CarrierEnd): string | undefined {
  if (standby?.antenna === undefined) return undefined;
  if (standby.antenna === antenna && standby.antennaHeightM === antennaHeightM) return undefined;
  const height = heightText(standby);
  return height === undefined ? standby.antenna : `${standby.antenna} at ${height}`;
}

/** To about a metre, as licences state it. */
function positionText(
  position: { readonly latitudeDeg: number; readonly longitudeDeg: number } | undefined,
): string | undefined {
  return position && `${trimmed(position.latitudeDeg, 5)} ${trimmed(position.longitudeDeg, 5)}`;
}

function change(transmission: Transmission, action: LicenceChange["action"]): LicenceChange {
  const { hop, site, summary, frequencyHz, polarization } = transmission;
  return { hop, site, action, transmission: summary, frequencyHz, polarization, figures: [] };
}
