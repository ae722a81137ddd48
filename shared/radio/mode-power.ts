import type { RadioMode } from "../design/catalogue.js";

/** The mode in use with the least power of the catalogue; undefined where none states one. */
export function weakestMode(modes: readonly RadioMode[]): RadioMode | undefined {
  let weakest: RadioMode | undefined;
  for (const mode of modes) {
    if (mode.transmitPowerDbm === undefined) continue;
    if (weakest === undefined || mode.transmitPowerDbm < weakest.transmitPowerDbm!) weakest = mode;
  }
  return weakest;
}

/** Whether a power stated at an end is more than the transmitter has in its weakest mode. */
export function isAboveMode(powerDbm: number | undefined, weakest: RadioMode | undefined): boolean {
  return (
    powerDbm !== undefined && weakest?.transmitPowerDbm !== undefined && powerDbm > weakest.transmitPowerDbm
  );
}
