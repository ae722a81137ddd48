/** How senders and receivers are called where people read. */
import { frequency, kilometres } from "../format/numbers.js";
import type { Entry } from "../interference/entry.js";
import { isOwn, type Owner, type Sender } from "../interference/station.js";

/** `KELD-TARN at KELD`, or `a transmission of others, "north relay", line 12` */
function senderWords({ of, place }: Pick<Sender, "of" | "place">): string {
  return isOwn(of) ? `${of.hop} at ${place.site}` : foreignWords(of);
}

export function foreignWords(of: Exclude<Owner, { readonly hop: string }>): string {
  const name = of.name === undefined ? "" : ` "${of.name}",`;
  return `a transmission of others,${name} line ${of.line}`;
}

/** The strongest entry as the end of a sentence. */
export function entryWords({
  sender,
  path,
  relation,
  offsetHz,
  leavesOffAxisDeg,
  arrivesOffAxisDeg,
}: Entry): string {
  const offset = Math.abs(offsetHz) < 1 ? "on the same frequency" : `${frequency(Math.abs(offsetHz))} apart`;
  return `${senderWords(sender)}, ${offset}, ${RELATION[relation]}, ${kilometres(path.distanceM)} away, ${degrees(leavesOffAxisDeg)} off its axis and ${degrees(arrivesOffAxisDeg)} off this one`;
}

const RELATION = {
  parallel: "same polarization",
  crossed: "crossed polarization",
  oblique: "polarizations at 45°",
} as const;

function degrees(value: number): string {
  return `${value.toFixed(1)}°`;
}
