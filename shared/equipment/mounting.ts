/** How units or coupler of an end meet its antennas, and what leads there. */
import type { Antenna } from "../design/catalogue.js";
import type { Hop, HopEnd, Mounting } from "../design/design.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { arrangementByName, SINGLE } from "../radio/arrangements.js";
import { isLedAlone, type Stand, standsOf } from "./stands.js";

/** Where the catalogue says nothing. Common practice, from memory: usual to 1.2 m, possible to 1.8 m. */
const LARGEST_DIRECT_M = 1.8;

/** Antennas of an end that its arrangement uses. */
export function antennasUsed(hop: Pick<Hop, "arrangement">, end: HopEnd): readonly Stand[] {
  return standsOf(end, factsAt(hop, end) ?? SINGLE).filter(({ antenna }) => antenna !== undefined);
}

/** As the line of the antenna's coupler says, else the end; a feeder alone means separate. Undefined: not said. */
export function mountingOf(
  end: HopEnd,
  { mounting, feeder }: Pick<Stand, "mounting" | "feeder">,
): Mounting | undefined {
  return mounting ?? end.installation?.mounting ?? (feeder === undefined ? undefined : "separate");
}

/** The fact that says it. */
export function mountingFact({ mounting, couplerFact }: Stand): string {
  return mounting === undefined ? "mounting" : couplerFact;
}

/** Whether units or coupler may sit on the back of an antenna: as it states, else by its diameter. */
export function takesDirect({ mount, diameterM }: Antenna): boolean {
  return mount?.direct ?? !(diameterM !== undefined && diameterM > LARGEST_DIRECT_M);
}

/** Whether transmitter and receiver stand in the rack: as the arrangement says, or the radio. */
export function isAllIndoor({ arrangement, radio }: Pick<Hop, "arrangement" | "radio">): boolean {
  const built = [arrangementByName(arrangement.name)?.construction, radio?.unit?.construction];
  return built.includes("all-indoor");
}

/**
 * What leads from the units to an antenna: a feeder that the design names; nothing, where units sit on the antenna; a
 * short piece that nobody has chosen yet, since units stand apart or can't sit there; the long line of an all-indoor
 * radio that nobody has named.
 */
export type Lead = "feeder" | "none" | "piece to choose" | "line to choose";

/** @returns "none" also where no antenna is stated, and where direct mounting is stated that the antenna can't take */
export function leadTo(hop: Pick<Hop, "arrangement" | "radio">, end: HopEnd, stand: Stand): Lead {
  if (isLedAlone(stand)) return "feeder";
  if (stand.feeder !== undefined) return isDirectBeside(hop, end, stand) ? "none" : "feeder";
  if (stand.antenna === undefined) return "none";
  if (isAllIndoor(hop)) return "line to choose";
  const mounting = mountingOf(end, stand);
  if (mounting !== undefined) return mounting === "separate" ? "piece to choose" : "none";
  return takesDirect(stand.antenna) ? "none" : "piece to choose";
}

/** The feeder of an end leads to the antennas that units stand apart from; where they do so nowhere, to all. */
function isDirectBeside(hop: Pick<Hop, "arrangement">, end: HopEnd, stand: Stand): boolean {
  const isDirect = (one: Stand) => mountingOf(end, one) === "direct";
  return isDirect(stand) && antennasUsed(hop, end).some((one) => !isDirect(one));
}
