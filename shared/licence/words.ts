/** How licences and what departs from them are told. */
import type { Licence } from "../design/licence.js";
import { bandwidth, frequency } from "../format/numbers.js";
import type { Departure } from "./departures.js";
import type { Transmission } from "./transmissions.js";

/** `licence F-2031/14` */
export function licenceName({ number }: Pick<Licence, "number">): string {
  return `licence ${number}`;
}

/** `18.565 GHz, 55 MHz, vertical` */
export function onTheAir({
  frequencyHz,
  bandwidthHz,
  polarization,
}: Pick<Partial<Transmission>, "frequencyHz" | "bandwidthHz" | "polarization">): string {
  return [
    frequencyHz === undefined ? undefined : frequency(frequencyHz),
    bandwidthHz === undefined ? undefined : bandwidth(bandwidthHz),
    polarization,
  ]
    .filter((part) => part !== undefined)
    .join(", ");
}

/** `frequency 18.565 GHz and height 24.0 m` */
export function isWords(departures: readonly Departure[]): string {
  return listed(departures.map(({ figure, is }) => `${figure} ${is}`));
}

/** `18.62 GHz and 30.0 m` */
export function grantedWords(departures: readonly Departure[]): string {
  return listed(departures.map(({ granted }) => granted));
}

function listed(parts: readonly string[]): string {
  return parts.length < 2 ? (parts[0] ?? "") : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;
}
