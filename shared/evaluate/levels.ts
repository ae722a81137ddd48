import type { Hop, HopEnd, RadioMode } from "../design/design.js";
import { bandwidth, metres } from "../format/numbers.js";
import { antennaGain } from "../radio/antenna-gain.js";
import { feederLossPerM } from "../radio/feeder-loss.js";
import type { LevelRow } from "./result.js";
import { missing, note, type Trace, use } from "./trace.js";

/** What lies between the two antennas at one frequency, dB, each 0 or more. */
export interface PathLosses {
  readonly freeSpaceDb: number;
  readonly gasDb: number;
  readonly diffractionDb: number;
}

/** One direction of a hop between its two antennas' ports: everything but the transmitter's power. */
export interface Chain {
  readonly rows: readonly {
    readonly element: string;
    readonly detail?: string;
    readonly site?: string;
    readonly changeDb: number;
  }[];
  /** Transmit antenna gain less the losses before it. */
  readonly eirpGainDb: number;
  /** Receiver input against transmitter output. */
  readonly totalDb: number;
  /** How much weaker the standby arm of each end is, 0 without one. */
  readonly standbyExtraDb: readonly [number, number];
}

/**
 * Everything that the signal passes from the transmitter at `from` to the receiver at `to`, in that order,
 * on the main arms.
 * @returns undefined when a loss or gain is not known; the trace says which
 */
export function chainOf(
  from: HopEnd,
  to: HopEnd,
  frequencyHz: number,
  path: PathLosses,
  trace: Trace,
): Chain | undefined {
  const out = endParts(from, frequencyHz, trace);
  const back = endParts(to, frequencyHz, trace);
  if (out === undefined || back === undefined) return undefined;

  const site = from.site.name;
  const farSite = to.site.name;
  const rows: { element: string; detail?: string; site?: string; changeDb: number }[] = [];
  for (const part of out.losses)
    rows.push({ element: part.element, detail: part.detail, site, changeDb: -part.lossDb });
  rows.push({ element: "transmit antenna", detail: out.antenna, site, changeDb: out.gainDbi });
  const eirpGainDb = sum(rows);

  rows.push({ element: "free space", changeDb: -path.freeSpaceDb });
  rows.push({ element: "gases", changeDb: -path.gasDb });
  if (path.diffractionDb > 0) rows.push({ element: "diffraction", changeDb: -path.diffractionDb });

  rows.push({ element: "receive antenna", detail: back.antenna, site: farSite, changeDb: back.gainDbi });
  for (const part of back.losses.toReversed()) {
    rows.push({ element: part.element, detail: part.detail, site: farSite, changeDb: -part.lossDb });
  }
  return { rows, eirpGainDb, totalDb: sum(rows), standbyExtraDb: [out.standbyExtraDb, back.standbyExtraDb] };
}

/** The running level of a chain for a transmit power: first row the transmitter's output, last the receiver's input. */
export function levelDiagram(
  hop: Hop,
  from: HopEnd,
  to: HopEnd,
  mode: RadioMode,
  powerDbm: number,
  chain: Chain,
): LevelRow[] {
  let levelDbm = powerDbm;
  const radio = hop.radio?.name ?? "radio";
  const output = {
    element: "transmitter output",
    detail: `${radio}, ${bandwidth(mode.bandwidthHz)} ${mode.modulation}`,
  };
  const rows: LevelRow[] = [{ ...output, site: from.site.name, changeDb: 0, levelDbm }];
  for (const row of chain.rows) {
    levelDbm += row.changeDb;
    rows.push({ ...row, levelDbm });
  }
  rows.push({ element: "receiver input", detail: radio, site: to.site.name, changeDb: 0, levelDbm });
  return rows;
}

/** Power of an end in a mode: its own statement before the catalogue's. */
export function transmitPowerDbm(end: HopEnd, mode: RadioMode): number | undefined {
  return end.transmitPowerDbm ?? mode.transmitPowerDbm;
}

interface EndParts {
  /** From the radio to the antenna. */
  readonly losses: readonly { readonly element: string; readonly detail?: string; readonly lossDb: number }[];
  readonly standbyExtraDb: number;
  readonly antenna: string;
  readonly gainDbi: number;
}

function endParts(end: HopEnd, frequencyHz: number, trace: Trace): EndParts | undefined {
  const site = end.site.name;
  const losses: { element: string; detail?: string; lossDb: number }[] = [];
  let standbyExtraDb = 0;

  const { coupler, feeder, antenna } = end;
  if (coupler !== undefined) {
    if (coupler.mainLossDb === undefined) {
      missing(trace, `Level: coupler ${coupler.name} at ${site} has no loss in the catalogue.`);
      return undefined;
    }
    standbyExtraDb = (coupler.standbyLossDb ?? coupler.mainLossDb) - coupler.mainLossDb;
    const arm =
      coupler.kind === "omt"
        ? "orthomode transducer"
        : standbyExtraDb === 0
          ? "coupler arm"
          : "coupler main arm";
    losses.push({ element: arm, detail: coupler.name, lossDb: coupler.mainLossDb });
  }
  if (feeder !== undefined) {
    const loss = feederLossPerM(feeder, frequencyHz);
    if (loss === undefined) {
      missing(trace, `Level: feeder ${feeder.name} at ${site} has no loss in the catalogue.`);
      return undefined;
    }
    if (end.feederLengthM === undefined) return undefined;
    if (loss.note !== undefined) note(trace, sentence(loss.note));
    const detail = `${feeder.name}, ${metres(end.feederLengthM)}`;
    losses.push({ element: "feeder", detail, lossDb: loss.lossDbPerM * end.feederLengthM });
  }
  if (end.extraLossDb !== undefined && end.extraLossDb !== 0) {
    losses.push({ element: "further loss", lossDb: end.extraLossDb });
  }

  if (antenna === undefined) return undefined;
  const gain = antennaGain(antenna, frequencyHz);
  if (gain === undefined) {
    missing(
      trace,
      `Level: antenna ${antenna.name} at ${site} has neither gain nor diameter in the catalogue.`,
    );
    return undefined;
  }
  if (gain.note !== undefined) note(trace, sentence(gain.note));
  use(
    trace,
    `gain of ${antenna.name}`,
    `${gain.gainDbi.toFixed(1)} dBi`,
    gain.origin === "catalogue" ? "catalogue" : "default",
    gain.origin === "estimate" ? "estimated from the diameter" : undefined,
  );
  return { losses, standbyExtraDb, antenna: antenna.name, gainDbi: gain.gainDbi };
}

function sum(rows: readonly { readonly changeDb: number }[]): number {
  let total = 0;
  for (const row of rows) total += row.changeDb;
  return total;
}

function sentence(text: string): string {
  return `${text[0]!.toUpperCase()}${text.slice(1)}.`;
}
