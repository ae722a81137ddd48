/** `channels HOP`: every channel of the hop's plan, what it would suffer there and do to others, the best first. */
import type { Hop } from "../../../shared/design/design.js";
import { evaluateHop } from "../../../shared/evaluate/hop.js";
import type { NotTried } from "../../../shared/interference/channel-trials.js";
import { onChannel } from "../../../shared/interference/channel-trials.js";
import { CommandError } from "../../command-error.js";
import { findHop } from "../../findings/one-hop.js";
import { FORMATS, formatNamed } from "../formats.js";
import type { TriedChannel } from "../print/format.js";
import { noteTime } from "../print/note-time.js";
import { paintStdout, print } from "../streams.js";

export interface ChannelsOptions {
  readonly format: string;
  readonly today: string;
  readonly on?: string;
}

export async function channels(
  name: string,
  dir: string,
  { format, today, on }: ChannelsOptions,
): Promise<void> {
  const { hop, design } = await findHop(dir, name, today, on);
  noteTime(design);
  const trials = await design.session.channelTrials(hop.name);
  if (typeof trials === "string") throw new CommandError(`${hop.name}: ${WHY[trials](hop)}`);
  const ground = await design.session.groundOf(hop);
  const tried = trials.map((trial): TriedChannel => {
    const result = evaluateHop(onChannel(hop, trial.choice, trial.polarization), ground, trial.atEnds);
    const margins = result.directions.flatMap(({ judged, modes }) =>
      modes
        .filter((mode) => judged === undefined || mode.modulation === judged.modulation)
        .map(({ fadeMarginDb }) => fadeMarginDb),
    );
    return {
      trial,
      marginDb: margins.length === 0 ? undefined : Math.min(...margins),
      availabilityPercent: result.availability?.availabilityPercent,
    };
  });
  await print(await formatNamed(FORMATS.channels, format).print({ hop, tried, paint: paintStdout }));
}

const WHY: Readonly<Record<NotTried, (hop: Hop) => string>> = {
  "no channel": () => "it states no channel; write `channel PLAN / WIDTH`, the number may be left out",
  "several channels": () => "it has several channels; channels of one carrier alone are tried",
  halves: () => "it is not known which end transmits in which half; write `transmits high` at one of them",
  geometry: () => "its path is not known yet; hopwright check says what is missing",
  "none tuned": ({ radio, channel, openChannel }) =>
    `${radio?.name ?? "its radio"} tunes to no channel of ${(channel ?? openChannel)!.plan} of this width`,
};
