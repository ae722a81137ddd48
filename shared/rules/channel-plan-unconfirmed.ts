import { address } from "../design/address.js";
import type { Channel, Hop } from "../design/design.js";
import { channelStandingText, isReliable } from "../spectrum/standing.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";

/** A channel in a row that is not confirmed; `about` is the row. */
interface Unconfirmed {
  readonly about: string;
  readonly channel: Channel;
}

export const channelPlanUnconfirmed = gathering<readonly Unconfirmed[]>({
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
    const rows = unconfirmed(hop);
    return rows.length === 0 ? undefined : rows;
  },
  tell(noted, { report }) {
    const byRow = new Map<string, { readonly channel: Channel; readonly first: Hop; more: number }>();
    for (const { hop, note } of noted) {
      for (const { about, channel } of note) {
        const told = byRow.get(about);
        if (told) told.more++;
        else byRow.set(about, { channel, first: hop, more: 0 });
      }
    }
    for (const [about, { channel, first, more }] of byRow) {
      const others =
        more === 0
          ? ""
          : more === 1
            ? "; 1 more hop has such a channel"
            : `; ${more} more hops have such channels`;
      report(
        {
          at: address("hop", first.name, "channel"),
          about,
          message: `the figures of plan ${channel.plan} are ${channelStandingText(channel, channel.number)}${others}`,
        },
        first.name,
      );
    }
  },
});

/** The first channel of the hop in each row. */
function unconfirmed({ channel, furtherChannels = [] }: Hop): readonly Unconfirmed[] {
  const all = channel === undefined ? furtherChannels : [channel, ...furtherChannels];
  const byRow = new Map<string, Channel>();
  for (const one of all) {
    const about = `${one.plan} ${one.bandwidthHz}`;
    if (!isReliable(one, one.number) && !byRow.has(about)) byRow.set(about, one);
  }
  return [...byRow].map(([about, one]) => ({ about, channel: one }));
}
