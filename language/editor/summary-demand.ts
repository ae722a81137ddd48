/** A demand in a few lines. */
import type { Demand, RoutePoint } from "../../shared/design/demand.js";
import * as write from "../../shared/format/numbers.js";

export function demandLines(demand: Demand | undefined): string[] {
  if (!demand) return [];
  const { from, to, committedBps, peakBps, e1, stm1, via, secondRoute } = demand;
  const carried = [
    committedBps === undefined ? undefined : `${write.bitRate(committedBps)} committed`,
    peakBps === undefined ? undefined : `${write.bitRate(peakBps)} at most`,
    e1 === undefined ? undefined : `${e1} E1`,
    stm1 === undefined ? undefined : `${stm1} STM-1`,
  ];
  return [
    from === undefined && to === undefined ? undefined : `from ${from ?? "?"} to ${endOf(to)}`,
    joined(carried),
    joined([
      percent("availability", demand.availabilityPercent),
      percent("with equipment", demand.availabilityWithEquipmentPercent),
      demand.latencyS === undefined ? undefined : `latency ${write.trimmed(demand.latencyS * 1e3, 3)} ms`,
    ]),
    via && `via ${pointsText(via)}`,
    secondRoute &&
      `second route, disjoint ${secondRoute.disjoint}${secondRoute.via ? ` via ${pointsText(secondRoute.via)}` : ""}`,
  ].filter((line) => line !== undefined);
}

function endOf(to: Demand["to"]): string {
  if (to === undefined) return "?";
  return to === "handover" ? "the first handover" : to.site;
}

function percent(word: string, value: number | undefined): string | undefined {
  return value === undefined ? undefined : `${word} ${write.availability(value)}`;
}

function pointsText(points: readonly RoutePoint[]): string {
  return points.map((point) => ("site" in point ? point.site : point.hop)).join(", ");
}

function joined(parts: readonly (string | undefined)[]): string | undefined {
  const said = parts.filter((part) => part !== undefined);
  return said.length > 0 ? said.join(", ") : undefined;
}
