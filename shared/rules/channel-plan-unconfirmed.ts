import { address } from "../design/address.js";
import type { Channel, Hop } from "../design/design.js";
import { channelStandingText, isReliable } from "../spectrum/standing.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";

export const channelPlanUnconfirmed = gathering<readonly Channel[]>({
  scope: "network",
  id: "channel-plan-unconfirmed",
  severity: "info",
  remarksOn: "channel plans",
  title: "The figures of a channel plan are not confirmed",
  checks:
    "The standing that the table of plans gives to each row in use; where licensed links confirm the raster, whether the channel lies among those that were seen: the count of channels is from memory then.",
  why: "A frequency goes into the licence; it must be looked up in the plan of the administration first.",
  fix: "Compare with the national plan, or declare the plan in the catalogue.",
  source: "the project's own table of plans",
  good: exampleHop(),
  bad: exampleHop().replace("P18 / 55 MHz / 4", "F.386 / 29.65 MHz / 2"),
  each: "hop",
  note(hop) {
    const channels = unconfirmed(hop);
    return channels.length === 0 ? undefined : channels;
  },
  tell(noted, { report }) {
    const byRow = new Map<string, { readonly channel: Channel; readonly hops: Set<Hop> }>();
    for (const { hop, note } of noted) {
      for (const channel of note) {
        const about = `${channel.plan} ${channel.bandwidthHz}`;
        const told = byRow.get(about);
        if (told) told.hops.add(hop);
        else byRow.set(about, { channel, hops: new Set([hop]) });
      }
    }
    for (const [about, { channel, hops }] of byRow) {
      const [first] = hops;
      const more = hops.size - 1;
      const others =
        more === 0
          ? ""
          : more === 1
            ? "; 1 more hop has such a channel"
            : `; ${more} more hops have such channels`;
      report(
        {
          at: address("hop", first!.name, "channel"),
          about,
          message: `the figures of plan ${channel.plan} are ${channelStandingText(channel, channel.number)}${others}`,
        },
        first!.name,
      );
    }
  },
});

function unconfirmed({ channel, furtherChannels = [] }: Hop): readonly Channel[] {
  const all = channel === undefined ? furtherChannels : [channel, ...furtherChannels];
  return all.filter((one) => !isReliable(one, one.number));
}
