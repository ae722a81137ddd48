/** What is kept between runs of the command line, for the designs of a folder. */
import type { DesignModel } from "../../language/model/design-model.js";
import type { DesignSession } from "../session/design-session.js";
import { basisOf } from "./basis.js";
import { KeptResults } from "./kept-results.js";
import { placeOf } from "./place.js";

/** Below this many hops a run is done before anything kept were read. */
const WORTH_KEEPING = 300;

export interface Keeping {
  readonly results: KeptResults;
  /** Writes what is new, if the ground is still what it was and nothing was to be said of it. */
  end(session: DesignSession): Promise<void>;
}

/**
 * @param folder that was named, in which the design lies
 * @param tell is called with the reason where nothing can be kept
 */
export async function openKept(
  folder: string,
  model: DesignModel,
  tell: (problem: string) => void,
): Promise<Keeping | undefined> {
  if (model.names("hop").length < WORTH_KEEPING) return undefined;
  const places = [folder, model.root].map((within) => placeOf(within));
  const place = places.find((one) => one === undefined || "problem" in one) ?? places[0];
  if (place === undefined) return undefined;
  if ("problem" in place) {
    tell(`nothing is kept between runs: ${place.problem}`);
    return undefined;
  }
  const now = () => basisOf(model.terrain(), model.root);
  const basis = await now();
  if (basis === undefined) return undefined;
  const results = new KeptResults(place.folder, model.root, basis);
  return {
    results,
    async end(session) {
      if ((session.terrain()?.problems.length ?? 0) === 0 && (await now()) === basis) results.end();
    },
  };
}
