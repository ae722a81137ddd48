/**
 * What each end of a hop puts on the air, as an administration asks for it: a row a carrier and direction. Schedule,
 * licences and comparison all tell of transmissions from here, so that they cannot disagree.
 */
import type { Channel, HalfOfBand, Hop, HopEnd, Polarization, Position } from "../design/design.js";
import { type Stand, standsOf } from "../equipment/stands.js";
import type { CarrierEnd, CarrierResult } from "../evaluate/account/carrier-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { carriersOf } from "../evaluate/level/carriers.js";
import { transmitPowerDbm } from "../evaluate/level/levels.js";
import { antennaGain } from "../radio/antenna-gain.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { SINGLE } from "../radio/arrangements.js";
import { emissionDesignator, readEmission } from "../spectrum/emission-designator.js";

/** Modulation, signal and information of an emission whose class the design leaves open: QAM; common practice, from memory. */
export const USUAL_EMISSION_CLASS = "D7W";

export interface Transmission {
  readonly hop: string;
  /** Transmitting site. */
  readonly site: string;
  readonly farSite: string;
  /** The transmitting end of the hop: 0 or 1. */
  readonly at: 0 | 1;
  /** From 1, in the order of the arrangement. */
  readonly carrier: number;
  /** Undefined: the end states a plain frequency. */
  readonly channel?: Channel;
  readonly half?: HalfOfBand;
  /** Centre. */
  readonly frequencyHz: number;
  /** Undefined: not stated. */
  readonly polarization?: Polarization;
  /** Of the channel, else of the widest mode: what is taken for the necessary bandwidth. */
  readonly bandwidthHz?: number;
  /** For example `55M0D7W`. */
  readonly emission?: string;
  /** At the unit, of any mode. */
  readonly powerDbm?: number;
  /** What lies between the unit and its antenna, 0 or more; undefined: not known. */
  readonly lossDb?: number;
  /** What power control takes off while nothing fades. */
  readonly reductionDb?: number;
  /** Of any mode, of the unit and its standby: what a licence is for. */
  readonly greatestEirpDbm?: number;
  /** In the mode that the objective is held against. */
  readonly judgedEirpDbm?: number;
  /** The greatest, less what power control takes off while nothing fades; undefined: there is none, or its range is not known. */
  readonly controlledEirpDbm?: number;
  readonly antenna?: string;
  /** The fact that states the antenna: `antenna`, `second-antenna`. */
  readonly antennaFact: string;
  readonly gainDbi?: number;
  /** At half power, of the catalogue. */
  readonly beamwidthDeg?: number;
  /** Centre of the antenna above ground. */
  readonly antennaHeightM?: number;
  /** From true north, to the far antenna. */
  readonly azimuthDeg?: number;
  readonly elevationDeg?: number;
  readonly position?: Position;
  readonly groundM?: number;
  /** Antenna of the muted unit that may send in its place, where that is another one. */
  readonly standby?: { readonly antenna: string; readonly antennaHeightM?: number };
}

/**
 * One a carrier and end, in the order of the ends and of the arrangement. Without a frequency, and as long as no channel
 * is chosen, there is nothing to tell yet.
 *
 * Two carriers on one channel have both polarizations, stated or not. Which has which is not known then, so either is
 * told with the greater EIRP.
 * @param result of the hop; undefined: what the hop alone tells
 */
export function transmissionsOf(
  hop: Hop,
  result: Pick<HopResult, "carriers" | "geometry"> | undefined,
): readonly Transmission[] {
  if (hop.openChannel !== undefined) return [];
  const carriers = result?.carriers ?? carriersOf(hop, []);
  return ([0, 1] as const).flatMap((at) => {
    const sent = carriers.flatMap((carrier, index): Sent[] => {
      const end = carrier.ends[at];
      const frequencyHz = end.transmitHz;
      if (frequencyHz === undefined || !(frequencyHz > 0)) return [];
      return [{ carrier, number: index + 1, end, frequencyHz }];
    });
    return onBothPolarizations(sent).map((one) => transmissionOf(hop, result, at, one));
  });
}

interface Sent {
  readonly carrier: Pick<CarrierResult, "widthHz" | "polarization" | "channel">;
  readonly number: number;
  readonly end: CarrierEnd;
  readonly frequencyHz: number;
}

function onBothPolarizations(sent: readonly Sent[]): Sent[] {
  const byFrequency = Map.groupBy(sent, ({ frequencyHz }) => frequencyHz);
  return [...byFrequency.values()].flatMap((those) => {
    const [one, other] = those;
    if (other === undefined || those.some(({ carrier }) => carrier.polarization !== undefined)) return those;
    const strong = (other.end.licensedEirpDbm ?? 0) > (one!.end.licensedEirpDbm ?? 0) ? other : one!;
    return (["vertical", "horizontal"] as const).map((polarization, index) => ({
      ...strong,
      number: those[index]!.number,
      carrier: { ...strong.carrier, polarization },
    }));
  });
}

function transmissionOf(
  hop: Hop,
  result: Pick<HopResult, "geometry"> | undefined,
  at: 0 | 1,
  { carrier, number, end, frequencyHz }: Sent,
): Transmission {
  const stated = hop.ends[at];
  const seen = result?.geometry?.[at];
  const stand = standOf(hop, stated, end.antennaNumber);
  const { widthHz } = carrier;
  const greatestEirpDbm = end.licensedEirpDbm;
  const reductionDb = reductionOf(hop, stated);
  const powersDbm = hop.modes.flatMap((mode) => transmitPowerDbm(stated, mode) ?? []);
  const powerDbm = powersDbm.length > 0 ? Math.max(...powersDbm) : undefined;
  const gainDbi = stand?.antenna && antennaGain(stand.antenna, frequencyHz)?.gainDbi;
  return {
    hop: hop.name,
    site: end.site,
    farSite: hop.ends[at === 0 ? 1 : 0].site.name,
    at,
    carrier: number,
    channel: channelOf(hop, carrier.channel),
    half: stated.transmits,
    frequencyHz,
    polarization: carrier.polarization,
    bandwidthHz: widthHz,
    emission: widthHz === undefined ? undefined : emissionDesignator(widthHz, emissionClassOf(hop)),
    powerDbm,
    lossDb: lossBetween(powerDbm, gainDbi, end.eirp?.greatestDbm),
    reductionDb,
    greatestEirpDbm,
    judgedEirpDbm: end.eirp?.judgedDbm,
    controlledEirpDbm:
      greatestEirpDbm === undefined || reductionDb === undefined ? undefined : greatestEirpDbm - reductionDb,
    antenna: end.antenna,
    antennaFact: stand?.fact ?? "antenna",
    gainDbi,
    beamwidthDeg: stand?.antenna?.beamwidthDeg,
    antennaHeightM: end.antennaHeightM,
    azimuthDeg: seen?.azimuthDeg,
    elevationDeg: seen?.elevationDeg,
    position: stated.site.position,
    groundM: seen?.groundM ?? stated.site.groundM,
    standby: standbyOf(end),
  };
}

/** The letters of a design are its setting; what cannot be read is told by a rule, and the usual ones stand in. */
function emissionClassOf({ emissionClass }: Hop): string {
  return emissionClass !== undefined && isEmissionClass(emissionClass) ? emissionClass : USUAL_EMISSION_CLASS;
}

/** Whether letters can stand behind a bandwidth. @param letters for example `D7W` */
export function isEmissionClass(letters: string): boolean {
  const read = readEmission(`1M00${letters}`);
  return read?.emissionClass !== undefined && letters === `${read.emissionClass}${read.details ?? ""}`;
}

function channelOf({ channel, furtherChannels = [] }: Hop, number: number | undefined): Channel | undefined {
  if (channel === undefined || number === undefined) return undefined;
  return [channel, ...furtherChannels].find((one) => one.number === number);
}

function standOf(hop: Hop, end: HopEnd, antennaNumber: number): Stand | undefined {
  return standsOf(end, factsAt(hop, end) ?? SINGLE)[antennaNumber - 1];
}

/** Below a hair it is rounding. */
function lossBetween(
  powerDbm: number | undefined,
  gainDbi: number | undefined,
  eirpDbm: number | undefined,
): number | undefined {
  if (powerDbm === undefined || gainDbi === undefined || eirpDbm === undefined) return undefined;
  const lossDb = powerDbm + gainDbi - eirpDbm;
  return Math.abs(lossDb) < 1e-9 ? 0 : lossDb;
}

/** Undefined: nothing is taken off, or the radio does not say how much. */
function reductionOf({ radio }: Hop, { powerControl }: HopEnd): number | undefined {
  const reductionDb = powerControl && (powerControl.reductionDb ?? radio?.powerControlRangeDb);
  return reductionDb !== undefined && reductionDb > 0 ? reductionDb : undefined;
}

/** Where the standby unit does not send from the same. */
function standbyOf({ antenna, antennaHeightM, standby }: CarrierEnd): Transmission["standby"] {
  if (standby?.antenna === undefined) return undefined;
  if (standby.antenna === antenna && standby.antennaHeightM === antennaHeightM) return undefined;
  return { antenna: standby.antenna, antennaHeightM: standby.antennaHeightM };
}
