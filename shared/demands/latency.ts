/** How long a frame is on its way, one way. */
import type { Demand, TrafficTerms } from "../design/demand.js";
import { SPEED_OF_LIGHT_M_PER_S } from "../propagation/constants.js";
import { E1_BPS, STM1_BPS } from "./rates.js";

/** Of both radios of a hop, and of the switch at a site, where the network states none; ours, of usual equipment. */
const USUAL_HOP_LATENCY_S = 200e-6;
const USUAL_SITE_LATENCY_S = 20e-6;

export interface LatencyHop {
  readonly lengthM: number;
  /** Of its lowest mode, which a fade may leave; undefined: not known, and the frame takes no time. */
  readonly bps?: number;
  readonly lengthUnknown?: boolean;
}

export interface Latency {
  readonly pathS: number;
  readonly radiosS: number;
  readonly sitesS: number;
  /** The frame itself, sent anew at each hop. */
  readonly framesS: number;
  /** Until a packet of TDM is full; the buffer that evens packets out at the far end is not counted. */
  readonly packetS: number;
  readonly totalS: number;
  /** Set: more is not known, of a hop without a length or without a known mode; the total is the least. */
  readonly isLeast?: true;
}

/**
 *     t = sum d/c + n t_hop + (n + 1) t_site + sum 8 B/R + 8 P/R_tdm
 *
 * @param frameBytes B, with what the network adds
 * @param demand of TDM in packets P and which it is: R_tdm is that of E1, else of STM-1
 */
export function latencyOf(
  hops: readonly LatencyHop[],
  frameBytes: number,
  terms: TrafficTerms,
  { e1 = 0, stm1 = 0, tdmPacketBytes = 0 }: Pick<Demand, "e1" | "stm1" | "tdmPacketBytes"> = {},
): Latency {
  const pathS = hops.reduce((sum, { lengthM }) => sum + lengthM, 0) / SPEED_OF_LIGHT_M_PER_S;
  const radiosS = hops.length * (terms.hopLatencyS ?? USUAL_HOP_LATENCY_S);
  const sitesS = (hops.length + 1) * (terms.siteLatencyS ?? USUAL_SITE_LATENCY_S);
  const framesS = hops.reduce((sum, { bps }) => sum + (bps! > 0 ? (8 * frameBytes) / bps! : 0), 0);
  const isTdm = e1 > 0 || stm1 > 0;
  const packetS = isTdm ? (8 * tdmPacketBytes) / (e1 > 0 ? E1_BPS : STM1_BPS) : 0;
  const isLeast = hops.some(
    ({ bps, lengthUnknown }) => lengthUnknown || (bps === undefined && frameBytes > 0),
  );
  return {
    pathS,
    radiosS,
    sitesS,
    framesS,
    packetS,
    totalS: pathS + radiosS + sitesS + framesS + packetS,
    ...(isLeast && { isLeast: true as const }),
  };
}
