/** How units or coupler of an end meet the antenna, and what leads there. */
import type { Antenna, Hop, HopEnd } from "../design/design.js";
import { arrangementByName } from "../radio/arrangements.js";
import { standsOf } from "./stands.js";

/** Where the catalogue says nothing. Common practice, from memory: usual to 1.2 m, possible to 1.8 m. */
const LARGEST_DIRECT_M = 1.8;

/** As the coupler's line says, else the end's own; a feeder alone means separate. Undefined: not said. */
export function mountingOf(end: HopEnd): "direct" | "separate" | undefined {
  return end.mounting ?? end.installation?.mounting ?? (end.feeder === undefined ? undefined : "separate");
}

/** Whether units or coupler may sit on the back of an antenna: as it states, else by its diameter. */
export function takesDirect({ mount, diameterM }: Antenna): boolean {
  return mount?.direct ?? !(diameterM !== undefined && diameterM > LARGEST_DIRECT_M);
}

/** Antennas of an end that its arrangement uses, each as often as it hangs there: one feeder is stated for all. */
export function antennasOf({ arrangement }: Pick<Hop, "arrangement">, end: HopEnd): readonly Antenna[] {
  const facts = arrangementByName(arrangement.name);
  const stands = facts === undefined ? [{ antenna: end.antenna }] : standsOf(end, facts);
  return stands.flatMap(({ antenna }) => antenna ?? []);
}

/** Whether transmitter and receiver stand in the rack: as the arrangement says, or the radio. */
export function isAllIndoor({ arrangement, radio }: Pick<Hop, "arrangement" | "radio">): boolean {
  const built = [arrangementByName(arrangement.name)?.construction, radio?.unit?.construction];
  return built.includes("all-indoor");
}

/**
 * What leads from the units to the antennas of an end: a feeder that the design names; nothing, where units sit on the
 * antenna; a short piece that nobody has chosen yet, since units stand apart or can't sit there; the long line of an
 * all-indoor radio that nobody has named.
 */
export type Lead = "feeder" | "none" | "piece to choose" | "line to choose";

/** @returns "none" also where no antenna is stated, and where direct mounting is stated that the antenna can't take */
export function leadOf(hop: Pick<Hop, "arrangement" | "radio">, end: HopEnd): Lead {
  if (end.feeder !== undefined) return "feeder";
  if (end.antenna === undefined) return "none";
  if (isAllIndoor(hop)) return "line to choose";
  const mounting = mountingOf(end);
  if (mounting !== undefined) return mounting === "separate" ? "piece to choose" : "none";
  return antennasOf(hop, end).every(takesDirect) ? "none" : "piece to choose";
}
