import type { Cause, CauseOutage } from "../account/outage-result.js";
import type { HopResult } from "../account/result.js";

type Availability = NonNullable<HopResult["availability"]>;

export interface TakesMost {
  /** Rain or multipath, whichever figure of the hop is the larger. */
  readonly of: Availability["dominant"];
  /** The largest part of it, where it has several or its one part has a name of its own. */
  readonly part?: CauseOutage;
  /** How many parts it has. */
  readonly parts: number;
}

const IN_PRECIPITATION: Readonly<Record<Cause, boolean>> = {
  "flat fading": false,
  "selective fading": false,
  "fading with diversity": false,
  "cross-polar interference in clear air": false,
  rain: true,
  "cross-polar interference in rain": true,
};

export function isOfPrecipitation({ cause }: Pick<CauseOutage, "cause">): boolean {
  return IN_PRECIPITATION[cause];
}

/**
 * What takes most of a hop's outage: the larger of its two figures, rain and multipath, and within it the largest part.
 * The largest of all causes may belong to the smaller figure, and is not told for that.
 */
export function takesMost({ dominant, causes }: Availability): TakesMost {
  if (dominant !== "rain" && dominant !== "multipath") return { of: dominant, parts: 0 };
  const own = causes.filter((one) => isOfPrecipitation(one) === (dominant === "rain"));
  const [largest] = own;
  const named = own.length > 1 || (largest !== undefined && largest.cause !== dominant);
  return { of: dominant, part: named ? largest : undefined, parts: own.length };
}
