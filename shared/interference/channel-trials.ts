/**
 * Every channel of a plan tried for one hop: what it would suffer there from all others, and what it would do to them.
 */
import type { Hop, Polarization } from "../design/design.js";
import type { HopResult } from "../evaluate/account/result.js";
import type { InterferenceAtEnds } from "../evaluate/directions.js";
import { arrangementByName } from "../radio/arrangements.js";
import { halfOf } from "../radio/halves.js";
import { type ChannelChoice, channelChoices } from "../spectrum/channel-choices.js";
import type { ChannelPlan } from "../spectrum/channel-plans.data.js";
import type { Entry } from "./entry.js";
import { limitsAt } from "./limits.js";
import type { Asking, InterferenceNetwork, NetworkState } from "./network.js";
import type { InterferenceAt } from "./receiver-result.js";
import { type StationTerms, stationsOf } from "./stations.js";

export interface ChannelTrial {
  readonly choice: ChannelChoice;
  readonly polarization: Polarization | undefined;
  /** The one that the design states. */
  readonly stated?: true;
  /** Worst degradation of a threshold of the hop, by all; and who does most of it. */
  readonly suffersDb: number;
  readonly by?: Entry;
  readonly atEnds: InterferenceAtEnds;
  /** By how much more than without this hop the receiver of another loses that loses most; and which it is. */
  readonly causesDb: number;
  readonly at?: InterferenceAt;
  /** Receivers of this hop and of others that lose more than the network allows, or 1 dB where it states nothing. */
  readonly beyond: number;
}

export interface ChannelsAsked {
  readonly hop: Hop;
  /** Of the hop by itself: where its antennas are and look. */
  readonly result: HopResult;
  readonly around: StationTerms;
  readonly plans: readonly ChannelPlan[];
}

/** Why no channel can be tried. */
export type NotTried = "no channel" | "several channels" | "halves" | "geometry" | "none tuned";

/** The hop on a channel, with one of the two polarizations. */
export function onChannel(
  hop: Hop,
  { widthHz, ...channel }: ChannelChoice,
  polarization: Polarization | undefined,
): Hop {
  const at = (end: Hop["ends"][0]) => ({
    ...end,
    transmitFrequencyHz: halfOf(end, hop.radio) === "low" ? channel.lowHz : channel.highHz,
  });
  const { openChannel: _, ...others } = hop;
  return {
    ...others,
    ...(polarization !== undefined && { polarization }),
    channel: { ...channel, bandwidthHz: widthHz },
    ends: [at(hop.ends[0]), at(hop.ends[1])],
  };
}

/** Channels to try, or why there are none. */
export function choicesOf({ hop, result, plans }: ChannelsAsked): readonly ChannelChoice[] | NotTried {
  const { channel = hop.openChannel, radio } = hop;
  if (channel === undefined) return "no channel";
  if ((hop.furtherChannels ?? []).length > 0) return "several channels";
  if (result.geometry === undefined) return "geometry";
  const halves = hop.ends.map((end) => halfOf(end, radio));
  if (halves.includes(undefined)) return "halves";
  const choices = channelChoices(plans, radio, channel.plan).filter(
    ({ widthHz }) => widthHz === Math.round(channel.bandwidthHz),
  );
  return choices.length === 0 ? "none tuned" : choices;
}

/**
 * @param network of the caller's own: it is left on the last channel tried
 * @returns the best first: fewest receivers beyond what is allowed, then least harm, then the lowest number
 */
export function* channelTrials(
  network: InterferenceNetwork,
  state: NetworkState,
  asked: ChannelsAsked,
  choices: readonly ChannelChoice[],
): Asking<readonly ChannelTrial[]> {
  const { hop, result, around } = asked;
  const { name } = hop;
  const silent = new Map(state.hops);
  silent.delete(name);
  yield* network.update({ ...state, hops: silent });
  const before = new Map<string, number>();
  const without = (at: InterferenceAt) => {
    const { key } = at.receiver;
    return before.get(key) ?? 0;
  };
  for (const of of silent.keys())
    for (const at of network.of(of)) before.set(at.receiver.key, at.degradationDb);
  for (const at of network.ofOthers()) before.set(at.receiver.key, at.degradationDb);
  const polarizations: readonly (Polarization | undefined)[] =
    hop.polarization === "slant" || hop.polarization === undefined || isOnBoth(hop)
      ? [hop.polarization]
      : ["vertical", "horizontal"];
  const trials: ChannelTrial[] = [];
  for (const choice of choices) {
    for (const polarization of polarizations) {
      const stations = stationsOf(onChannel(hop, choice, polarization), result, around);
      const changed = yield* network.update({ ...state, hops: new Map(silent).set(name, stations) });
      const own = network.of(name);
      const others = [
        ...[...changed].filter((of) => of !== name).flatMap((of) => network.of(of)),
        ...network.ofOthers(),
      ];
      trials.push(
        trialOf(
          { choice, polarization, hop },
          own,
          others.map((at) => ({ at, moreDb: at.degradationDb - without(at) })),
        ),
      );
    }
  }
  return trials.toSorted(
    (a, b) =>
      a.beyond - b.beyond ||
      harm(a) - harm(b) ||
      a.choice.number - b.choice.number ||
      (a.stated ? -1 : b.stated ? 1 : 0),
  );
}

/** Whether the channel is used on both polarizations: exchanged they come to the same. */
export function isOnBoth({ arrangement }: Hop): boolean {
  const facts = arrangementByName(arrangement.name);
  return facts?.polarizations === 2 && facts.frequencyPairs === 1;
}

/** To a hundredth: less is no difference to choose by. */
function harm({ suffersDb, causesDb }: ChannelTrial): number {
  return Math.round(100 * Math.max(suffersDb, causesDb));
}

function trialOf(
  {
    choice,
    polarization,
    hop,
  }: { readonly choice: ChannelChoice; readonly polarization: Polarization | undefined; readonly hop: Hop },
  own: readonly InterferenceAt[],
  others: readonly { readonly at: InterferenceAt; readonly moreDb: number }[],
): ChannelTrial {
  const worst = own.reduce<InterferenceAt | undefined>(
    (found, at) => (found === undefined || at.degradationDb > found.degradationDb ? at : found),
    undefined,
  );
  const most = others.reduce<(typeof others)[number] | undefined>(
    (found, one) => (one.moreDb > (found?.moreDb ?? 0) ? one : found),
    undefined,
  );
  const atEnds = new Map<string, number>();
  for (const { receiver, degradationDb } of own) {
    const { site } = receiver.place;
    if (site !== undefined && degradationDb > 0)
      atEnds.set(site, Math.max(atEnds.get(site) ?? 0, degradationDb));
  }
  const isStated = hop.channel?.number === choice.number && polarization === hop.polarization;
  return {
    choice,
    polarization,
    ...(isStated && { stated: true }),
    suffersDb: worst?.degradationDb ?? 0,
    ...(worst?.entries[0] && { by: worst.entries[0] }),
    atEnds,
    causesDb: most?.moreDb ?? 0,
    ...(most && { at: most.at }),
    beyond:
      own.filter(isBeyond).length + others.filter(({ at, moreDb }) => moreDb > 0.005 && isBeyond(at)).length,
  };
}

/** Whether a receiver passes what it is allowed, or what planners allow as a rule where nothing is stated. */
export function isBeyond({ receiver, terms, toNoiseDb, shortToNoiseDb, entries }: InterferenceAt): boolean {
  const { sumDb, singleDb, shortDb } = limitsAt(receiver, terms);
  const isAbove = (db: number | undefined, most: number | undefined) =>
    db !== undefined && most !== undefined && db > most;
  return (
    isAbove(toNoiseDb, sumDb) || isAbove(entries[0]?.toNoiseDb, singleDb) || isAbove(shortToNoiseDb, shortDb)
  );
}
