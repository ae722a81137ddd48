/** How both sheets of a hop name a receiver and the window of its level. */
import type { ExpectedLevel } from "../../as-built/expected.js";
import { dbm } from "../../format/numbers.js";
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

/** `-46.0 to -40.0 dBm` */
export function windowWords(levelDbm: number, windowDb: number, { figure, common }: SheetWords): string {
  return figure(`${(levelDbm - windowDb).toFixed(1)} ${common.to} ${dbm(levelDbm + windowDb)}`);
}
