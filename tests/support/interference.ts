/** Interference of a design in tests, all at once, over level ground. */
import { inverse } from "../../shared/geodesy/geodesic.js";
import { InterferenceNetwork, type ProfileAsked } from "../../shared/interference/network.js";
import { StationBook, type StationInputs } from "../../shared/interference/station-book.js";
import type { TerrainProfile } from "../../shared/terrain/profile.js";

export type ProfileOf = (asked: ProfileAsked) => TerrainProfile | undefined;

export function interferenceIn(
  inputs: StationInputs,
  profileOf: ProfileOf = levelGround,
): InterferenceNetwork {
  const network = new InterferenceNetwork();
  const running = network.update(new StationBook().stateOf(inputs));
  let step = running.next();
  while (!step.done) step = running.next(step.value && profileOf(step.value));
  return network;
}

/** At 200 m, a point each 100 m or nearer. */
export function levelGround({ from, to }: ProfileAsked): TerrainProfile {
  const { distanceM: lengthM } = inverse({ from, to });
  const count = Math.max(4, Math.ceil(lengthM / 100) + 1);
  return {
    distanceM: Float64Array.from({ length: count }, (_, i) => (lengthM * i) / (count - 1)),
    heightM: new Float64Array(count).fill(200),
    stepM: lengthM / (count - 1),
    gaps: [],
    sources: [],
  };
}
