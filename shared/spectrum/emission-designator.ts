/** Designation of emissions. Radio Regulations Appendix 1; read in 47 CFR 2.201 and 2.202. */
import type { MethodReference } from "../propagation/method.js";

export const METHOD: MethodReference = {
  recommendation: "Radio Regulations",
  section: "Appendix 1",
  title: "Emission designator and necessary bandwidth",
  status: "read in implementations",
  note:
    "Notation and its 15 examples were read in 47 CFR 2.202(b); that they are those of Appendix 1 is from memory. That " +
    "999.6 kHz becomes 1M00 is our reading. Which letters a licensing desk wants varies.",
  checked: {
    by: "the 15 examples of the rule and computed ones",
    vectors: ["emission-designator"],
    tolerance: "exact",
  },
};

/** What a designator says. */
export interface Emission {
  readonly necessaryBandwidthHz: number;
  /** Modulation, signal, information: `D7W`; absent where only the bandwidth is written. */
  readonly emissionClass?: string;
  /** The two optional symbols, of details and multiplexing. */
  readonly details?: string;
}

/** Hertz of one unit of the letter that stands in place of the decimal point. */
const UNITS = { H: 1, K: 1e3, M: 1e6, G: 1e9 } as const;

/** Bandwidth, class, details: three numerals and a letter, first neither 0 nor K, M, G; symbols of 47 CFR 2.201. */
const FORM =
  /^(H\d{3}|[1-9][HKMG]\d{2}|[1-9]\d[HKMG]\d|[1-9]\d{2}[HKMG])(?:([NAHRJBCFGDPKLMQVWX][0123789X][NABCDEFWX])([A-NX][NCFTWX])?)?$/;

/**
 * Reads a designator, or its bandwidth alone: `28M0D7W`, `28M0`. Small letters and spaces are taken too.
 *
 * Ranges: H 0.001 to 999 Hz, K 1.00 to 999 kHz, M and G likewise.
 * @returns undefined for anything else
 * @see Radio Regulations Appendix 1. Read in 47 CFR 2.201, 2.202(b), see METHOD; the optional symbols are from memory
 * @example readEmission("13M8D7W") // 13.8 MHz, D7W
 */
export function readEmission(designator: string): Emission | undefined {
  const found = FORM.exec(designator.replaceAll(/\s/g, "").toUpperCase());
  const [, width, emissionClass, details] = found ?? [];
  if (width === undefined) return undefined;
  const unit = /[HKMG]/.exec(width)![0] as keyof typeof UNITS;
  // Whole numbers divided by a power of ten: rounded once, so 29M7 is 29700000 exactly.
  const decimals = width.length - 1 - width.indexOf(unit);
  const necessaryBandwidthHz = (Number(width.replace(unit, "")) * UNITS[unit]) / 10 ** decimals;
  if (!(necessaryBandwidthHz > 0)) return undefined;
  return {
    necessaryBandwidthHz,
    ...(emissionClass !== undefined && { emissionClass }),
    ...(details !== undefined && { details }),
  };
}

/**
 * Writes a necessary bandwidth: three numerals and one letter in place of the decimal point; half rounds up.
 * @param bandwidthHz 0.001 Hz (rounded) to 999 GHz; else undefined
 * @param emissionClass put behind it; `D7W` is usual for QAM, `G7W` for PSK (common practice, from memory)
 * @see Radio Regulations Appendix 1. Read in 47 CFR 2.202(b), see METHOD
 * @example emissionDesignator(13_750_000, "D7W") // "13M8D7W"
 */
export function emissionDesignator(bandwidthHz: number, emissionClass = ""): string | undefined {
  if (!(bandwidthHz > 0 && bandwidthHz < 1e12)) return undefined;
  const power = Math.max(-1, Math.floor(Math.log10(bandwidthHz)));
  // In units of the third numeral (thousandths of a hertz below 1 Hz). A binary fraction may stand a hair below its half.
  const exponent = power - 2;
  const numerals = Math.floor(timesPowerOfTen(bandwidthHz, -exponent) * (1 + 1e-12) + 0.5);
  if (numerals >= 1000) return written(numerals / 10, power + 1, emissionClass);
  return numerals === 0 ? undefined : written(numerals, power, emissionClass);
}

function written(numerals: number, power: number, emissionClass: string): string | undefined {
  const digits = String(numerals).padStart(3, "0");
  if (power < 0) return `H${digits}${emissionClass}`;
  const letter = "HKMG"[Math.floor(power / 3)];
  if (letter === undefined) return undefined;
  const before = (power % 3) + 1;
  return `${digits.slice(0, before)}${letter}${digits.slice(before)}${emissionClass}`;
}

function timesPowerOfTen(value: number, power: number): number {
  return power >= 0 ? value * 10 ** power : value / 10 ** -power;
}
