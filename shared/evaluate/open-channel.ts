/**
 * A hop whose channel is still to be chosen has the figures of the worst one. What is missed there alone is not missed: it
 * is open until the channel is chosen.
 */
import type { Hop } from "../design/design.js";
import type { DirectionResult } from "./account/level-result.js";
import type { Verdict } from "./account/outage-result.js";
import type { HopResult } from "./account/result.js";

/** The hop on the channel that is best for each figure: the lowest for level, gases and rain, the highest for the zone. */
export function onBestChannel(hop: Hop): Hop | undefined {
  const { openChannel, ends } = hop;
  const sent = ends.flatMap(({ transmitFrequencyHz }) => transmitFrequencyHz ?? []);
  if (openChannel === undefined || sent.length < 2) return undefined;
  const lowHz = Math.min(...sent);
  const shiftHz = lowHz - openChannel.lowestHz;
  const lower = (end: Hop["ends"][0]) => ({
    ...end,
    transmitFrequencyHz: end.transmitFrequencyHz! - shiftHz,
  });
  return {
    ...hop,
    // Of the zone the lowest frequency counts: here it is that of the highest channel.
    openChannel: { ...openChannel, lowestHz: lowHz },
    ends: [lower(ends[0]), lower(ends[1])],
  };
}

/** The figures stay those of the worst channel; a verdict that is missed on it and not on the best is open. */
export function openWhereBetter(worst: HopResult, best: HopResult): HopResult {
  const { availability, standby, objectives, furtherPaths } = worst;
  return {
    ...worst,
    clearance: worst.clearance.map((one, i) => eased(one, best.clearance[i])),
    ...(furtherPaths && {
      furtherPaths: furtherPaths.map((path, i) => ({
        ...path,
        clearance: path.clearance.map((one, k) => eased(one, best.furtherPaths?.[i]?.clearance[k])),
      })),
    }),
    directions: worst.directions.map((one, i) => withBest(one, best.directions[i])),
    ...(standby && { standby: eased(standby, best.standby) }),
    ...(availability && { availability: eased(availability, best.availability) }),
    ...(objectives && { objectives: objectives.map((one, i) => eased(one, best.objectives?.[i])) }),
  };
}

function eased<One extends { readonly verdict?: Verdict }>(worst: One, best: One | undefined): One {
  return worst.verdict === "missed" && best !== undefined && best.verdict !== "missed"
    ? { ...worst, verdict: "open" }
    : worst;
}

function withBest(worst: DirectionResult, best: DirectionResult | undefined): DirectionResult {
  return {
    ...worst,
    modes: worst.modes.map((mode, i) => {
      const bestDb = best?.modes[i]?.fadeMarginDb;
      return bestDb !== undefined && bestDb > mode.fadeMarginDb
        ? { ...mode, bestFadeMarginDb: bestDb }
        : mode;
    }),
  };
}
