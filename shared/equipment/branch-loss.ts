/** What a branch loses between the transceiver and the antenna's feeder, by what is mounted there. */
import type { Coupler } from "../design/catalogue.js";
import type { Branch } from "./branches.js";

/** Channel filter and circulator passes of an all-indoor terminal. */
export interface BranchingNetwork {
  /** Loss of one channel filter, dB. */
  readonly filterDb: number;
  /** Loss of one circulator pass, dB. */
  readonly passDb: number;
}

/**
 * Loss of the arm of a coupler; a reciprocal coupler loses the same both ways, the transmit relay of an all-indoor
 * terminal and its receive splitter do not.
 * @returns undefined when the catalogue gives no figure
 */
export function armLossDb(
  coupler: Coupler,
  { arm, polarization }: Pick<Branch, "arm" | "polarization">,
  direction: "transmit" | "receive",
): number | undefined {
  if (direction === "transmit" && coupler.transmitLossDb !== undefined) return coupler.transmitLossDb;
  const { mainLossDb, standbyLossDb, secondMainLossDb, secondStandbyLossDb } = coupler;
  const isSecond = polarization === 2;
  const mainDb = isSecond ? (secondMainLossDb ?? mainLossDb) : mainLossDb;
  if (arm !== "standby") return mainDb;
  return (isSecond ? secondStandbyLossDb : undefined) ?? standbyLossDb ?? mainDb;
}

/**
 * Loss of a channel's way through a branching network: its filter and one pass for each place in the chain.
 * @param position from 1, counted from the antenna's side
 * @see common practice, from memory: filters 0.5 to 1 dB, passes 0.1 to 0.2 dB
 */
export function branchingLossDb({ filterDb, passDb }: BranchingNetwork, position: number): number {
  return filterDb + position * passDb;
}
