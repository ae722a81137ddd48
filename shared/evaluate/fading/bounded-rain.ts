import type { Lack } from "../account/lack.js";
import type { Bound } from "../account/outage-result.js";

/** Share of the year where the law of rain ends, percent, by the bound that it leaves. */
const LAW_ENDS_PERCENT: Readonly<Record<Bound, number>> = { "at most": 0.001, "at least": 1 };

/** Rain that is only bounded, where the bound does not tell whether an objective is met. */
export function boundedRain(bound: Bound): Lack {
  return {
    code: "bound",
    of: ["rain"],
    reason: { code: "law-of-rain-ends", atPercent: LAW_ENDS_PERCENT[bound] },
  };
}
