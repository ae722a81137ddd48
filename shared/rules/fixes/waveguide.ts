/** What leads from the units to the antenna, as far as fixes of several rules need it. */
import type { Feeder } from "../../design/catalogue.js";
import type { Hop, HopEnd } from "../../design/design.js";
import type { FactChange } from "../../design/fact-change.js";
import type { FrequencyRange } from "../../design/frequency-range.js";
import { antennasStated } from "../../equipment/stands.js";
import { waveguideSize } from "../../equipment/waveguide.js";
import type { EndHere, Mending } from "./mending.js";

/** A usual length of the flexible piece between a unit on the pole and its antenna. Common practice. */
export const USUAL_PIECE = "0.9 m";

export function feederLine(here: EndHere, name: string, length = USUAL_PIECE): FactChange {
  return { do: "add", in: here.at, lines: [`feeder ${name} length ${length}`] };
}

/** Changes the word where it stands: with the coupler, or by itself; where the defaults have it, a line of its own. */
export function mountingChange(
  { end, at }: EndHere,
  mounting: "direct" | "separate",
): FactChange | undefined {
  if (end.mounting !== undefined)
    return { do: "replace", at: `${at} / coupler`, argument: "mounting", by: mounting };
  return end.installation?.mounting === undefined
    ? undefined
    : { do: "state", in: at, line: `mounting ${mounting}` };
}

/** Whole metres up to the highest antenna of the end. */
export function reachOf(end: HopEnd): string {
  return `${Math.max(1, ...antennasStated(end).map(({ heightM = 0 }) => Math.ceil(heightM)))} m`;
}

/** Radio bands begin beside the usual bands of guides: 17.7 GHz goes through one that is named from 18 GHz on. */
const EDGE = 0.02;

/**
 * Feeders whose band, or that of their guide, or of the points of their loss, holds the hop's frequencies.
 * @param long lines to a radio indoors; else flexible pieces
 */
export function feedersFor({ catalogue }: Mending, hop: Hop, long: boolean): readonly Feeder[] {
  const frequencies = hop.ends.flatMap((end) => end.transmitFrequencyHz ?? []);
  return catalogue.feeders.filter((feeder) => {
    const band = bandOf(feeder);
    return (
      band !== undefined &&
      (long ? LONG_KINDS.includes(feeder.kind ?? "") : feeder.kind === "flexible") &&
      frequencies.every((hz) => band.fromHz * (1 - EDGE) <= hz && hz <= band.toHz * (1 + EDGE))
    );
  });
}

const LONG_KINDS: readonly string[] = ["elliptical", "rectangular"];

function bandOf({ band, guide, loss }: Feeder): FrequencyRange | undefined {
  if (band !== undefined) return band;
  const ofGuide = guide === undefined ? undefined : waveguideSize(guide)?.band;
  const points = loss.flatMap(({ frequencyHz }) => frequencyHz ?? []);
  if (ofGuide !== undefined || points.length < 2) return ofGuide;
  return { fromHz: points[0]!, toHz: points.at(-1)! };
}
