import type { Channel, Hop } from "../../design/design.js";
import { inMHz } from "./hops.js";
import { type List, type ListColumn, listOf, number, shownOnColumn, text } from "./list.js";
import type { ListedDesign } from "./listed-design.js";

interface Row {
  readonly hop: Hop;
  /** From 1. */
  readonly carrier: number;
  /** Undefined: the ends state plain frequencies. */
  readonly channel?: Channel;
}

const lowSite = ({ hop: { ends } }: Row) => ends.find(({ transmits }) => transmits === "low")?.site.name;
const highSite = ({ hop: { ends } }: Row) => ends.find(({ transmits }) => transmits === "high")?.site.name;

const COLUMNS: readonly ListColumn<Row>[] = [
  text("hop", ({ hop }) => hop.name),
  number("carrier", 0, ({ carrier }) => carrier),
  text("plan", ({ channel }) => channel?.plan),
  number("channel_width_MHz", 6, ({ channel }) => inMHz(channel?.bandwidthHz)),
  number("channel", 0, ({ channel }) => channel?.number),
  text("polarization", ({ hop }) => hop.polarization),
  text("arrangement", ({ hop }) => hop.arrangement.name),
  number("low_MHz", 6, ({ channel, hop }) => inMHz(channel ? channel.lowHz : frequencies(hop)[0])),
  text("low_at", lowSite),
  number("high_MHz", 6, ({ channel, hop }) => inMHz(channel ? channel.highHz : frequencies(hop).at(-1))),
  text("high_at", highSite),
];

export function channelList({ last, results, shownOn }: ListedDesign): List {
  const rows = [...last.hops.values()].flatMap((hop): Row[] => {
    if (!hop.channel) return frequencies(hop).length > 0 ? [{ hop, carrier: 1 }] : [];
    return [hop.channel, ...(hop.furtherChannels ?? [])].map((channel, i) => ({
      hop,
      carrier: i + 1,
      channel,
    }));
  });
  const until: ListColumn<Row> = {
    head: "stands_until",
    type: "date",
    of: ({ hop }) => results.get(hop.name)?.until,
  };
  return listOf("channels", [...COLUMNS, until, ...shownOnColumn(shownOn)], rows);
}

function frequencies({ ends }: Hop): number[] {
  return ends.flatMap(({ transmitFrequencyHz }) => transmitFrequencyHz ?? []).sort((a, b) => a - b);
}
