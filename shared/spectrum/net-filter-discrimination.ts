/**
 * What a receiver's filter keeps out of a transmitter's spectrum, by their offset.
 *
 *     NFD(df) = 10 log(P_tot/P_rx)
 *     P_tot = integral G(f) df,   P_rx = integral G(f) |H(f - df)|^2 df
 *
 * G the transmitted density, H the receive filter, 1 at its centre. The total discrimination: with df = 0 it is what the
 * filter keeps out of a co-channel emission, 10 log(Bi/Bv) for one wider than the receiver.
 *
 * Both are even and made of smooth pieces; the integral is taken piece by piece between the edges of either by 12 Gauss
 * points, so that no edge or step lies inside one.
 */

import { GAUSS_NODES, GAUSS_WEIGHTS } from "../math/gauss-legendre.data.js";
import type { MethodReference } from "../propagation/method.js";
import { type Outcome, refuse } from "../propagation/outcome.js";
import { type FilterShape, type Pieces, piecesOf, shapeRefusal } from "./filter-shape.js";

export const METHOD: MethodReference = {
  recommendation: "ETSI TR 101 854",
  section: "",
  title: "Net filter discrimination",
  status: "from memory",
  note:
    "The definition is from memory, not checked against the report; the integral is computed. Without masks the spectrum is " +
    "a raised cosine and the receiver its root, which no real transmitter reaches far off: the figure ends at 50 dB, a limit of our own.",
  checked: {
    by: "adaptive and Simpson's quadrature; closed forms of masks",
    vectors: ["net-filter-discrimination"],
    tolerance: "1e-4 dB (four decimals given); 1e-9 dB",
  },
};

/** Beyond this no filter is trusted unless a mask says so; ours. */
export const DEFAULT_CAP_DB = 50;

/** Offsets remembered for one pair: a network has few channels. */
const MEMO_ENTRIES = 1024;

/** A transmitted spectrum and a receive filter, ready for any offset. */
export interface FilterPair {
  readonly transmit: Pieces;
  readonly receive: Pieces;
  readonly capDb: number;
  /** P_tot, in Hz times the density at the centre. */
  readonly transmittedHz: number;
  /** |offset| in Hz to dB. */
  readonly memo: Map<number, number>;
}

/**
 * Makes a pair ready. Make it once for two modes and keep it: it remembers its offsets.
 * @param transmit of a raised cosine: the spectrum itself; of points: its mask, nothing beyond the last point
 * @param receive of a raised cosine: |H|^2 of a root-raised-cosine filter; of points: its selectivity, the last point
 *   held beyond
 * @param capDb >= 0
 * @returns refused for shapes that are none, see `FilterShape`
 */
export function filterPair(
  transmit: FilterShape,
  receive: FilterShape,
  capDb: number = DEFAULT_CAP_DB,
): Outcome<{ readonly pair: FilterPair }> {
  const unusable = shapeRefusal(transmit, "transmit") ?? shapeRefusal(receive, "receive");
  if (unusable) return refuse(unusable);
  if (!(capDb >= 0 && Number.isFinite(capDb))) {
    return refuse({ code: "input-unusable", input: "capDb", wanted: "zero-or-more" });
  }
  const sent = piecesOf(transmit, "nothing");
  const transmittedHz = integralHz(sent, undefined, 0);
  if (!(transmittedHz > 0 && Number.isFinite(transmittedHz))) return refuse({ code: "beyond-numbers" });
  const kept = piecesOf(receive, "held");
  const pair = { transmit: sent, receive: kept, capDb, transmittedHz, memo: new Map<number, number>() };
  return { ok: true, validity: [], pair };
}

/**
 * Net filter discrimination at an offset, dB, 0 to the cap of the pair.
 * @param offsetHz of the centres, either sign; NaN and infinite: the cap
 * @see ETSI TR 101 854, definition from memory, see METHOD
 */
export function netFilterDiscriminationDb(pair: FilterPair, offsetHz: number): number {
  const offset = Math.abs(offsetHz);
  if (!Number.isFinite(offset)) return pair.capDb;
  const known = pair.memo.get(offset);
  if (known !== undefined) return known;
  const passedHz = integralHz(pair.transmit, pair.receive, offset);
  const fullDb = passedHz > 0 ? 10 * Math.log10(pair.transmittedHz / passedHz) : Number.POSITIVE_INFINITY;
  const resultDb = Math.min(pair.capDb, Math.max(0, fullDb));
  if (pair.memo.size >= MEMO_ENTRIES) pair.memo.clear();
  pair.memo.set(offset, resultDb);
  return resultDb;
}

/** Integral of the transmitted density, times what a filter `offsetHz` above passes of it if there is one. */
function integralHz(transmit: Pieces, receive: Pieces | undefined, offsetHz: number): number {
  const { edgesHz } = transmit;
  let sum = 0;
  let low = edgesHz[0]!;
  for (let i = 1; i < edgesHz.length; i++) {
    const high = edgesHz[i]!;
    for (const edge of receive?.edgesHz ?? []) {
      const cut = edge + offsetHz;
      if (cut <= low || cut >= high) continue;
      sum += pieceHz(transmit, receive, offsetHz, low, cut);
      low = cut;
    }
    sum += pieceHz(transmit, receive, offsetHz, low, high);
    low = high;
  }
  return sum;
}

function pieceHz(
  transmit: Pieces,
  receive: Pieces | undefined,
  offsetHz: number,
  low: number,
  high: number,
): number {
  const half = (high - low) / 2;
  if (!(half > 0)) return 0;
  const middle = (high + low) / 2;
  let sum = 0;
  for (let i = 0; i < GAUSS_NODES.length; i++) {
    const f = middle + half * GAUSS_NODES[i]!;
    const passed = receive === undefined ? 1 : receive.density(f - offsetHz);
    if (passed > 0) sum += GAUSS_WEIGHTS[i]! * passed * transmit.density(f);
  }
  return half * sum;
}
