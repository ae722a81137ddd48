/** A licence with the figures of the design, as the language writes it: to be held against what was granted. */
import { fixed, trimmed } from "../format/numbers.js";
import type { Transmission } from "./transmissions.js";

/**
 * Its head and the lines of its block, without a number and without days.
 * @param number as it is written: in quotes, or `?`
 */
export function licenceLines(sent: Transmission, number: string): readonly string[] {
  const { hop, site, frequencyHz, bandwidthHz, emission, polarization, antenna, antennaHeightM } = sent;
  const { greatestEirpDbm, position } = sent;
  const inner = [
    `frequency ${trimmed(frequencyHz / 1e9, 9)} GHz`,
    bandwidthHz === undefined ? undefined : `bandwidth ${trimmed(bandwidthHz / 1e6, 6)} MHz`,
    emission === undefined ? undefined : `emission ${emission}`,
    polarization === undefined ? undefined : `polarization ${polarization}`,
    // Rounded up: it is a most.
    greatestEirpDbm === undefined ? undefined : `eirp ${fixed(Math.ceil(greatestEirpDbm * 10) / 10, 1)} dBm`,
    antenna === undefined ? undefined : `antenna ${antenna}`,
    antennaHeightM === undefined ? undefined : `height ${trimmed(antennaHeightM, 3)} m`,
    position === undefined
      ? undefined
      : `at ${fixed(position.latitudeDeg, 6)} ${fixed(position.longitudeDeg, 6)}`,
  ];
  return [
    `licence ${number} of ${hop} from ${site} {`,
    ...inner.flatMap((line) => (line === undefined ? [] : [`  ${line}`])),
    "}",
  ];
}
