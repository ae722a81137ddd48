import { ERROR_PERFORMANCE, type Portion } from "../../availability/objectives.data.js";
import {
  availabilityObjective,
  hopShare,
  internationalErrorObjective,
} from "../../availability/objectives.js";
import { address } from "../../design/address.js";
import type { Hop } from "../../design/design.js";
import type { AvailabilityClass, QualityShare } from "../../design/objective.js";
import { largerShare } from "../../propagation/p530/total.js";
import type { Step } from "../account/lack.js";
import type { ModeResult } from "../account/level-result.js";
import type { LeftOut } from "../account/note.js";
import type { ObjectiveResult, Outage } from "../account/outage-result.js";
import type { HopResult } from "../account/result.js";
import { cite, missing, refused, type Trace, use } from "../account/trace.js";
import { boundedRain } from "../fading/bounded-rain.js";
import { judgedMode } from "../level/judged-mode.js";
import { usesUnchecked } from "../path/climate.js";
import { outageVerdict } from "./outages.js";

/** The objectives of a link and of its error performance, held against the worse direction of the judged mode. */
export function objectiveResults(
  hop: Hop,
  found: Pick<HopResult, "directions" | "distanceM" | "availability">,
  trace: Trace,
): readonly ObjectiveResult[] | undefined {
  const { objective } = hop;
  const { distanceM } = found;
  if (objective === undefined || distanceM === undefined) return undefined;
  const modes = found.directions.flatMap(({ modes: each }) => judgedMode(hop, each) ?? []);
  if (modes.length < 2) return undefined;
  const { availabilityClass, quality } = objective;
  const checked = (step: Step, method: LeftOut) => {
    if (usesUnchecked(hop.climate, method, trace)) return true;
    missing(trace, { code: "left out", of: [step], reason: { code: "method-left-out", method } });
    return false;
  };
  const results = [
    availabilityClass && checked("link availability", "link-availability")
      ? linkAvailability(hop, availabilityClass, { ...found, distanceM, modes }, trace)
      : undefined,
    quality && checked("link quality", "link-quality")
      ? linkQuality(quality, distanceM, modes, trace)
      : undefined,
  ].filter((one) => one !== undefined);
  return results.length === 0 ? undefined : results;
}

/** Failures count in an objective of all causes: without them it may be missed, never met. */
function missEquipment(hop: Hop, trace: Trace): void {
  const of: readonly Step[] = ["link availability"];
  if (hop.radio !== undefined && hop.radio.mtbfHours === undefined)
    missing(trace, { code: "catalogue", of, reason: { code: "no-mtbf", radio: hop.radio.name } });
  else if (hop.repairHours !== undefined)
    missing(trace, { code: "refusal", of, reason: { code: "failures-unknown" } });
  if (hop.repairHours === undefined)
    missing(trace, {
      code: "fact",
      of,
      reason: { code: "no-repair-time" },
      fact: { code: "repair-time" },
      at: address("hop", hop.name, "repair-time"),
    });
}

const PORTIONS: Readonly<Record<AvailabilityClass["portion"], Portion>> = {
  "long-haul": "international or national long haul",
  "short-haul": "national short haul",
  access: "national access",
};

interface FoundForLink extends Pick<HopResult, "availability"> {
  readonly distanceM: number;
  /** The judged one of each direction. */
  readonly modes: readonly ModeResult[];
}

/** Unavailability is precipitation and equipment: fades of clear air are too short to count. */
function linkAvailability(
  hop: Hop,
  { portion, linkLengthM, propagationPercent }: AvailabilityClass,
  { distanceM: hopLengthM, modes, availability }: FoundForLink,
  trace: Trace,
): ObjectiveResult | undefined {
  const equipment = availability?.equipment;
  const lengthM = linkLengthM ?? hopLengthM;
  const link = availabilityObjective({ portion: PORTIONS[portion], lengthM });
  const share = link.ok
    ? hopShare({ linkUnavailability: link.unavailability, hopLengthM, linkLengthM: lengthM })
    : link;
  if (!share.ok) {
    refused(trace, "link availability", share.refusal);
    return undefined;
  }
  const rain = worstRain(modes);
  if (rain === undefined) return undefined;
  cite(trace, "link-availability");
  const propagationOnly = propagationPercent !== undefined;
  const allowedPercent = 100 * share.unavailability * (propagationOnly ? propagationPercent / 100 : 1);
  const ofEquipment = propagationOnly ? 0 : (equipment?.unavailabilityPercent ?? 0);
  const { timePercent, bound, atMostPercent } = rain;
  const lacksFailures = equipment === undefined && !propagationOnly;
  const known = outageVerdict(ofEquipment, rain, allowedPercent);
  const verdict = known === "met" && lacksFailures ? "open" : known;
  if (verdict === "open" && lacksFailures) missEquipment(hop, trace);
  if (verdict === "open" && bound !== undefined) missing(trace, boundedRain(bound));
  return {
    method: "link-availability",
    allowedPercent,
    foundPercent: Math.min(100, timePercent + ofEquipment),
    bound,
    atMostPercent: atMostPercent === undefined ? undefined : Math.min(100, atMostPercent + ofEquipment),
    failuresPercent: propagationOnly || equipment === undefined ? undefined : ofEquipment,
    counts: propagationOnly
      ? "precipitation"
      : equipment
        ? "precipitation-and-equipment"
        : "precipitation-equipment-unknown",
    verdict,
  };
}

/** Rain of the worse direction; a mode without margin is out all the time. */
function worstRain(modes: readonly ModeResult[]): Outage | undefined {
  const each = modes.map(({ fadeMarginDb, rain }) => (fadeMarginDb > 0 ? rain : ALL_THE_TIME));
  return each.reduce((worst, one) => (worst && one ? largerShare(worst, one) : undefined));
}

const ALL_THE_TIME: Outage = { timePercent: 100 };

/** Share of a national portion where the design states none, percent: in the middle of 7.5 to 8.5 % (from memory). */
const NATIONAL_SHARE_PERCENT = 8;
/** The least length that the international portion is reckoned with, m. */
const LEAST_LINK_M = 50_000;

function linkQuality(
  { portion, linkLengthM, sharePercent, blockRatio = 1 }: QualityShare,
  hopLengthM: number,
  modes: readonly ModeResult[],
  trace: Trace,
): ObjectiveResult | undefined {
  // Severely errored seconds are the same for every path of the table.
  const endToEnd = ERROR_PERFORMANCE[0]!;
  const lengthM = linkLengthM ?? hopLengthM;
  const international = portion === "intermediate" || portion === "terminating";
  if (!international && sharePercent === undefined)
    use(trace, { code: "national-share", sharePercent: NATIONAL_SHARE_PERCENT }, "default");
  const link = international
    ? internationalErrorObjective({
        endToEnd,
        country: portion,
        lengthM: Math.max(lengthM, LEAST_LINK_M),
        blockRatio,
      })
    : { ok: true as const, sesr: ((sharePercent ?? NATIONAL_SHARE_PERCENT) / 100) * endToEnd.sesr };
  const share = link.ok
    ? hopShare({ linkUnavailability: link.sesr, hopLengthM, linkLengthM: lengthM })
    : link;
  if (!share.ok) {
    refused(trace, "link quality", share.refusal);
    return undefined;
  }
  const foundPercent = worstMultipath(modes);
  if (foundPercent === undefined) return undefined;
  cite(trace, "link-quality");
  const allowedPercent = 100 * share.unavailability;
  return {
    method: "link-quality",
    allowedPercent,
    foundPercent,
    counts: "clear-air",
    verdict: foundPercent <= allowedPercent ? "met" : "missed",
  };
}

function worstMultipath(modes: readonly ModeResult[]): number | undefined {
  const each = modes.map((mode) => (mode.fadeMarginDb > 0 ? mode.multipathWorstMonthPercent : 100));
  return each.some((one) => one === undefined) ? undefined : Math.max(...(each as number[]));
}
