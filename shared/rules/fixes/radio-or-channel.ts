/** A radio or a channel of the catalogue that fits what the other one is. */
import { address } from "../../design/address.js";
import type { Hop } from "../../design/design.js";
import type { FactChange, Fix } from "../../design/fact-change.js";
import { type ChannelChoice, channelChoices, channelText } from "../../spectrum/channel-choices.js";
import { decision, type Fixes, fitting, type Mending } from "./mending.js";

/** Of each kind so many are tried. */
const MOST = 4;

/** Channels that the radio tunes, the nearest first, then other radios. */
export const otherRadioOrChannel: Fixes = (mending) => [...channelsFor(mending), ...otherRadios(mending)];

/** @param before which of two is rather tried; where it does not say, the nearer one */
export function channelsFor(
  { hop, catalogue }: Mending,
  before: (a: ChannelChoice, b: ChannelChoice) => number = () => 0,
): readonly Fix[] {
  if (!hop) return [];
  const [a, b] = hop.ends.map(({ transmitFrequencyHz }) => transmitFrequencyHz);
  const widthHz = hop.channel?.bandwidthHz ?? hop.modes[0]?.bandwidthHz;
  if (a === undefined || b === undefined || widthHz === undefined || hop.furtherChannels) return [];
  const [low, high] = [Math.min(a, b), Math.max(a, b)];
  const offHz = (one: { lowHz: number; highHz: number }) =>
    Math.abs(one.lowHz - low) + Math.abs(one.highHz - high);
  return channelChoices(catalogue.plans, hop.radio)
    .filter((one) => Math.abs(one.widthHz - widthHz) < 1000 && offHz(one) > 0)
    .toSorted((x, y) => before(x, y) || offHz(x) - offHz(y))
    .slice(0, MOST)
    .map((one) =>
      decision(
        `Take channel ${channelText(one)} (changes the frequencies)`,
        { do: "state", in: address("hop", hop.name), line: `channel ${channelText(one)}` },
        ...halvesByFrequency(hop),
      ),
    );
}

/** The half of each end that states its frequency; which is the higher one stays. */
function halvesByFrequency({ name, ends }: Hop): readonly FactChange[] {
  const [a = 0, b = 0] = ends.map(({ transmitFrequencyHz }) => transmitFrequencyHz);
  return ends.flatMap(({ site, transmits }, index): FactChange[] => {
    if (transmits !== undefined) return [];
    const half = (index === 0) === a >= b ? "high" : "low";
    return [{ do: "state", in: address("hop", name, site.name), line: `transmits ${half}` }];
  });
}

/** Radios that tune to both frequencies with their spacing, and have the modes in use; the trial tells the rest. */
const otherRadios: Fixes = (mending) => {
  const { hop } = mending;
  if (!hop) return [];
  return fitting(mending, hop)
    .radios.filter(({ name }) => name !== hop.radio?.name)
    .slice(0, MOST)
    .map(({ name }) =>
      decision(`Take radio ${name} (changes the equipment)`, {
        do: "replace",
        at: address("hop", hop.name, "radio"),
        argument: "radio",
        by: name,
      }),
    );
};
