/** What the name of a modulation tells. */

/** More is no number of points. */
const MOST_POINTS = 2 ** 16;

/** Bits a symbol of those that are named without a number. */
const NAMED: Readonly<Record<string, number>> = { BPSK: 1, QPSK: 2 };

/**
 * Bits that a symbol of the modulation carries before coding: log2 of its points.
 * @param name as the catalogue writes it: `QPSK`, `128QAM`, `64-QAM`, `QAM256`, `16APSK`
 * @returns undefined where the name tells no number of points
 * @example bitsPerSymbol("128QAM") // 7
 */
export function bitsPerSymbol(name: string): number | undefined {
  const named = /[BQ]PSK/i.exec(name)?.[0].toUpperCase();
  if (named !== undefined) return NAMED[named];
  const number = /(\d+)\W?(?:QAM|A?PSK|TCM)|(?:QAM|PSK|TCM)\W?(\d+)/i.exec(name);
  const points = Number(number?.[1] ?? number?.[2]);
  return points >= 2 && points <= MOST_POINTS ? Math.log2(points) : undefined;
}
