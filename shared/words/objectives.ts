/** Objectives beside the availability, and what protects against failures, in words. */
import type { EquipmentOutage, ObjectiveResult } from "../evaluate/account/outage-result.js";
import { type Message, message } from "./message.js";

const OBJECTIVES: Readonly<Record<ObjectiveResult["method"], string>> = {
  "link-availability": "unavailability of the link",
  "link-quality": "severely errored seconds",
};

const COUNTED: Readonly<Record<ObjectiveResult["counts"], string>> = {
  precipitation: "precipitation",
  "precipitation-and-equipment": "precipitation and equipment",
  "precipitation-equipment-unknown": "precipitation, equipment not known",
  "clear-air": "clear air in the worst month",
};

/** What the objective is about. */
export function objectiveMessage({ method }: Pick<ObjectiveResult, "method">): Message {
  return message(OBJECTIVES[method]);
}

/** What was held against it. */
export function countedMessage({ counts }: Pick<ObjectiveResult, "counts">): Message {
  return message(COUNTED[counts]);
}

/** For example `a pair of units at each end`, `a pair of units at KELD; none, one unit at TARN`. */
export function protectionMessage({
  protection,
  protectionByEnd,
}: Pick<EquipmentOutage, "protection" | "protectionByEnd">): Message {
  const each = protectionByEnd ?? [{ site: "each end", ...protection }];
  return message(each.map(({ kind, sets, site }) => PROTECTION[kind](sets, site)).join("; "));
}

const PROTECTION: Readonly<
  Record<EquipmentOutage["protection"]["kind"], (sets: number, at: string) => string>
> = {
  "n+1": (sets, at) => `one standby for ${sets} units at ${at}, outage of one channel`,
  pairs: (sets, at) => `${sets === 1 ? "a pair of units" : `${sets} pairs of units in series`} at ${at}`,
  none: (sets, at) => (sets === 1 ? `none, one unit at ${at}` : `none, ${sets} units in series at ${at}`),
};
