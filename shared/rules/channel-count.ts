import { address } from "../design/address.js";
import type { Channel, Hop } from "../design/design.js";
import type { Fix } from "../design/fact-change.js";
import { hasFrequencyDiversity } from "../evaluate/fading/diversity.js";
import { channelCountOf } from "../evaluate/level/channels.js";
import { askedMode } from "../evaluate/level/judged-mode.js";
import { radiatesBoth } from "../evaluate/level/polarization.js";
import { arrangementByName } from "../radio/arrangements.js";
import { furtherAddress } from "./carriers.js";
import { exampleHop } from "./example-preamble.js";
import { decision, type Mending } from "./fixes/mending.js";
import type { HopRule, Report } from "./rule.js";

const RADIO = "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement";
const TWO = exampleHop({ hop: `${RADIO} 2+0 dual-polarization` });

export const channelCount: HopRule = {
  scope: "hop",
  id: "channel-count",
  severity: "warning",
  arrangements: ({ frequencyPairs }) => frequencyPairs > 1,
  title: "An arrangement of several channels states each of them",
  checks:
    "The channels of the hop against those of its arrangement: too many, one twice, or two that overlap, which in one polarization is an error; too few are information, or an error where the capacity asked for needs, in the mode that is judged, the carriers that have none (with frequency diversity `diversity-incomplete` tells them).",
  why: "A carrier whose channel is not stated is held against no tuning range and no sub-band, and its units cannot be ordered. Two carriers of one channel and polarization disturb each other.",
  fix: "A `channel` line for each, in the order of the carriers; for two carriers on one channel an arrangement with XPIC.",
  source: "common practice",
  needs: [],
  restsOn: ["arrangement", "channel"],
  fixes: removeChannel,
  good: TWO.replace("P18 / 55 MHz / 4", "P18 / 55 MHz / 4\n  channel P18 / 55 MHz / 6"),
  bad: TWO.replace(
    "P18 / 55 MHz / 4",
    "P18 / 55 MHz / 4\n  channel P18 / 55 MHz / 6\n  channel P18 / 55 MHz / 8",
  ),
  check({ hop, report }) {
    const { name } = hop.arrangement;
    const asked = arrangementByName(name)?.frequencyPairs ?? 1;
    const channels = channelsOf(hop);
    // One channel too many where one is enough is told with diversity.
    if (asked < 2) return;
    // Before any frequency is known, that is what is missing.
    if (channels.length === 0 && hop.ends.some((end) => end.transmitFrequencyHz === undefined)) return;
    for (const [index, channel] of channels.entries()) {
      const first = channels.findIndex((one) => isSame(one, channel));
      const crossed = channels.findIndex((one, other) => other < index && overlap(one, channel));
      const at = furtherAddress(hop, index - 1);
      if (index >= asked)
        report({ at, message: `${name} has ${asked} channels; channel ${channel.number} is one more` });
      else if (crossed >= 0 && first === index)
        report({
          at,
          severity: radiatesBoth(hop) ? undefined : "error",
          message: `channel ${channel.number} overlaps channel ${channels[crossed]!.number} of another carrier`,
        });
      else if (first < index)
        report({
          at,
          severity: radiatesBoth(hop) ? undefined : "error",
          message: `two carriers have channel ${channel.number}, and ${name} gives each its own`,
          help: "Two carriers on one channel need both polarizations and XPIC.",
        });
    }
    if (channels.length < asked && !hasFrequencyDiversity(hop)) report(tooFew(hop));
  },
};

/** An error where the capacity asked for rests on the carriers that have no channel yet. */
function tooFew(hop: Hop): Report {
  const { asked, stated, carriers, carriersOnStated } = channelCountOf(hop);
  // Of the mode that the hop is judged in: a faster one on fewer carriers is not the hop that the figures are of.
  const rateBps = askedMode(hop)?.bitRateBps ?? 0;
  const capacityBps = hop.objective?.capacityBps ?? 0;
  const fits = capacityBps <= rateBps * Math.max(1, carriersOnStated);
  return {
    at: address("hop", hop.name, "channel"),
    severity: fits ? "info" : "error",
    message: `${hop.arrangement.name} needs ${asked} channels, ${stated} ${stated === 1 ? "is" : "are"} stated; capacity counts all ${carriers} carriers, but those without a channel are not checked, and the sub-band of their units is open`,
  };
}

function channelsOf({ channel, furtherChannels = [] }: Hop): readonly Channel[] {
  return channel === undefined ? [] : [channel, ...furtherChannels];
}

/** Whether one reaches into the other. */
function overlap(a: Channel, b: Channel): boolean {
  if (a.lowHz === undefined || b.lowHz === undefined) return false;
  return Math.abs(a.lowHz - b.lowHz) < (a.bandwidthHz + b.bandwidthHz) / 2 - TOLERANCE_HZ;
}

/** Rounding of frequencies in plans. */
const TOLERANCE_HZ = 1000;

function isSame(a: Channel, b: Channel): boolean {
  return a.plan === b.plan && a.number === b.number && a.bandwidthHz === b.bandwidthHz;
}

/** Takes away a channel that is one too many or stands there twice. */
function removeChannel({ hop, finding }: Mending): readonly Fix[] {
  return hop && /channel#[1-9]\d*$/.test(finding.at)
    ? [decision("Remove this channel", { do: "remove", at: finding.at })]
    : [];
}
