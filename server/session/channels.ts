/** The channels of a plan tried for a hop of a session's design, with what would be left of it on each. */
import type { Hop, OpenChannel } from "../../shared/design/design.js";
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
import type { Pausing } from "./interference.js";

export interface TriedChannel {
  readonly trial: ChannelTrial;
  /** Least of both directions; undefined: not known. */
  readonly marginDb?: number;
  readonly availability?: Available;
}

/** Plan and width that are just being written, in place of those of the hop. */
export type OfPlan = Pick<OpenChannel, "plan" | "bandwidthHz">;

/** @returns the best first, or why none can be tried */
export async function tryChannels(
  session: DesignSession,
  name: string,
): Promise<readonly TriedChannel[] | NotTried> {
  // Nothing breaks it off.
  return (await tryChannelsBeside(session, name, {}))!;
}

/** The same beside other work. @returns undefined where it was broken off */
export async function tryChannelsBeside(
  session: DesignSession,
  name: string,
  { ofPlan, pace }: { readonly ofPlan?: OfPlan; readonly pace?: Pausing },
): Promise<readonly TriedChannel[] | NotTried | undefined> {
  const inputs = await session.interferenceInputs();
  const stated = inputs.design.hops.get(name);
  const hop = stated && ofPlan ? onPlan(stated, ofPlan) : stated;
  const result = inputs.results.get(name);
  if (hop === undefined || result === undefined) return "geometry";
  const asked = { hop, result, around: stationTerms(inputs), plans: session.model.lookup.plans() };
  const choices = choicesOf(asked);
  if (typeof choices === "string") return choices;
  const trials = await session.interference.onCopy(
    inputs,
    (network, state) => channelTrials(network, state, asked, choices),
    pace,
  );
  if (trials === undefined) return undefined;
  const ground = await session.groundOf(hop);
  return trials.map((trial) => {
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

/** The number is open then, whatever stands there. */
function onPlan({ channel: _, channelUnknown: __, ...hop }: Hop, ofPlan: OfPlan): Hop {
  return { ...hop, openChannel: { ...ofPlan, number: 0, count: 0, lowestHz: 0 } };
}
