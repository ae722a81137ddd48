import type { Hop, Polarization } from "../../design/design.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { note, type Trace } from "../account/trace.js";

/** Angle of linear polarization from the horizontal, degrees. */
export function tiltDeg(polarization: Polarization): number {
  return polarization === "horizontal" ? 0 : polarization === "vertical" ? 90 : 45;
}

/** Whether the arrangement has carriers on both polarizations, whatever the design states for the first. */
export function radiatesBoth({ arrangement }: Pick<Hop, "arrangement">): boolean {
  return arrangementByName(arrangement.name)?.polarizations === 2;
}

/** What a report says of a hop's polarization; undefined: not known. */
export function polarizationWords(hop: Pick<Hop, "arrangement" | "polarization">): string | undefined {
  if (!radiatesBoth(hop)) return hop.polarization && `${hop.polarization} polarization`;
  return hop.polarization === "slant"
    ? "both slant polarizations"
    : "both polarizations, judged for the worse, horizontal";
}

/**
 * The hop in the polarization that it is judged in. Of both on the air it is the horizontal one: rain takes more of it
 * (P.838-3, from about 4 GHz on at rates that matter; below that rain takes next to nothing of either), and a surface
 * reflects more. Two slanted ones are alike.
 */
export function inJudgedPolarization(hop: Hop, trace: Trace): Hop {
  if (!radiatesBoth(hop) || hop.polarization === "slant") return hop;
  note(trace, { code: "both-polarizations" });
  const { measuredRain } = hop;
  return {
    ...hop,
    polarization: "horizontal",
    // What was measured without a word was measured in the hop's own, as it stands in the text.
    measuredRain: measuredRain && {
      ...measuredRain,
      polarization: measuredRain.polarization ?? hop.polarization,
    },
  };
}
