import type { Hop } from "../../design/design.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { note, type Trace } from "../account/trace.js";

export interface ChannelCount {
  /** Channels that the arrangement has. */
  readonly asked: number;
  readonly stated: number;
  readonly carriers: number;
  /** Of these, what stands on the stated channels. */
  readonly carriersOnStated: number;
}

/** The channels of a hop against those of its arrangement. */
export function channelCountOf({ arrangement, channel, furtherChannels = [] }: Hop): ChannelCount {
  const facts = arrangementByName(arrangement.name);
  const carriers = facts?.workingCarriers ?? 1;
  const asked = facts?.frequencyPairs ?? 1;
  const stated = channel === undefined ? 0 : 1 + furtherChannels.length;
  // Two carriers that cancel each other's polarization share a channel.
  const onEach = facts !== undefined && facts.xpicPairs > 0 ? 2 : 1;
  return { asked, stated, carriers, carriersOnStated: Math.min(carriers, stated * onEach) };
}

/** The rates of all carriers add up, those whose channel is not stated too; the result says so. */
export function noteChannels(hop: Hop, trace: Trace): void {
  if (hop.openChannel !== undefined) {
    const { plan, number, count } = hop.openChannel;
    note(trace, { code: "channel-open", plan, number, count });
    return;
  }
  const { asked, stated, carriers, carriersOnStated } = channelCountOf(hop);
  if (carriersOnStated >= carriers || stated >= asked) return;
  note(trace, { code: "channels-not-stated", carriers, stated, asked });
}
