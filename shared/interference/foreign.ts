/** Senders and receivers of others, from the rows of their lists. Nothing of them is ever changed. */
import type { InterferenceTerms } from "../design/interference.js";
import { inverse } from "../geodesy/geodesic.js";
import type { OthersTable, OtherTransmission } from "../others/table.js";
import { parabolicGainDbi } from "../radio/antenna-gain.js";
import { noisePowerDbm, symbolRateHz } from "../radio/threshold.js";
import { type AntennaView, antennaView, type ReferenceChoice } from "./antenna-view.js";
import type { Place, Receiver, Sender } from "./station.js";
import { ASSUMED_NOISE_FIGURE_DB, spectrumOf } from "./stations.js";

/** Of antennas of others that state none; ours: low masts shield most, and a height above it is stated as a rule. */
const ASSUMED_HEIGHT_M = 20;
/** Of a dish whose diameter alone is known. */
const EFFICIENCY = 0.55;
/** Of antennas of which neither gain nor diameter is known; it counts in troposcatter and as the receiver's gain. */
const ASSUMED_GAIN_DBI = 40;

export interface ForeignStations {
  readonly senders: readonly Sender[];
  /** Those of which the list says where they are. */
  readonly receivers: readonly Receiver[];
}

/** A list of the design, as it was read. */
export interface ForeignList {
  readonly table: OthersTable;
  /** Its place among those of the design, and what its file is called. */
  readonly list: number;
  readonly file: string;
  /** Rows that count as those of another list. */
  readonly repeated: ReadonlySet<number>;
}

/** @param day ISO; rows count as their validity says */
export function foreignStations(from: ForeignList, terms: InterferenceTerms, day: string): ForeignStations {
  const { table, repeated } = from;
  const views = new Views(terms);
  const senders: Sender[] = [];
  const receivers: Receiver[] = [];
  for (let index = 0; index < table.count; index++) {
    if (repeated.has(index) || !table.stands(index, day)) continue;
    const row = table.at(index);
    senders.push(senderOf(row, from, index, views));
    const receiver = receiverOf(row, from, index, { views, terms });
    if (receiver) receivers.push(receiver);
  }
  return { senders, receivers };
}

function senderOf(row: OtherTransmission, { list, file }: ForeignList, index: number, views: Views): Sender {
  return {
    key: `${list}/${index}`,
    of: { list, file, line: row.line, ...(row.name !== undefined && { name: row.name }) },
    place: placeOf(row, boresightOf(row)),
    frequencyHz: row.frequencyHz,
    polarization: row.polarization,
    bandwidthHz: row.bandwidthHz,
    ...views.of(row, row.frequencyHz),
    eirpDbm: row.eirpDbm,
    reductionDb: 0,
    spectrum: spectrumOf(row, "transmitMask"),
  };
}

function receiverOf(
  row: OtherTransmission,
  { list, file }: ForeignList,
  index: number,
  { views, terms }: { readonly views: Views; readonly terms: InterferenceTerms },
): Receiver | undefined {
  const { receiver, position } = row;
  if (receiver === undefined) return undefined;
  const { azimuthFromDeg } = inverse({ from: receiver.position, to: position });
  const figureDb = receiver.noiseFigureDb ?? terms.assumedNoiseFigureDb ?? ASSUMED_NOISE_FIGURE_DB;
  const bandwidthHz = row.leastBandwidthHz;
  return {
    key: `${list}/${index} receiver`,
    of: { list, file, line: row.line, ...(row.name !== undefined && { name: row.name }) },
    place: placeOf(receiver, { azimuthDeg: azimuthFromDeg, elevationDeg: 0 }),
    frequencyHz: row.frequencyHz,
    polarization: row.polarization,
    bandwidthHz,
    ...views.of(receiver, row.frequencyHz),
    lossDb: receiver.feederLossDb ?? 0,
    noiseDbm: noisePowerDbm(symbolRateHz(bandwidthHz), figureDb),
    noise: { figureDb, symbolRateHz: symbolRateHz(bandwidthHz) },
    ...(receiver.noiseFigureDb === undefined && { noiseAssumed: true as const }),
    selectivity: spectrumOf({ bandwidthHz }, "selectivity"),
  };
}

function boresightOf({
  receiver,
  position,
  azimuthDeg,
  elevationDeg,
}: OtherTransmission): Place["boresight"] {
  if (azimuthDeg !== undefined) return { azimuthDeg, elevationDeg: elevationDeg ?? 0 };
  if (receiver === undefined) return undefined;
  const { azimuthFromDeg } = inverse({ from: position, to: receiver.position });
  return { azimuthDeg: azimuthFromDeg, elevationDeg: elevationDeg ?? 0 };
}

function placeOf(
  { position, groundM, antennaHeightM }: Pick<OtherTransmission, "position" | "groundM" | "antennaHeightM">,
  boresight: Place["boresight"],
): Place {
  const known = antennaHeightM !== undefined && antennaHeightM > 0;
  return {
    position,
    groundM,
    antennaM: known ? antennaHeightM : ASSUMED_HEIGHT_M,
    ...(!known && { heightAssumed: true as const }),
    boresight,
  };
}

/** Antennas of others by gain, diameter and frequency: a register has few of them many times. */
class Views {
  private readonly known = new Map<string, { antenna: AntennaView; antennaInSum?: AntennaView }>();

  constructor(private readonly terms: InterferenceTerms) {}

  of(
    { gainDbi, diameterM }: { readonly gainDbi?: number; readonly diameterM?: number },
    frequencyHz: number,
  ): { readonly antenna: AntennaView; readonly antennaInSum?: AntennaView } {
    const key = `${gainDbi} ${diameterM} ${frequencyHz}`;
    let found = this.known.get(key);
    if (found === undefined) this.known.set(key, (found = this.made(gainDbi, diameterM, frequencyHz)));
    return found;
  }

  private made(gainDbi: number | undefined, diameterM: number | undefined, frequencyHz: number) {
    const gain =
      gainDbi ??
      (diameterM !== undefined && diameterM > 0
        ? parabolicGainDbi(diameterM, frequencyHz, EFFICIENCY)
        : ASSUMED_GAIN_DBI);
    const dish = {
      pattern: [],
      gainDbi: gain,
      ...(diameterM !== undefined && diameterM > 0 && { diameterM }),
    };
    const view = (reference: ReferenceChoice) => antennaView(dish, frequencyHz, reference);
    return {
      antenna: view("F.699"),
      ...(this.terms.sumPattern === "F.1245" && { antennaInSum: view("F.1245") }),
    };
  }
}
