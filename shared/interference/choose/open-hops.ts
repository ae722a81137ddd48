/** Which hops of a design lack number, polarization or half, what each may be given, and why some can be given nothing. */
import type { HalfOfBand, Hop, Polarization } from "../../design/design.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import { bandOf, firstHalfOf, otherHalf } from "../../radio/halves.js";
import { type HopOfBand, type SettledHalves, settleHalves } from "../../radio/settle-halves.js";
import { type ChannelChoice, channelChoices } from "../../spectrum/channel-choices.js";
import type { ChannelPlan } from "../../spectrum/channel-plans.data.js";

export interface OpenHop {
  /** With its halves, stated or proposed. */
  readonly hop: Hop;
  /** What is proposed for ends that state no half, by their sites. */
  readonly halves: ReadonlyMap<string, HalfOfBand>;
  /** Channels to choose from; the stated one alone where there is one. */
  readonly channels: readonly ChannelChoice[];
  readonly isNumberOpen: boolean;
  /** Those to choose from; one that is not open alone. */
  readonly polarizations: readonly (Polarization | undefined)[];
  readonly isPolarizationOpen: boolean;
}

/** Why a hop that lacks something is given nothing. */
export type NotProposed =
  | "no plan"
  | "channel unknown"
  | "no radio"
  | "several channels"
  | "geometry"
  | "none tuned"
  | "odd ring"
  | "both alike";

export interface OpenHops {
  readonly open: readonly OpenHop[];
  readonly left: readonly { readonly hop: Hop; readonly why: NotProposed }[];
  /** Halves that contradict each other: odd rings, or stated ones that leave no choice. */
  readonly contradictions: readonly SettledHalves[];
}

export function openHops(
  hops: readonly Hop[],
  results: ReadonlyMap<string, Pick<HopResult, "geometry">>,
  plans: readonly ChannelPlan[],
): OpenHops {
  const settled = settleHalves(hops.flatMap(ofBand));
  const halves = new Map(settled.flatMap(({ firstHalf }) => [...firstHalf]));
  const open: OpenHop[] = [];
  const left: { hop: Hop; why: NotProposed }[] = [];
  for (const hop of hops) {
    const found = openHop(hop, halves.get(hop.name), results.get(hop.name), plans);
    if (typeof found === "string") left.push({ hop, why: found });
    else if (found !== undefined) open.push(found);
  }
  const contradictions = settled.filter(({ exchanged, leftOut }) => exchanged.length + leftOut.length > 0);
  return { open, left, contradictions };
}

/** What is stated is kept: it is exchanged only where it contradicts itself, and that is told. */
function ofBand(hop: Hop): readonly HopOfBand[] {
  const band = bandOf(hop);
  const firstHalf = firstHalfOf(hop);
  if (band === undefined || firstHalf === "both alike") return [];
  const { name, ends } = hop;
  const sites = [ends[0].site.name, ends[1].site.name] as const;
  return [{ name, band, sites, ...(firstHalf && { firstHalf, keeps: true }) }];
}

/** @returns undefined where it lacks nothing */
function openHop(
  hop: Hop,
  settledHalf: HalfOfBand | undefined,
  result: Pick<HopResult, "geometry"> | undefined,
  plans: readonly ChannelPlan[],
): OpenHop | NotProposed | undefined {
  const { channel, openChannel, radio } = hop;
  const stated = firstHalfOf(hop);
  const sends = hop.ends.every(({ transmitFrequencyHz }) => transmitFrequencyHz !== undefined);
  const facts = factsAt(hop, hop.ends[0]);
  const isNumberOpen = openChannel !== undefined;
  const isPolarizationOpen = hop.polarization === undefined && facts?.polarizations === 1;
  const isHalfOpen = stated === undefined && !sends;
  const ofPlan = channel ?? openChannel;
  if (hop.channelUnknown) return "channel unknown";
  // Frequencies without a plan are not chosen from anything.
  if (ofPlan === undefined && !sends) return "no plan";
  if (!isNumberOpen && !isPolarizationOpen && !isHalfOpen) return undefined;
  if (ofPlan === undefined) return "no plan";
  if ((hop.furtherChannels ?? []).length > 0) return "several channels";
  if (radio === undefined) return "no radio";
  if (stated === "both alike") return "both alike";
  if (result?.geometry === undefined) return "geometry";
  const firstHalf = stated ?? settledHalf;
  if (firstHalf === undefined) return "odd ring";
  const at = (end: Hop["ends"][0], half: HalfOfBand) => ({ ...end, transmits: end.transmits ?? half });
  const withHalves: Hop = {
    ...hop,
    ends: [at(hop.ends[0], firstHalf), at(hop.ends[1], otherHalf(firstHalf))],
  };
  const tuned = channelChoices(plans, radio, ofPlan.plan).filter(
    ({ widthHz, number, ...choice }) =>
      widthHz === Math.round(ofPlan.bandwidthHz) &&
      (channel === undefined ? isWithin(withHalves, choice, 0) : number === channel.number),
  );
  // A channel that reaches beyond what the unit covers is told as such: it is given where there is no other.
  const whole = tuned.filter((choice) => isWithin(withHalves, choice, choice.widthHz / 2));
  const channels = whole.length > 0 ? whole : tuned;
  if (channels.length === 0) return "none tuned";
  return {
    hop: withHalves,
    halves: new Map(
      hop.ends.flatMap(({ site, transmits, transmitFrequencyHz }, index) =>
        transmits === undefined && transmitFrequencyHz === undefined
          ? [[site.name, index === 0 ? firstHalf : otherHalf(firstHalf)]]
          : [],
      ),
    ),
    channels,
    isNumberOpen,
    polarizations: isPolarizationOpen ? ["vertical", "horizontal"] : [hop.polarization],
    isPolarizationOpen,
  };
}

/** Whether the units at both ends cover a channel, by their sub-bands, halves and tuning; what is not stated fits. */
function isWithin(
  { ends, radio }: Hop,
  { lowHz, highHz }: Pick<ChannelChoice, "lowHz" | "highHz">,
  edgeHz: number,
): boolean {
  return ends.every(({ transmits = "low", installation }) => {
    const hz = transmits === "low" ? lowHz : highHz;
    const subBand = radio?.unit?.subBands.find(({ name }) => name === installation?.subBand);
    return [
      subBand?.[transmits],
      transmits === "low" ? radio?.lowHalf : radio?.highHalf,
      radio?.tuning,
    ].every((range) => range === undefined || (range.fromHz <= hz - edgeHz && hz + edgeHz <= range.toHz));
  });
}
