/** What two angles that cannot be read may have been meant as. */
import { parsePosition } from "../../shared/geodesy/coordinates.js";

export interface PositionReading {
  readonly newText: string;
  readonly certain?: true;
}

/** Each turns a way of writing that is not read into one that is; undefined: it is not written so. */
type Rewriting = (text: string) => readonly string[];

/** `47,5 -30,5`: the decimal comma. */
const withPoints: Rewriting = (text) => [text.replace(/(\d),(?=\d)/g, "$1.")];

/** `-30.5W`: the letter says it. Who turns it once more means a place on the other side of the meridian. */
const withoutSign: Rewriting = (text) => [text.replace(/[-−]\s*(\d[^\s]*[NSEW])/gi, "$1")];

/** `54 27 12.4 N 3 04 51.0 W` and `54 27 12.4 -3 04 51.0`: degrees, minutes and seconds without their signs. */
const withSigns: Rewriting = (text) => {
  const parts =
    /^([-+−]?\d+) (\d+) (\d+(?:\.\d+)?) ?([NS]?) ([-+−]?\d+) (\d+) (\d+(?:\.\d+)?) ?([EW]?)$/i.exec(text);
  if (!parts) return [];
  const [, d1, m1, s1, letter1, d2, m2, s2, letter2] = parts as unknown as readonly string[];
  const north = hemisphere(d1!, letter1!, "N", "S");
  const east = hemisphere(d2!, letter2!, "E", "W");
  return [`${bare(d1!)}°${m1}'${s1}"${north} ${bare(d2!)}°${m2}'${s2}"${east}`];
};

function hemisphere(degrees: string, letter: string, positive: string, negative: string): string {
  return letter !== "" ? letter.toUpperCase() : /^[-−]/.test(degrees) ? negative : positive;
}

function bare(degrees: string): string {
  return degrees.replace(/^[-+−]/, "");
}

/** `-130.5 47.5`: longitude first. */
const exchanged: Rewriting = (text) => {
  const [first, second, ...more] = text.split(" ");
  return second === undefined || more.length > 0 ? [] : [`${second} ${first}`];
};

/** `47°65'N`: there are no such minutes, so what stands behind the degrees are their decimals. */
const asDecimals: Rewriting = (text) => [text.replace(/(\d+)°([6-9]\d)['′’](?=[NSEW]|\s|$)/gi, "$1.$2°")];

const ONE_READING: readonly Rewriting[] = [withPoints, withSigns];
const FURTHER: readonly Rewriting[] = [withoutSign, exchanged, asDecimals];

/**
 * The likeliest first; what still cannot be read is left out.
 * @param text angles parted by single blanks
 * @example positionReadings("47,5 -30,5") // [{ newText: "47.5 -30.5", certain: true }]
 */
export function positionReadings(text: string): readonly PositionReading[] {
  const isRead = (written: string) => written !== text && parsePosition(written).ok;
  const plain = [...new Set(ONE_READING.flatMap((rewrite) => rewrite(text)))].filter(isRead);
  if (plain.length === 1) return [{ newText: plain[0]!, certain: true }];
  const pointed = withPoints(text)[0]!;
  const found = FURTHER.flatMap((rewrite) => rewrite(pointed)).filter(isRead);
  return [...new Set([...plain, ...found])].map((newText) => ({ newText }));
}
