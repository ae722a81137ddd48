/** Rules about what the network carries, causes before their consequences. */
import type { NetworkRule } from "../rule.js";
import { demandAvailability } from "./demand-availability.js";
import { demandCapacity } from "./demand-capacity.js";
import { demandClock } from "./demand-clock.js";
import { demandGrowth } from "./demand-growth.js";
import { demandLatency } from "./demand-latency.js";
import { demandNotJudged } from "./demand-not-judged.js";
import { demandPorts } from "./demand-ports.js";
import { demandRate } from "./demand-rate.js";
import { demandRoute } from "./demand-route.js";
import { demandSecondRoute } from "./demand-second-route.js";
import { failureGrowth } from "./failure-growth.js";
import { failureOverloads } from "./failure-overloads.js";
import { hopCarriesNothing } from "./hop-carries-nothing.js";
import { objectiveShare } from "./objective-share.js";

export const DEMAND_RULES: readonly NetworkRule[] = [
  demandRate,
  demandRoute,
  demandSecondRoute,
  demandNotJudged,
  demandCapacity,
  demandAvailability,
  demandLatency,
  demandClock,
  demandPorts,
  failureOverloads,
  demandGrowth,
  failureGrowth,
  objectiveShare,
  hopCarriesNothing,
];
