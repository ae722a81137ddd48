/** `channels HOP`: every channel of the hop's plan, what it would suffer there and do to others, the best first. */
import type { Hop } from "../../../shared/design/design.js";
import type { NotTried } from "../../../shared/interference/channel-trials.js";
import { CommandError } from "../../command-error.js";
import { findHop } from "../../findings/one-hop.js";
import { tryChannels } from "../../session/channels.js";
import { FORMATS, formatNamed } from "../formats.js";
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
  const tried = await tryChannels(design.session, hop.name);
  if (typeof tried === "string") throw new CommandError(`${hop.name}: ${WHY[tried](hop)}`);
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
