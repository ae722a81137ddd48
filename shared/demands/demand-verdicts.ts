/** What of what a demand asks its routes meet, miss or leave open, and what is not known then. Unknown is not met. */
import type { Verdict } from "../evaluate/account/outage-result.js";
import { USUAL_CLOCK_HOPS } from "./clocks.js";
import type { DemandOutage, DemandResult, HopOfRoute, OpenLack } from "./result.js";
import type { HopShare, RouteOutage } from "./route-outage.js";
import type { HopOfNetwork, Traffic } from "./traffic.js";

/** A hop on the way of the demand, with its shares of time at what it may be at least, as computed, and at most. */
export interface Passed {
  readonly number: number;
  readonly hop: HopOfNetwork;
  readonly told: HopOfRoute;
  /** False: no mode takes all that must be carried; undefined: no mode is known. */
  readonly carries?: boolean;
  readonly share?: HopShare;
  readonly least?: HopShare;
  readonly most?: HopShare;
}

/** What its routes lose, and what they may lose at least and at most where rain is only bounded. */
export interface FoundOutage {
  readonly told: DemandOutage;
  readonly found: RouteOutage;
  readonly least: RouteOutage;
  readonly most: RouteOutage;
  readonly equipmentKnown: boolean;
}

export function verdictsOf(
  told: Omit<DemandResult, "verdicts" | "open" | "short" | "singlePoints">,
  outage: FoundOutage | undefined,
  passed: readonly Passed[],
  { terms }: Traffic,
): DemandResult["verdicts"] {
  const { demand, route, second, clock } = told;
  const { availabilityPercent, availabilityWithEquipmentPercent, latencyS } = demand;
  const isOpen = passed.some(({ hop }) => hop.groundUnknown);
  const verdict = (of: (one: RouteOutage) => number, percent: number): Verdict => {
    if (outage === undefined) return "open";
    const allowed = (100 - percent) / 100 + 1e-12;
    if (of(outage.least) > allowed) return "missed";
    return of(outage.most) <= allowed && !isOpen ? "met" : "open";
  };
  const limit = terms.clockHops ?? USUAL_CLOCK_HOPS;
  const clockVerdict = (): Verdict => {
    if (clock === undefined || clock.hops > limit) return "missed";
    if (demand.clock === "one-feed") return "met";
    return clock.secondHops !== undefined && clock.secondHops <= limit ? "met" : "missed";
  };
  const isTimed = passed.every(
    ({ hop }) => !hop.lengthUnknown && hop.capacity.length > 0 && !hop.capacityPartly,
  );
  const slowestS = Math.max(route!.latency.totalS, second?.latency.totalS ?? 0);
  return {
    ...(availabilityPercent !== undefined && {
      availability: verdict(({ propagation }) => propagation, availabilityPercent),
    }),
    ...(availabilityWithEquipmentPercent !== undefined && {
      availabilityWithEquipment:
        outage === undefined || outage.equipmentKnown
          ? verdict(({ all }) => all, availabilityWithEquipmentPercent)
          : verdict(({ propagation }) => propagation, availabilityWithEquipmentPercent) === "missed"
            ? "missed"
            : "open",
    }),
    ...(latencyS !== undefined && {
      latency: slowestS > latencyS ? ("missed" as const) : isTimed ? ("met" as const) : ("open" as const),
    }),
    ...(demand.clock !== undefined && { clock: clockVerdict() }),
    ...(demand.secondRoute !== undefined && {
      secondRoute: second !== undefined && told.secondProblem === undefined ? "met" : "missed",
    }),
  };
}

/** Hops of its routes of which too little is known for what it asks, and what lacks. */
export function openOf(
  { demand }: Pick<DemandResult, "demand">,
  passed: readonly Passed[],
  outage: FoundOutage | undefined,
): DemandResult["open"] {
  const { committedBps = 0, e1 = 0, stm1 = 0, latencyS } = demand;
  const { availabilityPercent, availabilityWithEquipmentPercent: withEquipment } = demand;
  const asksTime = availabilityPercent !== undefined || withEquipment !== undefined;
  const asksRate = committedBps > 0 || e1 > 0 || stm1 > 0;
  return passed.flatMap(({ hop, carries, share, least, most }) => {
    const lacks: OpenLack[] = [];
    const isTimeless = latencyS !== undefined && (hop.capacity.length === 0 || hop.capacityPartly);
    if ((carries === undefined && (asksRate || asksTime)) || isTimeless) lacks.push("capacity");
    else if (share === undefined && asksTime) lacks.push("outage");
    if (least?.rainFraction !== most?.rainFraction && asksTime) lacks.push("rain");
    if (hop.lengthUnknown && latencyS !== undefined) lacks.push("length");
    if (hop.groundUnknown && asksTime) lacks.push("ground");
    if (
      outage &&
      !outage.equipmentKnown &&
      hop.equipmentFraction === undefined &&
      withEquipment !== undefined
    )
      lacks.push("equipment");
    return lacks.length === 0 ? [] : [{ hop: hop.name, lacks }];
  });
}
