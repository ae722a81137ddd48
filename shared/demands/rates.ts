/** What a demand takes of a hop: its frames with what the network adds, and its TDM natively or in packets. */
import type { Demand, TrafficTerms } from "../design/demand.js";

/** Rates of ITU-T G.703 (E1) and G.707 (STM-1), bit/s. */
export const E1_BPS = 2_048_000;
export const STM1_BPS = 155_520_000;

/** Before and between frames on a line: preamble and delimiter 8, gap 12. IEEE 802.3 clauses 3.1.1 and 4.4.2, from memory. */
const LINE_BYTES_A_FRAME = 20;

/** Where a network states none; ours: the middle of what traffic tests use (64 to 1518 bytes). */
export const USUAL_FRAME_BYTES = 512;
/**
 * Of a packet of circuit emulation: Ethernet header and check sequence 18, tag 4, two labels 8, control word 4. Headers of
 * RFC 4553 over MPLS and Ethernet, from memory.
 */
const TDM_HEADER_BYTES = 34;

/** Rate on the hop of Ethernet frames that the network lengthens. @param frameBytes from destination address to check sequence */
export function withOverheadBps(rateBps: number, frameBytes: number, overheadBytes: number): number {
  return (rateBps * (frameBytes + overheadBytes)) / frameBytes;
}

/** Rate that frames of a size take of a port, with what stands between them. IEEE 802.3. */
export function lineRateBps(rateBps: number, frameBytes: number): number {
  return withOverheadBps(rateBps, frameBytes, LINE_BYTES_A_FRAME);
}

/** What is sent whole at each hop: a frame with what the network adds; where only TDM is carried its packet, or nothing natively. */
export function sentBytes(
  demand: Pick<
    Demand,
    "committedBps" | "peakBps" | "e1" | "stm1" | "tdmPacketBytes" | "frameBytes" | "frameOverheadBytes"
  >,
  terms: TrafficTerms,
): number {
  const { tdmPacketBytes } = demand;
  if (isTdmOnly(demand)) return tdmPacketBytes === undefined ? 0 : tdmPacketBytes + TDM_HEADER_BYTES;
  const overheadBytes = demand.frameOverheadBytes ?? terms.frameOverheadBytes ?? 0;
  return (demand.frameBytes ?? terms.frameBytes ?? USUAL_FRAME_BYTES) + overheadBytes;
}

export function isTdmOnly({
  committedBps = 0,
  peakBps = 0,
  e1 = 0,
  stm1 = 0,
}: Pick<Demand, "committedBps" | "peakBps" | "e1" | "stm1">): boolean {
  return committedBps === 0 && peakBps === 0 && (e1 > 0 || stm1 > 0);
}

export interface Taken {
  readonly committedBps: number;
  /** With what it may take beyond. */
  readonly peakBps: number;
  /** Of `committedBps`. */
  readonly tdmBps: number;
}

/** Of each hop of its route, in each direction. */
export function takenBy(
  demand: Pick<
    Demand,
    "committedBps" | "peakBps" | "e1" | "stm1" | "tdmPacketBytes" | "frameBytes" | "frameOverheadBytes"
  >,
  terms: TrafficTerms,
): Taken {
  const { committedBps = 0, peakBps = 0, e1 = 0, stm1 = 0, tdmPacketBytes } = demand;
  const frameBytes = demand.frameBytes ?? terms.frameBytes ?? USUAL_FRAME_BYTES;
  const overheadBytes = demand.frameOverheadBytes ?? terms.frameOverheadBytes ?? 0;
  const tdmBps =
    (e1 * E1_BPS + stm1 * STM1_BPS) *
    (tdmPacketBytes === undefined ? 1 : 1 + TDM_HEADER_BYTES / tdmPacketBytes);
  const ethernet = (bps: number) => withOverheadBps(bps, frameBytes, overheadBytes);
  return {
    committedBps: ethernet(committedBps) + tdmBps,
    peakBps: ethernet(Math.max(committedBps, peakBps)) + tdmBps,
    tdmBps,
  };
}
