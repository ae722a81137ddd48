/** Power, loss and gain as they are printed: who adds them up comes to the printed EIRP. */
import { fixed } from "../../../format/numbers.js";
import type { Transmission } from "../../../licence/transmissions.js";

type Terms = Pick<Transmission, "powerDbm" | "lossDb" | "gainDbi" | "greatestEirpDbm">;

/** Of the main unit, in the mode of most power. */
export function mainEirpDbm({ powerDbm, lossDb, gainDbi }: Terms): number | undefined {
  return powerDbm === undefined || lossDb === undefined || gainDbi === undefined
    ? undefined
    : powerDbm - lossDb + gainDbi;
}

/** The standby unit, with less loss before it or another antenna, has more than the main one. */
export function isOfStandby(sent: Terms): boolean {
  const mainDbm = mainEirpDbm(sent);
  const { greatestEirpDbm } = sent;
  return mainDbm !== undefined && greatestEirpDbm !== undefined && greatestEirpDbm > mainDbm + 1e-6;
}

const MOST_DIGITS = 4;

/** The fewest decimals with which the rounded terms make the rounded sum; at most four. */
export function eirpDigits(sent: Terms): number {
  const mainDbm = mainEirpDbm(sent);
  if (mainDbm === undefined) return 1;
  for (let digits = 1; digits < MOST_DIGITS; digits++)
    if (roundedLoss(sent, mainDbm, digits) === fixed(sent.lossDb!, digits)) return digits;
  return MOST_DIGITS;
}

/** With the most decimals the loss takes what rounding leaves, a ten-thousandth of a decibel. */
export function printedLossDb(sent: Terms, digits: number): number | undefined {
  const mainDbm = mainEirpDbm(sent);
  if (mainDbm === undefined || digits < MOST_DIGITS) return sent.lossDb;
  return Number(roundedLoss(sent, mainDbm, digits));
}

/** What the other three leave for it, as printed. */
function roundedLoss({ powerDbm, gainDbi }: Terms, mainDbm: number, digits: number): string {
  const printed = (value: number) => Number(value.toFixed(digits));
  return fixed(printed(powerDbm!) + printed(gainDbi!) - printed(mainDbm), digits);
}
