/** A transmission of the design held against its licence, figure by figure, each with a named tolerance. */
import { type Address, address, nth } from "../design/address.js";
import type { Hop } from "../design/design.js";
import type { Licence } from "../design/licence.js";
import { apart, bandwidth, dbm, decibels, frequency, metres } from "../format/numbers.js";
import { formatDms } from "../geodesy/coordinates.js";
import { inverse } from "../geodesy/geodesic.js";
import { emissionDesignator, readEmission } from "../spectrum/emission-designator.js";
import type { Transmission } from "./transmissions.js";

/** What counts as the same: common practice, no source. Administrations have their own. */
export const TOLERANCES = {
  /** Of frequencies and bandwidths: what registers write. */
  frequencyHz: 1000,
  /** Above the licensed EIRP: what rounding to a tenth leaves. Less is always held. */
  eirpDb: 0.1,
  heightM: 1,
  /** About a second of arc of latitude, the coarsest step in which licences state positions. */
  positionM: 30,
} as const;

type LicensedFigure =
  | "frequency"
  | "bandwidth"
  | "emission"
  | "polarization"
  | "EIRP"
  | "antenna"
  | "height"
  | "position";

/** A granted figure that the design does not keep. */
export interface Departure {
  readonly figure: LicensedFigure;
  readonly granted: string;
  readonly is: string;
  /** The fact of the design that decides it. */
  readonly at: Address;
  /** The statement of the licence that grants it. */
  readonly grantedAt: Address;
}

/**
 * @param licence what it does not state is held against nothing, and so is what the design does not say
 * @returns in the order of `LicensedFigure`
 */
export function departuresOf(hop: Hop, sent: Transmission, licence: Licence): readonly Departure[] {
  const end = (fact: string) => address("hop", hop.name, sent.site, fact);
  const found: Departure[] = [];
  const depart = (figure: LicensedFigure, at: Address, granted: string, is: string) =>
    void found.push({ figure, granted, is, at, grantedAt: `${licence.at} / ${factOf(licence, figure)}` });

  const { frequencyHz, polarization, antenna, antennaHeightM, position, eirpDbm } = licence;
  if (frequencyHz !== undefined && differ(frequencyHz, sent.frequencyHz, TOLERANCES.frequencyHz)) {
    depart(
      "frequency",
      frequencyFact(hop, sent, frequencyHz),
      frequency(frequencyHz),
      frequency(sent.frequencyHz),
    );
  }
  const wide = widthOf(licence);
  if (wide && sent.bandwidthHz !== undefined && sent.bandwidthHz > wide.mostHz) {
    depart("bandwidth", widthFact(hop, sent), wide.granted, bandwidth(sent.bandwidthHz));
  }
  const letters = readEmission(licence.emission ?? "")?.emissionClass;
  const own = readEmission(sent.emission ?? "")?.emissionClass;
  // Letters that the design leaves open are a setting, and no decision against the licence.
  if (hop.emissionClass !== undefined && letters !== undefined && own !== undefined && letters !== own) {
    depart("emission", address("hop", hop.name, "emission-class"), letters, own);
  }
  if (polarization !== undefined && sent.polarization !== undefined && polarization !== sent.polarization) {
    depart("polarization", address("hop", hop.name, "polarization"), polarization, sent.polarization);
  }
  const isOther = antenna !== undefined && sent.antenna !== undefined && antenna !== sent.antenna;
  if (eirpDbm !== undefined && (sent.greatestEirpDbm ?? eirpDbm) > eirpDbm + TOLERANCES.eirpDb) {
    const at = isOther ? end(sent.antennaFact) : powerFact(hop, sent);
    depart("EIRP", at, ...apart(inBoth, eirpDbm, sent.greatestEirpDbm!));
  }
  if (isOther) depart("antenna", end(sent.antennaFact), antenna, sent.antenna!);
  const heightM = sent.antennaHeightM;
  if (
    antennaHeightM !== undefined &&
    heightM !== undefined &&
    differ(antennaHeightM, heightM, TOLERANCES.heightM)
  ) {
    depart("height", end(sent.antennaFact), ...apart(metres, antennaHeightM, heightM));
  }
  if (position !== undefined && sent.position !== undefined) {
    const { distanceM } = inverse({ from: position, to: sent.position });
    if (distanceM > TOLERANCES.positionM + 1e-6)
      depart(
        "position",
        address("site", sent.site, "at"),
        place(position),
        `${place(sent.position)}, ${metres(distanceM)} away`,
      );
  }
  return found;
}

/** A bandwidth may be that of the designator. */
function factOf({ bandwidthHz }: Licence, figure: LicensedFigure): string {
  switch (figure) {
    case "EIRP":
      return "eirp";
    case "position":
      return "at";
    case "bandwidth":
      return bandwidthHz === undefined ? "emission" : "bandwidth";
    default:
      return figure;
  }
}

/** A hair beyond the tolerance is rounding. */
function differ(granted: number, is: number, tolerance: number): boolean {
  return Math.abs(granted - is) > tolerance * (1 + 1e-9);
}

/** The width that is granted: as stated, else that of the designator with what its three numerals round away. */
function widthOf({
  bandwidthHz,
  emission,
}: Licence): { readonly mostHz: number; readonly granted: string } | undefined {
  if (bandwidthHz !== undefined)
    return { mostHz: bandwidthHz + TOLERANCES.frequencyHz, granted: bandwidth(bandwidthHz) };
  const read = readEmission(emission ?? "");
  if (read === undefined) return undefined;
  const { necessaryBandwidthHz: hz } = read;
  const step = 10 ** (Math.floor(Math.log10(hz)) - 2);
  return {
    mostHz: hz + Math.max(step / 2, TOLERANCES.frequencyHz),
    granted: emissionDesignator(hz) ?? bandwidth(hz),
  };
}

/** The line of the channel; where the end sends in the other half, or a plain frequency, its own. */
function frequencyFact(hop: Hop, { site, channel }: Transmission, grantedHz: number): Address {
  const here = address("hop", hop.name, site, "transmits");
  if (channel === undefined) return here;
  const halves = [channel.lowHz, channel.highHz];
  if (halves.some((hz) => hz !== undefined && !differ(hz, grantedHz, TOLERANCES.frequencyHz))) return here;
  return channelFact(hop, channel.number);
}

function channelFact({ name, channel, furtherChannels = [] }: Hop, number: number): Address {
  const index = [channel, ...furtherChannels].findIndex((one) => one?.number === number);
  return address("hop", name, nth("channel", Math.max(0, index)));
}

function widthFact(hop: Hop, { channel }: Transmission): Address {
  return channel === undefined ? modeFact(hop) : channelFact(hop, channel.number);
}

function powerFact(hop: Hop, { site, at }: Transmission): Address {
  const stated = hop.ends[at].transmitPowerDbm !== undefined;
  return stated ? address("hop", hop.name, site, "power") : modeFact(hop);
}

function modeFact({ name, modes }: Hop): Address {
  return address("hop", name, modes.length > 1 ? "modes" : "mode");
}

/** A licence may be in either unit. */
function inBoth(powerDbm: number, moreDigits = 0): string {
  return `${dbm(powerDbm, moreDigits)} (${decibels(powerDbm - 30, moreDigits)}W)`;
}

function place({ latitudeDeg, longitudeDeg }: NonNullable<Licence["position"]>): string {
  return `${formatDms(latitudeDeg, "latitude")} ${formatDms(longitudeDeg, "longitude")}`;
}
