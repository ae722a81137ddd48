import type { MethodReference } from "../propagation/method.js";
import { figures, negative, notPositive, type Outcome, outside, refuse } from "../propagation/outcome.js";
import {
  AVAILABILITY_ROWS,
  type AvailabilityRow,
  type ErrorPerformanceRow,
  type Portion,
} from "./objectives.data.js";

export const METHOD_F1703: MethodReference = {
  recommendation: "ITU-R F.1703",
  section: "",
  title: "Availability objectives of fixed wireless links",
  status: "from memory",
  note: "All coefficients from memory, not checked against the Recommendation; both long-haul rows meet at 250 km.",
  checked: {
    by: "worked by hand; both rows meet at 250 km",
    tolerance: "1e-9",
  },
};

export const METHOD_F1668: MethodReference = {
  recommendation: "ITU-R F.1668",
  section: "",
  title: "Error performance objectives, international portion",
  status: "from memory",
  note: "From memory, not checked against the Recommendation.",
  checked: {
    by: "worked by hand",
    tolerance: "1e-12",
  },
};

const REFERENCE_KM = 2500;
const SHORTEST_KM = 50;

/**
 * Availability objective of one direction of a link, all causes together (propagation, equipment, maintenance,
 * power).
 *
 *     AR = 1 - (B L/LR + C)      availability ratio, LR = 2500 km
 *     OI = D L/LR + E            outages a year;   mean time between them Mo = 1/OI
 *
 * with B, C, D and E of the portion and length (objectives.data.ts).
 * @param inputs.lengthM length L of the link, 0 < L <= 2500 km; under Lmin = 50 km it counts as 50 km
 * @returns availability as a fraction, and the number of outages a year with the mean time between them
 * @see Rec. ITU-R F.1703. From memory, not checked against the Recommendation.
 */
export function availabilityObjective(inputs: {
  readonly portion: Portion;
  readonly lengthM: number;
}): Outcome<{
  readonly availability: number;
  readonly unavailability: number;
  readonly outagesPerYear: number;
  readonly meanTimeBetweenOutagesYears: number;
  readonly steps: { readonly countedKm: number; readonly row: AvailabilityRow };
}> {
  const { portion, lengthM } = inputs;
  const unusable = notPositive({ lengthM });
  if (unusable) return refuse(unusable);
  const countedKm = Math.max(lengthM / 1000, SHORTEST_KM);
  const row = AVAILABILITY_ROWS.find(
    (each) => each.portion === portion && countedKm > each.overKm && countedKm <= each.upToKm,
  );
  if (!row) return refuse({ code: "link-too-long" });
  const unavailability = (row.B * countedKm) / REFERENCE_KM + row.C;
  const outagesPerYear = (row.D * countedKm) / REFERENCE_KM + row.E;
  return figures({
    availability: 1 - unavailability,
    unavailability,
    outagesPerYear,
    meanTimeBetweenOutagesYears: 1 / outagesPerYear,
    steps: { countedKm, row },
  });
}

/**
 * Share of a link's unavailability that falls to one of its hops, by length: `U d/L` (practice, no Recommendation).
 */
export function hopShare(inputs: {
  readonly linkUnavailability: number;
  readonly hopLengthM: number;
  readonly linkLengthM: number;
}): Outcome<{ readonly unavailability: number }> {
  const { linkUnavailability, hopLengthM, linkLengthM } = inputs;
  const unusable =
    outside({ linkUnavailability }, 0, 1) ?? negative({ hopLengthM }) ?? notPositive({ linkLengthM });
  if (unusable) return refuse(unusable);
  if (hopLengthM > linkLengthM) return refuse({ code: "hop-longer-than-link" });
  return figures({ unavailability: (linkUnavailability * hopLengthM) / linkLengthM });
}

/**
 * Error performance objectives of a real link in the international portion: its share F of the end-to-end figures.
 *
 *     F = FL + BL,   FL = 0.01 L/500,   BL = BR 0.02 min(L/Lref, 1)    intermediate country, Lref = 1000 km
 *                                       BL = BR 0.01 min(L/Lref, 1)    terminating country, Lref = 500 km
 *
 * @param inputs.country intermediate or terminating
 * @param inputs.lengthM L, 50 to 27500 km
 * @param inputs.blockRatio block ratio BR, 0 < BR <= 1, chosen by the operator
 * @returns share (fraction of the end-to-end objective) and the objectives; an absent ESR is not given
 * @see Rec. ITU-R F.1668. From memory, not checked against the Recommendation.
 */
export function internationalErrorObjective(inputs: {
  readonly endToEnd: ErrorPerformanceRow;
  readonly country: "intermediate" | "terminating";
  readonly lengthM: number;
  readonly blockRatio: number;
}): Outcome<{
  readonly sesr: number;
  readonly esr?: number;
  readonly bber: number;
  readonly steps: { readonly lengthShare: number; readonly blockShare: number; readonly share: number };
}> {
  const { endToEnd, country, lengthM, blockRatio } = inputs;
  const unusable =
    outside({ lengthM }, SHORTEST_KM * 1000, 27_500_000) ??
    notPositive({ blockRatio }) ??
    outside({ blockRatio }, 0, 1);
  if (unusable) return refuse(unusable);
  const lengthKm = lengthM / 1000;
  const [referenceKm, block] = country === "intermediate" ? [1000, 0.02] : [500, 0.01];
  const lengthShare = (0.01 * lengthKm) / 500;
  const blockShare = blockRatio * block * Math.min(lengthKm / referenceKm, 1);
  const share = lengthShare + blockShare;
  const objectives = { sesr: share * endToEnd.sesr, bber: share * endToEnd.bber };
  const steps = { lengthShare, blockShare, share };
  return endToEnd.esr === undefined
    ? figures({ ...objectives, steps })
    : figures({ ...objectives, esr: share * endToEnd.esr, steps });
}
