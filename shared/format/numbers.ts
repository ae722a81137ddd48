/**
 * How figures are written in messages and tables: one place, so that the same number reads the same
 * everywhere. No locale: a decimal point, a space before the unit.
 */
import { MINUTES_A_YEAR } from "../units/year.js";

/** Every figure takes further decimals where two of them must be told apart: see `apart`. */
export function metres(valueM: number, moreDigits = 0): string {
  return `${fixed(valueM, 1 + moreDigits)} m`;
}

/**
 * Two figures, one held against the other, with so many decimals that they read differently; equal ones, and those
 * that differ by rounding in the computation only, read the same.
 */
export function apart(
  write: (value: number, moreDigits?: number) => string,
  a: number,
  b: number,
): [string, string] {
  for (let more = 0; more <= 5; more++) {
    const both: [string, string] = [write(a, more), write(b, more)];
    if (both[0] !== both[1]) return both;
  }
  return [write(a), write(b)];
}

/** Kilometres: one decimal from 10 km, two below. */
export function kilometres(distanceM: number, moreDigits = 0): string {
  const km = distanceM / 1000;
  return `${fixed(km, (Math.abs(km) < 9.995 ? 2 : 1) + moreDigits)} km`;
}

export function watts(powerW: number, moreDigits = 0): string {
  return `${trimmed(powerW, moreDigits)} W`;
}

/** A difference with so many decimals that it does not read as nothing. */
export function difference(write: (value: number, moreDigits?: number) => string, value: number): string {
  return apart(write, value, 0)[0];
}

/**
 * What is more or less than something else, with its sign; what is written as nothing has none, so that two that are
 * equal read alike whatever a computation left behind.
 * @example signed(decibels, 1.2) -> "+1.2 dB", signed(decibels, 1e-14) -> "0.0 dB"
 */
export function signed(write: (value: number) => string, value: number): string {
  const text = write(value);
  return value > 0 && Number.parseFloat(text) !== 0 ? `+${text}` : text;
}

export function decibels(valueDb: number, moreDigits = 0): string {
  return `${fixed(valueDb, 1 + moreDigits)} dB`;
}

export function dbm(powerDbm: number, moreDigits = 0): string {
  return `${fixed(powerDbm, 1 + moreDigits)} dBm`;
}

export function dbi(gainDbi: number, moreDigits = 0): string {
  return `${fixed(gainDbi, 1 + moreDigits)} dBi`;
}

export function degrees(angleDeg: number): string {
  return `${fixed(angleDeg, 2)} deg`;
}

/** Frequency in MHz below 1 GHz, else in GHz with as many decimals as a channel raster needs. */
export function frequency(frequencyHz: number): string {
  return Math.abs(frequencyHz) < 1e9
    ? `${trimmed(frequencyHz / 1e6, 4)} MHz`
    : `${gigahertz(frequencyHz)} GHz`;
}

/** Without its unit. To the kilohertz: what is licensed must not be rounded off its raster. */
export function gigahertz(frequencyHz: number): string {
  return trimmed(frequencyHz / 1e9, 6);
}

export function bandwidth(bandwidthHz: number): string {
  return `${trimmed(bandwidthHz / 1e6, 3)} MHz`;
}

/** In Mbit/s as the trade has it; less than one in kbit/s, from a thousand on in Gbit/s. */
export function bitRate(bitRateBps: number, moreDigits = 0): string {
  const rate = Math.abs(bitRateBps);
  if (rate > 0 && rate < 1e6) return `${trimmed(bitRateBps / 1e3, 1 + moreDigits)} kbit/s`;
  return rate < 1e9
    ? `${trimmed(bitRateBps / 1e6, 1 + moreDigits)} Mbit/s`
    : `${trimmed(bitRateBps / 1e9, 3 + moreDigits)} Gbit/s`;
}

/** Availability in percent, with so many digits that two significant ones of the outage are seen. */
export function availability(percent: number, moreDigits = 0): string {
  const outage = 100 - percent;
  const wanted = outage > 0 ? Math.min(7, 1 - Math.floor(Math.log10(outage))) : 4;
  return `${trimmed(percent, Math.max(wanted, 2) + moreDigits)} %`;
}

/** A small share of time in percent, two significant digits, never in powers of ten. */
export function outage(percent: number, moreDigits = 0): string {
  if (!(Math.abs(percent) > 0)) return "0 %";
  const digits = Math.min(10, Math.max(0, 1 - Math.floor(Math.log10(Math.abs(percent)))));
  return `${trimmed(percent, digits + moreDigits)} %`;
}

/**
 * Share of an average year (365.25 days) in minutes, below a minute in seconds, from ten hours on in hours. What is
 * rounded up to a larger unit is written in it, so that the larger of two shares never reads as the smaller.
 */
export function yearly(percent: number, moreDigits = 0): string {
  const minutes = (percent / 100) * MINUTES_A_YEAR;
  const inSeconds = trimmed(minutes * 60, 1 + moreDigits);
  if (Number(inSeconds) < 60) return `${inSeconds} s a year`;
  const inMinutes = trimmed(minutes, (minutes < 10 ? 1 : 0) + moreDigits);
  if (Number(inMinutes) < 600) return `${inMinutes} min a year`;
  return `${trimmed(minutes / 60, moreDigits)} h a year`;
}

/** Clearance in radii of the first Fresnel zone; the sign is said in words by the caller. */
export function fresnel(fraction: number, moreDigits = 0): string {
  return `${fixed(fraction, 2 + moreDigits)} F1`;
}

/** What an objective asks, as short as it was written: `1 F1`, `0.6 F1`. */
export function fresnelAsked(fraction: number): string {
  return `${trimmed(fraction, 3)} F1`;
}

export function kFactor(k: number): string {
  return `k ${fixed(k, 2)}`;
}

/** Fixed decimals without a negative zero. */
export function fixed(value: number, digits: number): string {
  const text = value.toFixed(digits);
  return Number(text) === 0 && text.startsWith("-") ? text.slice(1) : text;
}

/** At most so many decimals, trailing zeros left out. */
export function trimmed(value: number, digits: number): string {
  const text = fixed(value, digits);
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}
