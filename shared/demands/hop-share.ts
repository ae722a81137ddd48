/** What demands leave a hop of the year, beside what its own objective leaves it: the stricter holds. */
import type { DemandResult, ExceededShare, HopLoad } from "./result.js";
import type { HopOfNetwork } from "./traffic.js";

/** A share is met when it is met to a millionth: both are sums of the same figures. */
const ROUNDING = 1 + 1e-6;

/** @param passing demands whose first or second route leads over the hop */
export function hopShare(
  { name, ownPercent }: Pick<HopOfNetwork, "name" | "ownPercent">,
  passing: readonly DemandResult[],
): HopLoad["share"] {
  const asking = passing.flatMap(({ demand, hops, verdicts }) => {
    const { sharePercent, outagePercent, modulation } = hops.find(({ hop }) => hop === name)!;
    if (sharePercent === undefined) return [];
    return [
      {
        demand: demand.name,
        leftPercent: sharePercent,
        outagePercent,
        ...(modulation !== undefined && { modulation }),
        othersMakeUp: verdicts.availability === "met",
      },
    ];
  });
  const [first] = asking;
  if (first === undefined) return undefined;
  const { demand, leftPercent } = asking.reduce(
    (least, one) => (one.leftPercent < least.leftPercent ? one : least),
    first,
  );
  const exceeded = asking
    .flatMap(({ outagePercent, ...one }): ExceededShare[] =>
      outagePercent !== undefined && outagePercent > one.leftPercent * ROUNDING
        ? [{ ...one, outagePercent }]
        : [],
    )
    .sort((a, b) => b.outagePercent / b.leftPercent - a.outagePercent / a.leftPercent);
  return {
    demand,
    leftPercent,
    ...(ownPercent !== undefined && { ownPercent }),
    stricter: ownPercent !== undefined && ownPercent <= leftPercent ? "objective" : "demand",
    exceeded,
  };
}
