/**
 * Both hops of a dual-band pair together. No Recommendation at hand has a method: each band stands by itself, and
 * rain takes both of them at once, so that the outage of both is that of the band with the smaller outage, never the
 * product.
 */
import type { Hop } from "../design/design.js";
import type { Bound } from "../evaluate/account/outage-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { judgedMode } from "../evaluate/level/judged-mode.js";
import { arrangementByName, carriers } from "../radio/arrangements.js";

interface PairedHop {
  readonly hop: Hop;
  readonly result: HopResult;
}

export interface BandOfPair {
  readonly hop: string;
  /** Over all carriers in the highest mode that works in clear air in both directions. */
  readonly clearAirBps?: number;
  /** In the mode that its availability is that of. */
  readonly judgedBps?: number;
  readonly modulation?: string;
  readonly availabilityPercent?: number;
  readonly bound?: Bound;
  /** Set: an estimate, see `HopResult`. */
  readonly atLeastPercent?: number;
}

export interface PairResult {
  /** The band with the smaller outage carries what is committed. */
  readonly robust: BandOfPair;
  readonly other: BandOfPair;
  readonly clearAirBps?: number;
  /** Share of the year in which neither band carries its judged mode. */
  readonly bothOutPercent?: number;
  readonly bothOutBound?: Bound;
  /** Set: `bothOutPercent` is an estimate, see `AtMost`. */
  readonly bothOutAtMostPercent?: number;
}

/** @returns undefined unless the two are the bands of one pair, each naming the other */
export function pairResult(one: PairedHop, second: PairedHop): PairResult | undefined {
  if (one.hop.pairedWith !== second.hop.name || second.hop.pairedWith !== one.hop.name) return undefined;
  const bands = [one, second].map(({ hop }) => arrangementByName(hop.arrangement.name)?.bandOfPair);
  const low = bands.indexOf("low");
  if (low < 0 || !bands.includes("high")) return undefined;
  const [lowHop, highHop] = low === 0 ? [one, second] : [second, one];
  const lowOut = lowHop.result.availability?.outage;
  const highOut = highHop.result.availability?.outage;
  const known = lowOut !== undefined && highOut !== undefined;
  const highIsRobust = known && highOut.yearPercent < lowOut.yearPercent;
  const robust = bandOf(highIsRobust ? highHop : lowHop);
  const other = bandOf(highIsRobust ? lowHop : highHop);
  const smaller = known ? (highIsRobust ? highOut : lowOut) : undefined;
  return {
    robust,
    other,
    clearAirBps:
      robust.clearAirBps === undefined || other.clearAirBps === undefined
        ? undefined
        : robust.clearAirBps + other.clearAirBps,
    bothOutPercent: smaller?.yearPercent,
    bothOutBound: smaller?.bound,
    bothOutAtMostPercent: smaller?.atMost?.yearPercent,
  };
}

function bandOf({ hop, result }: PairedHop): BandOfPair {
  const [there, back] = result.directions;
  const working = (there?.modes ?? []).filter(
    (mode, i) => mode.fadeMarginDb > 0 && (back?.modes[i]?.fadeMarginDb ?? 0) > 0,
  );
  const highest = working.at(-1);
  const judged = there && judgedMode(hop, there.modes);
  const all = (rate: number | undefined) =>
    rate === undefined ? undefined : rate * carriers(hop.arrangement.name);
  return {
    hop: hop.name,
    // A direction alone is the first of the two, whichever it is.
    clearAirBps: back === undefined ? undefined : highest ? all(highest.bitRateBps) : 0,
    judgedBps: all(judged?.bitRateBps),
    modulation: judged?.modulation,
    availabilityPercent: result.availability?.availabilityPercent,
    bound: result.availability?.bound,
    atLeastPercent: result.availability?.atLeastPercent,
  };
}

/** Whether both bands of a pair hang on one antenna at an end. */
export function sharesAntenna(one: Hop, other: Hop, site: string): boolean {
  if (one.pairedWith !== other.name || other.pairedWith !== one.name) return false;
  const [a, b] = [one, other].map(({ ends }) => ends.find((end) => end.site.name === site));
  return (
    a?.antenna !== undefined &&
    a.antenna.mount?.secondBand !== undefined &&
    b?.antenna?.name === a.antenna.name &&
    a.antennaHeightM === b.antennaHeightM
  );
}
