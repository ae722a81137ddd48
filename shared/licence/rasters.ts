/** What of each raster of channels the hops of a design use: the frequency plan, as data. */
import type { Channel, HalfOfBand, Hop, Polarization } from "../design/design.js";
import { bandOf, halfOf } from "../radio/halves.js";
import { channelRows, rowChannel } from "../spectrum/channel-plan.js";
import type { ChannelPlan, ChannelRow } from "../spectrum/channel-plans.data.js";
import type { Transmission } from "./transmissions.js";

export interface SentHop {
  readonly hop: Hop;
  /** Of `transmissionsOf`. */
  readonly sent: readonly Transmission[];
}

/** A channel, or a pair of frequencies that is stated plainly, with a hop on it. */
export interface ChannelUse {
  readonly hop: Hop;
  /** Undefined: frequencies are stated plainly. */
  readonly channel?: Channel;
  readonly lowHz?: number;
  readonly highHz?: number;
  /** Sites that transmit the lower and the higher of the two. */
  readonly lowFrom?: string;
  readonly highFrom?: string;
  /** Each once, in the order of the carriers; empty: none is stated. */
  readonly polarizations: readonly Polarization[];
}

export interface Raster {
  /** Undefined: plain frequencies, and hops of which nothing is stated. */
  readonly plan?: string;
  readonly widthHz?: number;
  /** By channel, then by hop as the text has them. */
  readonly uses: readonly ChannelUse[];
  /** Hops whose channel is still to be chosen, or that state none. */
  readonly open: readonly Hop[];
  /** Channels of the raster whose spectrum no hop of the design sends in; empty for plain frequencies. */
  readonly unused: readonly number[];
  /** Those that no hop is on, though one sends in part of their spectrum: by a channel of another width, or beside a raster. */
  readonly overlapped: readonly OverlappedChannel[];
}

export interface OverlappedChannel {
  readonly number: number;
  /** Hops that send there, in the order of the text. */
  readonly by: readonly string[];
}

/** By lowest frequency; what has no plan comes last. @param own plans of the design */
export function rastersOf(hops: readonly SentHop[], own: readonly ChannelPlan[]): readonly Raster[] {
  const uses = Map.groupBy(
    hops.flatMap(usesOf),
    ({ channel }) => channel && rasterKey(channel.plan, channel.bandwidthHz),
  );
  const open = Map.groupBy(
    hops.flatMap(({ hop, sent }) => (sent.length === 0 ? [hop] : [])),
    ({ openChannel, channel }) => {
      const one = openChannel ?? channel;
      return one && rasterKey(one.plan, one.bandwidthHz);
    },
  );
  const spans = hops.flatMap(({ sent }) => sent.map(spanOf));
  const keys = new Set([...uses.keys(), ...open.keys()]);
  const all = [...keys].map((key): Raster => {
    const here = (uses.get(key) ?? []).toSorted(byChannel);
    const waiting = open.get(key) ?? [];
    const one = here[0]?.channel ?? waiting[0]?.openChannel ?? waiting[0]?.channel;
    if (key === undefined || one === undefined)
      return { uses: here, open: waiting, unused: [], overlapped: [] };
    const { plan, bandwidthHz } = one;
    return { plan, widthHz: bandwidthHz, uses: here, open: waiting, ...freeOf(one, here, spans, own) };
  });
  return all.toSorted((a, b) => lowest(a) - lowest(b));
}

function rasterKey(plan: string, widthHz: number): string {
  return `${plan}\n${widthHz}`;
}

function usesOf({ hop, sent }: SentHop): ChannelUse[] {
  const byChannel = Map.groupBy(sent, ({ channel, carrier }) => channel?.number ?? `plain ${carrier}`);
  return [...byChannel.values()].map((those): ChannelUse => {
    const { channel } = those[0]!;
    const [one, other] = [those.find(({ at }) => at === 0), those.find(({ at }) => at === 1)];
    const inOrder = [one, other]
      .filter((found) => found !== undefined)
      .toSorted((a, b) => a.frequencyHz - b.frequencyHz);
    // Of one end alone the other half of its channel is known, and who receives it.
    const [low, high] = inOrder.length === 2 ? inOrder : bySingle(inOrder[0]!);
    return {
      hop,
      channel,
      lowHz: channel?.lowHz ?? low?.frequencyHz,
      highHz: channel?.highHz ?? high?.frequencyHz,
      lowFrom: low?.site,
      highFrom: high?.site,
      polarizations: [...new Set(those.flatMap(({ polarization }) => polarization ?? []))],
    };
  });
}

function bySingle(sent: Transmission): readonly [Transmission | undefined, Transmission | undefined] {
  return sent.half === "high" ? [undefined, sent] : [sent, undefined];
}

function byChannel(a: ChannelUse, b: ChannelUse): number {
  if (a.channel && b.channel) return a.channel.number - b.channel.number;
  return (a.lowHz ?? 0) - (b.lowHz ?? 0);
}

function lowest({ plan, uses, open }: Raster): number {
  if (plan === undefined) return Number.POSITIVE_INFINITY;
  return Math.min(
    ...uses.flatMap(({ lowHz }) => lowHz ?? []),
    ...open.flatMap(({ openChannel }) => openChannel?.lowestHz ?? []),
    Number.MAX_VALUE,
  );
}

/** A raster of very many narrow channels is not told channel by channel. */
const MOST_CHANNELS = 10_000;

/** Spectrum that a hop sends in. */
interface Span {
  readonly hop: string;
  readonly lowHz: number;
  readonly highHz: number;
}

/** Of unknown bandwidth it is its centre alone. */
function spanOf({ hop, frequencyHz, bandwidthHz = 0 }: Transmission): Span {
  return { hop, lowHz: frequencyHz - bandwidthHz / 2, highHz: frequencyHz + bandwidthHz / 2 };
}

/** Channels touch at their edges by rights; frequencies are stated to the kilohertz. */
const TOUCHING_HZ = 2000;

function freeOf(
  { plan, bandwidthHz }: Pick<Channel, "plan" | "bandwidthHz">,
  uses: readonly ChannelUse[],
  spans: readonly Span[],
  own: readonly ChannelPlan[],
): Pick<Raster, "unused" | "overlapped"> {
  const rows = channelRows(plan, bandwidthHz, undefined, own);
  if ("what" in rows) return { unused: [], overlapped: [] };
  const used = new Set(uses.map(({ channel }) => channel?.number));
  const hopsIn = new Map<number, Set<string>>();
  for (const one of rows)
    for (const number of numbersOf(one.row)) {
      const by = hopsIn.get(number) ?? new Set();
      hopsIn.set(number, by);
      const { lowHz, highHz } = rowChannel(one, number);
      for (const centreHz of [lowHz, highHz])
        for (const span of spans)
          if (
            span.highHz > centreHz - bandwidthHz / 2 + TOUCHING_HZ &&
            span.lowHz < centreHz + bandwidthHz / 2 - TOUCHING_HZ
          )
            by.add(span.hop);
    }
  const others = [...hopsIn].filter(([number]) => !used.has(number)).sort(([a], [b]) => a - b);
  return {
    unused: others.flatMap(([number, by]) => (by.size === 0 ? [number] : [])),
    overlapped: others.flatMap(([number, by]) => (by.size === 0 ? [] : [{ number, by: [...by] }])),
  };
}

function numbersOf({ first, last }: ChannelRow): readonly number[] {
  return Array.from({ length: Math.min(last - first + 1, MOST_CHANNELS) }, (_, index) => first + index);
}

/** What a site transmits in a band: hops in each half. Both at once drown what it receives. */
export interface SiteHalves {
  readonly site: string;
  /** Its plan, else its radio. */
  readonly band: string;
  readonly low: readonly Hop[];
  readonly high: readonly Hop[];
}

/** By site as the hops come, those with a band and a half alone: what `site-high-and-low` judges. */
export function siteHalves(hops: Iterable<Hop>): readonly SiteHalves[] {
  const found = new Map<string, { site: string; band: string } & Record<HalfOfBand, Hop[]>>();
  for (const hop of hops) {
    const band = bandOf(hop);
    if (band === undefined) continue;
    for (const end of hop.ends) {
      const half = halfOf(end, hop.radio);
      if (half === undefined) continue;
      const key = `${end.site.name}\n${band}`;
      let here = found.get(key);
      if (here === undefined) found.set(key, (here = { site: end.site.name, band, low: [], high: [] }));
      here[half].push(hop);
    }
  }
  return [...found.values()].toSorted((a, b) =>
    a.site < b.site ? -1 : a.site > b.site ? 1 : a.band < b.band ? -1 : a.band > b.band ? 1 : 0,
  );
}
