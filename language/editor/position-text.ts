import type { Position } from "../../shared/design/design.js";
import { trimmed } from "../../shared/format/numbers.js";

/** `47°27'12.4"N 30°34'51.0"W`: degrees, minutes and seconds to a tenth (about 3 m). */
export function positionText({ latitudeDeg, longitudeDeg }: Position): string {
  return `${angleText(latitudeDeg, "N", "S")} ${angleText(longitudeDeg, "E", "W")}`;
}

/** `47.453444 -30.580833`: six decimals are about a tenth of a metre. */
export function decimalText({ latitudeDeg, longitudeDeg }: Position): string {
  return `${trimmed(latitudeDeg, 6)} ${trimmed(longitudeDeg, 6)}`;
}

function angleText(angleDeg: number, positive: string, negative: string): string {
  // Rounded as a whole, so that 59.96" becomes the next minute and not 60.0".
  const tenths = Math.round(Math.abs(angleDeg) * 36_000);
  const degrees = Math.floor(tenths / 36_000);
  const minutes = Math.floor((tenths % 36_000) / 600);
  const seconds = ((tenths % 600) / 10).toFixed(1);
  return `${degrees}°${String(minutes).padStart(2, "0")}'${seconds.padStart(4, "0")}"${angleDeg < 0 ? negative : positive}`;
}
