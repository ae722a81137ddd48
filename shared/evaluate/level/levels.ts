import type { RadioMode } from "../../design/catalogue.js";
import type { HopEnd } from "../../design/design.js";
import { type BranchPath, pathsBetween, sidesOf } from "../../equipment/branches.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import { SINGLE } from "../../radio/arrangements.js";
import type { LevelRow } from "../account/level-result.js";
import { note } from "../account/trace.js";
import type { Passage } from "../path/passage.js";
import type { PathLosses } from "../path/path-loss.js";
import { type EndParts, terminal } from "./terminal.js";

/** One direction of a hop between its two antennas' ports: everything but the transmitter's power. */
export interface Chain {
  readonly rows: readonly Omit<LevelRow, "levelDbm">[];
  /** Receiver input against transmitter output. */
  readonly totalDb: number;
  /** What is sent in the normal state, in the order of the units. */
  readonly carriers: readonly Way[];
  /** The carrier of the rows: the one of which least arrives. */
  readonly weakest: Way;
  /** Every way through the branches of both ends that is known, those of the normal state first. */
  readonly ways: readonly Way[];
  /** False when an antenna or a figure for a standby unit is not known: some ways are left out. */
  readonly complete: boolean;
}

/** One way through the branches of both ends. */
export interface Way {
  readonly path: BranchPath;
  /** Of the sender, from 0. */
  readonly unit: number;
  readonly branchingLossDb: number;
  /** Transmit antenna gain less the losses before it. */
  readonly eirpGainDb: number;
  readonly totalDb: number;
  readonly sent: EndParts;
  readonly received: EndParts;
  /** Free space, gases and diffraction. */
  readonly betweenDb: number;
  readonly diffractionDb: number;
}

/** The ways of one direction at one frequency. */
export interface Ways {
  /** Those of the normal state first, one for each carrier in the order of the units. */
  readonly all: readonly Way[];
  /** False when an antenna or a figure for a standby unit is not known: some ways are left out. */
  readonly complete: boolean;
}

/** @returns undefined when a loss or gain of a carrier is not known; the trace says which */
export function waysOf(passage: Passage, path: PathLosses): Ways | undefined {
  const { hop, ends } = passage;
  const out = terminal(passage, "transmit", factsAt(hop, ends[0]) ?? SINGLE);
  const back = terminal(passage, "receive", factsAt(hop, ends[1]) ?? SINGLE);
  const paths = pathsBetween(out, back);
  const all: Way[] = [];
  for (const one of paths) {
    const sent = out.parts(one.from);
    const received = sent && back.parts(one.to);
    const diffractionDb = path.rayDb ? path.rayDb(one.from.antenna, one.to.antenna) : path.diffractionDb;
    const losses = diffractionDb === undefined ? undefined : { ...path, diffractionDb };
    if (sent && received && losses)
      all.push(wayThrough(one, out.branches.indexOf(one.from), sent, received, losses));
    else if (one.state === "normal") return undefined;
  }
  return { all, complete: all.length === paths.length };
}

/**
 * Everything that the signal passes from the transmitter at `from` to the receiver at `to`, in that order: of several
 * carriers, over those branches where the least arrives.
 * @param path losses at the frequency of that carrier
 */
export function chainOf(passage: Passage, { all: ways, complete }: Ways, path: PathLosses): Chain {
  const [from, to] = passage.ends;
  const carriers = ways.filter(({ path: { state } }) => state === "normal");
  const weakest = weakestOf(carriers);
  tellCarriers(passage, carriers, weakest);
  return {
    rows: rowsOf(weakest, from.site.name, to.site.name, path),
    totalDb: weakest.totalDb,
    carriers,
    weakest,
    ways,
    complete,
  };
}

export function weakestOf(carriers: readonly Way[]): Way {
  return carriers.reduce((a, b) => (b.totalDb < a.totalDb - ALIKE_DB ? b : a));
}

/** Arms that differ by less than any catalogue states. */
const ALIKE_DB = 1e-9;

function wayThrough(
  path: BranchPath,
  unit: number,
  sent: EndParts,
  received: EndParts,
  losses: PathLosses,
): Way {
  const { diffractionDb } = losses;
  const eirpGainDb = sent.gainDbi - sent.lossDb;
  const betweenDb = losses.freeSpaceDb + losses.gasDb + diffractionDb;
  return {
    path,
    unit,
    sent,
    received,
    betweenDb,
    diffractionDb,
    branchingLossDb: sent.branchingDb + received.branchingDb,
    eirpGainDb,
    totalDb: eirpGainDb - betweenDb + received.gainDbi - received.lossDb,
  };
}

function tellCarriers(
  { hop, ends: [{ site: from }, { site: to }], trace }: Passage,
  carriers: readonly Way[],
  weakest: Way,
): void {
  if (carriers.length < 2) return;
  const crossed = carriers.find(
    ({ path: { from: sends, to: receives }, sent, received }) =>
      sends.arm !== receives.arm &&
      // At an end that has no coupler there is nothing to cross.
      sends.arm !== "none" &&
      receives.arm !== "none" &&
      (sent.unequal || received.unequal),
  )?.path;
  if (crossed !== undefined) {
    // Said once, whichever direction is told.
    const forth = from === hop.ends[sidesOf(hop)[0]].site;
    const [one, other] = forth ? [crossed.from, crossed.to] : [crossed.to, crossed.from];
    const [first, second] = forth ? [from.name, to.name] : [to.name, from.name];
    note(trace, {
      code: "carriers-cross",
      ends: [
        { site: first, branch: one.name, arm: one.arm },
        { site: second, branch: other.name, arm: other.arm },
      ],
    });
  }
  const strongestDb = Math.max(...carriers.map(({ totalDb }) => totalDb));
  if (strongestDb - weakest.totalDb > 0.05)
    note(trace, {
      code: "level-of-weakest-carrier",
      from: from.name,
      to: to.name,
      carrier: weakest.path.from.name,
    });
}

function rowsOf({ sent, received, diffractionDb }: Way, site: string, farSite: string, path: PathLosses) {
  const rows: Chain["rows"][number][] = [];
  const between = (code: "free-space" | "gases" | "diffraction", lossDb: number) =>
    rows.push({ passes: { code }, changeDb: -lossDb });
  for (const { lossDb, passes } of sent.losses) rows.push({ passes, site, changeDb: -lossDb });
  const sends = { code: "transmit-antenna", antenna: sent.antenna } as const;
  rows.push({ passes: sends, site, changeDb: sent.gainDbi });
  between("free-space", path.freeSpaceDb);
  between("gases", path.gasDb);
  if (diffractionDb > 0) between("diffraction", diffractionDb);
  const receives = { code: "receive-antenna", antenna: received.antenna } as const;
  rows.push({ passes: receives, site: farSite, changeDb: received.gainDbi });
  for (const { lossDb, passes } of received.losses.toReversed())
    rows.push({ passes, site: farSite, changeDb: -lossDb });
  return rows;
}

/** The running level of a chain for a transmit power: first row the transmitter's output, last the receiver's input. */
export function levelDiagram(
  { hop, ends: [from, to] }: Passage,
  mode: RadioMode,
  powerDbm: number,
  chain: Chain,
): LevelRow[] {
  let levelDbm = powerDbm;
  const radio = hop.radio?.name;
  const { bandwidthHz, modulation } = mode;
  const output = { code: "transmitter", radio, bandwidthHz, modulation } as const;
  const rows: LevelRow[] = [{ passes: output, site: from.site.name, changeDb: 0, levelDbm }];
  for (const row of chain.rows) {
    levelDbm += row.changeDb;
    rows.push({ ...row, levelDbm });
  }
  rows.push({ passes: { code: "receiver", radio }, site: to.site.name, changeDb: 0, levelDbm });
  return rows;
}

/** Power of an end in a mode: its own statement before the catalogue's. */
export function transmitPowerDbm(end: HopEnd, mode: RadioMode): number | undefined {
  return end.transmitPowerDbm ?? mode.transmitPowerDbm;
}
