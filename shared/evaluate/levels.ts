import type { Coupler, Hop, HopEnd, RadioMode } from "../design/design.js";
import { armLossDb, branchingLossDb } from "../equipment/branch-loss.js";
import { type Arm, type Branch, type BranchPath, pathsOf } from "../equipment/branches.js";
import { bandwidth, frequency, metres } from "../format/numbers.js";
import { antennaGain } from "../radio/antenna-gain.js";
import { arrangementByName } from "../radio/arrangements.js";
import { feederLossPerM } from "../radio/feeder-loss.js";
import type { LevelRow } from "./result.js";
import { missing, note, type Trace, use } from "./trace.js";

/** What lies between the two antennas at one frequency, dB, each 0 or more. */
export interface PathLosses {
  readonly freeSpaceDb: number;
  readonly gasDb: number;
  readonly diffractionDb: number;
  /** Diffraction of the rays over second antennas, of the sender, of the receiver, or of both; absent: none is in use. */
  secondDb?(sends: boolean, receives: boolean): number;
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
  /** Every way through the branches of both ends, the one of the rows first; empty when there is one only. */
  readonly paths: readonly {
    readonly path: BranchPath;
    readonly branchingLossDb: number;
    readonly changeDb: number;
  }[];
}

/**
 * Everything that the signal passes from the transmitter at `from` to the receiver at `to`, in that order, on the
 * main arms; of two carriers on one hybrid, whose arms cross between the ends, on main and standby arm.
 * @returns undefined when a loss or gain is not known; the trace says which
 */
export function chainOf(
  hop: Pick<Hop, "arrangement" | "radio">,
  from: HopEnd,
  to: HopEnd,
  frequencyHz: number,
  path: PathLosses,
  trace: Trace,
): Chain | undefined {
  const facts = arrangementByName(hop.arrangement.name);
  const ways = facts === undefined ? [] : pathsOf(facts);
  const way = ways[0];
  if (way !== undefined && crosses(from.coupler, way)) {
    note(trace, "The carriers cross on the unequal couplers: main arm at one end, standby arm at the other.");
  }
  const out = endParts(hop, from, "transmit", way?.from, frequencyHz, trace);
  const back = endParts(hop, to, "receive", way?.to, frequencyHz, trace);
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
  const paths = ways.length < 2 ? [] : ways.map((way) => wayThrough(way, out, back, path));
  return { rows, eirpGainDb, totalDb: sum(rows), paths };
}

function crosses(coupler: Coupler | undefined, { state, from, to }: BranchPath): boolean {
  const unequal = coupler?.standbyLossDb !== undefined && coupler.standbyLossDb !== coupler.mainLossDb;
  return unequal && state === "normal" && from.arm !== to.arm;
}

/** One way through the branches, held against the chain's own. */
function wayThrough(
  path: BranchPath,
  out: EndParts,
  back: EndParts,
  { diffractionDb, secondDb }: PathLosses,
): Chain["paths"][number] {
  const sent = out.branch(path.from);
  const received = back.branch(path.to);
  const gainDb = sent.gainDbi - sent.lossDb + received.gainDbi - received.lossDb;
  const ownDb = out.gainDbi - out.branchingDb + back.gainDbi - back.branchingDb;
  const [sends, receives] = [path.from.coupler === 2, path.to.coupler === 2];
  const moreDb = secondDb && (sends || receives) ? secondDb(sends, receives) - diffractionDb : 0;
  return { path, branchingLossDb: sent.lossDb + received.lossDb, changeDb: gainDb - ownDb - moreDb };
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
  /** Of these, what depends on the branch: arm of the coupler and branching network. */
  readonly branchingDb: number;
  readonly antenna: string;
  readonly gainDbi: number;
  /** The same of another branch of this end. */
  branch(branch: Branch): { readonly lossDb: number; readonly gainDbi: number };
}

function endParts(
  hop: Pick<Hop, "radio">,
  end: HopEnd,
  direction: "transmit" | "receive",
  branch: Branch | undefined,
  frequencyHz: number,
  trace: Trace,
): EndParts | undefined {
  const site = end.site.name;
  const losses: { element: string; detail?: string; lossDb: number }[] = [];

  const { coupler, feeder, antenna } = end;
  const arm = branch?.arm ?? "main";
  const armDb = coupler && armLossDb(coupler, arm, direction);
  if (coupler !== undefined) {
    if (armDb === undefined) {
      missing(trace, `Level: coupler ${coupler.name} at ${site} has no loss in the catalogue.`);
      return undefined;
    }
    losses.push({ element: armWords(coupler, arm, direction), detail: coupler.name, lossDb: armDb });
  }
  const branching = hop.radio?.unit?.branching;
  const networkDb = (at: Branch | undefined) =>
    branching === undefined ? 0 : branchingLossDb(branching, at?.position ?? 1);
  if (branching !== undefined) losses.push({ element: "branching network", lossDb: networkDb(branch) });
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
  // Of several points of the catalogue each frequency has a gain of its own; an estimate is one remark, with its frequency.
  const several = antenna.gain.length > 1;
  const at = () => ` at ${frequency(frequencyHz)}`;
  use(
    trace,
    several ? `gain of ${antenna.name}${at()}` : `gain of ${antenna.name}`,
    () => `${gain.gainDbi.toFixed(1)} dBi${gain.origin === "estimate" ? at() : ""}`,
    gain.origin === "catalogue" ? "catalogue" : "default",
    gain.origin === "estimate" ? "estimated from the diameter" : undefined,
  );
  return {
    losses,
    branchingDb: (armDb ?? 0) + networkDb(branch),
    antenna: antenna.name,
    gainDbi: gain.gainDbi,
    branch: (other) => ({
      lossDb: (coupler ? (armLossDb(coupler, other.arm, direction) ?? 0) : 0) + networkDb(other),
      gainDbi: secondGainDbi(end, other, frequencyHz) ?? gain.gainDbi,
    }),
  };
}

/** Gain of the diversity antenna, for the branch that hangs on it. */
function secondGainDbi(end: HopEnd, branch: Branch, frequencyHz: number): number | undefined {
  if (branch.coupler !== 2 || end.diversityAntenna === undefined) return undefined;
  return antennaGain(end.diversityAntenna, frequencyHz)?.gainDbi;
}

function armWords(coupler: Coupler, arm: Arm, direction: "transmit" | "receive"): string {
  if (coupler.kind === "omt") return "orthomode transducer";
  if (coupler.transmitLossDb !== undefined && direction === "transmit") return "transmit relay";
  const equal = coupler.standbyLossDb === undefined || coupler.standbyLossDb === coupler.mainLossDb;
  const what = coupler.kind === "splitter" ? "receive splitter" : "coupler";
  return equal ? `${what} arm` : `${what} ${arm === "standby" ? "standby" : "main"} arm`;
}

function sum(rows: readonly { readonly changeDb: number }[]): number {
  let total = 0;
  for (const row of rows) total += row.changeDb;
  return total;
}

function sentence(text: string): string {
  return `${text[0]!.toUpperCase()}${text.slice(1)}.`;
}
