/** The channels of a plan tried for a hop of a session's design, with what would be left of it on each. */
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { Available } from "../../shared/format/bounds.js";
import {
  type ChannelTrial,
  channelTrials,
  choicesOf,
  type NotTried,
  onChannel,
} from "../../shared/interference/channel-trials.js";
import { stationTerms } from "../../shared/interference/station-book.js";
import type { DesignSession } from "./design-session.js";

export interface TriedChannel {
  readonly trial: ChannelTrial;
  /** Least of both directions; undefined: not known. */
  readonly marginDb?: number;
  readonly availability?: Available;
}

/** @returns the best first, or why none can be tried */
export async function tryChannels(
  session: DesignSession,
  name: string,
): Promise<readonly TriedChannel[] | NotTried> {
  const inputs = await session.interferenceInputs();
  const hop = inputs.design.hops.get(name);
  const result = inputs.results.get(name);
  if (hop === undefined || result === undefined) return "geometry";
  const asked = { hop, result, around: stationTerms(inputs), plans: session.model.lookup.plans() };
  const choices = choicesOf(asked);
  if (typeof choices === "string") return choices;
  const trials = await session.interference.onCopy(inputs, (network, state) =>
    channelTrials(network, state, asked, choices),
  );
  const ground = await session.groundOf(hop);
  // Nothing makes it pointless.
  return trials!.map((trial) => {
    const left = evaluateHop(onChannel(hop, trial.choice, trial.polarization), ground, trial.atEnds);
    const margins = left.directions.flatMap(({ judged, modes }) =>
      modes
        .filter((mode) => judged === undefined || mode.modulation === judged.modulation)
        .map(({ fadeMarginDb }) => fadeMarginDb),
    );
    return {
      trial,
      marginDb: margins.length === 0 ? undefined : Math.min(...margins),
      availability: left.availability,
    };
  });
}
