/** Channels, polarizations and halves proposed for all hops of a network that lack them, judged by the whole engine. */
import type { Hop, Polarization } from "../../design/design.js";
import type { HopResult } from "../../evaluate/account/result.js";
import type { ChannelChoice } from "../../spectrum/channel-choices.js";
import type { ChannelPlan } from "../../spectrum/channel-plans.data.js";
import { isBeyond, onChannel } from "../channel-trials.js";
import type { Asking, InterferenceNetwork, NetworkState } from "../network.js";
import type { InterferenceAt } from "../receiver-result.js";
import { type HopStations, type StationTerms, stationsOf } from "../stations.js";
import { choose } from "./choose.js";
import { type ChannelOption, coupled, type HopOptions } from "./coupling.js";
import type { Counted } from "./exact.js";
import { type OpenHop, type OpenHops, openHops } from "./open-hops.js";

export interface Proposed {
  readonly open: OpenHop;
  readonly choice: ChannelChoice;
  readonly polarization: Polarization | undefined;
  /** Worst degradation of a threshold of the hop, with all as proposed. */
  readonly suffersDb: number;
  /** A receiver of it passes what is allowed. */
  readonly isBeyond: boolean;
}

export interface Proposal extends Omit<OpenHops, "open"> {
  /** In the order of the names. */
  readonly proposed: readonly Proposed[];
  /** Receivers of all hops and of others that pass what they are allowed: by the whole engine, with all as proposed. */
  readonly beyond: readonly InterferenceAt[];
  /** So many of them did already, among what is kept. */
  readonly beyondBefore: number;
  /** Distinct channels that all hops together take, with their widths. */
  readonly channels: number;
  readonly spectrumHz: number;
  /** What no choice comes below, by the powers of pairs; undefined: nothing was to choose. */
  readonly least?: Counted;
  /** What the proposal comes to by the powers of pairs. */
  readonly counted?: Counted;
}

export interface ToPropose {
  readonly hops: readonly Hop[];
  readonly results: ReadonlyMap<string, HopResult>;
  readonly around: StationTerms;
  readonly plans: readonly ChannelPlan[];
}

/** What is being done, for whoever shows it. */
export type Stage = "losses between stations" | "choosing" | "judging";

/**
 * @param network of the caller's own: it is left with what is proposed
 * @param onStage called as each begins
 */
export function* propose(
  network: InterferenceNetwork,
  state: NetworkState,
  asked: ToPropose,
  onStage: (stage: Stage) => void = () => {},
): Asking<Proposal> {
  const inOrder = asked.hops.toSorted((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
  const { open, ...others } = openHops(inOrder, asked.results, asked.plans);
  const isOpen = new Map(open.map((one) => [one.hop.name, one]));
  yield* network.update(state);
  const before = new Set(beyondIn(network, state).map(({ receiver }) => receiver.key));
  onStage("losses between stations");
  const options = inOrder.flatMap((hop): HopOptions[] => {
    const one = isOpen.get(hop.name);
    if (one !== undefined) return [optionsOf(one, asked)];
    const stations = state.hops.get(hop.name);
    return stations === undefined ? [] : [fixedOptions(hop, stations)];
  });
  const problem = yield* coupled(options, state);
  onStage("choosing");
  const choosing = choose(problem);
  let step = choosing.next();
  for (; !step.done; step = choosing.next()) yield undefined;
  const { chosen, cost, least } = step.value;
  onStage("judging");
  const picked = open.map((one) => {
    const actor = options.findIndex(({ name }) => name === one.hop.name);
    const { numberAt, polarizationAt } = problem.actors[actor]!.choices[chosen[actor]!]!;
    return { open: one, choice: one.channels[numberAt]!, polarization: one.polarizations[polarizationAt] };
  });
  const hops = new Map(state.hops);
  for (const { open: one, choice, polarization } of picked)
    hops.set(one.hop.name, stationsOn(one, choice, polarization, asked));
  yield* network.update({ ...state, hops });
  const beyond = beyondIn(network, { hops });
  const used = new Map<string, number>();
  for (const { channels } of options.filter((one) => !one.isOpen))
    for (const { key, widthHz } of channels) used.set(key, widthHz);
  for (const { choice } of picked) used.set(keyOf(choice), choice.widthHz);
  return {
    ...others,
    proposed: picked.map((one) => {
      const own = network.of(one.open.hop.name);
      return {
        ...one,
        suffersDb: Math.max(0, ...own.map(({ degradationDb }) => degradationDb)),
        isBeyond: own.some(isBeyond),
      };
    }),
    beyond,
    beyondBefore: beyond.filter(({ receiver }) => before.has(receiver.key)).length,
    channels: used.size,
    spectrumHz: [...used.values()].reduce((sum, hz) => sum + hz, 0),
    ...(open.length > 0 && {
      least,
      counted: { violations: cost.violations, spectrumHz: cost.spectrumHz },
    }),
  };
}

/** The worst first. */
function beyondIn(
  network: InterferenceNetwork,
  { hops }: Pick<NetworkState, "hops">,
): readonly InterferenceAt[] {
  return [...[...hops.keys()].flatMap((name) => network.of(name)), ...network.ofOthers()]
    .filter(isBeyond)
    .sort((a, b) => b.degradationDb - a.degradationDb || (a.receiver.key < b.receiver.key ? -1 : 1));
}

function keyOf({ plan, widthHz, number }: Pick<ChannelChoice, "plan" | "widthHz" | "number">): string {
  return `${plan} ${widthHz} ${number}`;
}

function stationsOn(
  { hop }: OpenHop,
  choice: ChannelChoice,
  polarization: Polarization | undefined,
  { results, around }: ToPropose,
): HopStations {
  return stationsOf(onChannel(hop, choice, polarization), results.get(hop.name)!, around);
}

function optionsOf(open: OpenHop, asked: ToPropose): HopOptions {
  const [first] = open.channels;
  return {
    name: open.hop.name,
    isOpen: true,
    channels: open.channels.map((choice) => ({ ...choice, key: keyOf(choice) })),
    stations: open.polarizations.map((polarization) => stationsOn(open, first!, polarization, asked)),
  };
}

function fixedOptions({ name, channel }: Hop, stations: HopStations): HopOptions {
  const channels: ChannelOption[] =
    channel?.lowHz === undefined || channel.highHz === undefined
      ? []
      : [
          {
            key: keyOf({ ...channel, widthHz: Math.round(channel.bandwidthHz) }),
            widthHz: Math.round(channel.bandwidthHz),
            lowHz: channel.lowHz,
            highHz: channel.highHz,
          },
        ];
  return { name, isOpen: false, channels, stations: [stations] };
}
