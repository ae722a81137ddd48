/** How both sheets of a hop name a receiver and the window of its level. */
import type { ExpectedLevel } from "../../as-built/expected.js";
import type { Hop } from "../../design/design.js";
import { dbm } from "../../format/numbers.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import type { SheetWords } from "./words/sheet-words.js";

/** @param several the hop has more than one carrier */
export function receiverWords(
  { branch, carrier, polarization }: Pick<ExpectedLevel, "branch" | "carrier" | "polarization">,
  several: boolean,
  words: SheetWords,
): string {
  const parts = [
    words.roles[branch],
    several ? words.carrier(carrier) : undefined,
    several && polarization ? words.polarizations[polarization] : undefined,
  ];
  return parts.filter((part) => part !== undefined).join(", ");
}

/** As its receiver is named: units of the far end carry the same numbers. */
export function senderWords(
  { sender, carrier }: Pick<ExpectedLevel, "sender" | "carrier">,
  several: boolean,
  words: SheetWords,
): string {
  const role = words.roles[sender === "main" ? "main" : "standby"];
  return several ? `${role}, ${words.carrier(carrier)}` : role;
}

/** The way of a level from a sender to a receiver: what a reading is of. */
export function wayOf({ to, carrier, branch, sender }: ExpectedLevel): string {
  return `${to} ${carrier} ${branch} ${sender === "main" ? "main" : "standby"}`;
}

/** Whether an end has units that wait for others to fail. */
export function hasWaiting(hop: Hop): boolean {
  return hop.ends.some((end) => (factsAt(hop, end)?.protection ?? "none") !== "none");
}

/** Whether carriers go on both polarizations of one feed. */
export function hasBothPolarizations(hop: Hop): boolean {
  return hop.ends.some((end) => factsAt(hop, end)?.polarizations === 2);
}

/** `-46.0 to -40.0 dBm` */
export function windowWords(levelDbm: number, windowDb: number, { figure, common }: SheetWords): string {
  return figure(`${(levelDbm - windowDb).toFixed(1)} ${common.to} ${dbm(levelDbm + windowDb)}`);
}
