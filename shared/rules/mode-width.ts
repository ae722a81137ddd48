import { type Address, address, nth } from "../design/address.js";
import type { RadioMode } from "../design/catalogue.js";
import type { Channel, Hop } from "../design/design.js";
import type { Fix } from "../design/fact-change.js";
import { bandwidth, trimmed } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import { decision, type Mending } from "./fixes/mending.js";
import type { HopRule } from "./rule.js";

/** Widths of one raster are named by up to so much apart: 27.5 and 28 MHz, 55 and 56 MHz. */
const SAME_WIDTH = 0.03;

export const modeWidth: HopRule = {
  scope: "hop",
  id: "mode-width",
  severity: "error",
  title: "A mode must fit into its channel",
  checks:
    "The width of each mode in use against the width of every channel of the hop: more than 3 % wider is an error, more than 3 % narrower is information.",
  why: "What is wider than its channel transmits into its neighbours and is refused a licence; its level, threshold and rate are those of another channel. What is narrower leaves capacity unused.",
  fix: "Take a mode of the channel's width, or a channel of the mode's.",
  source: "common practice; the 3 % are our own limit",
  needs: [],
  fixes: narrowMode,
  good: exampleHop(),
  bad: `radio R18W like R18 {\n  mode 55 MHz 128QAM rate 310 Mbit/s power 20 dBm threshold -69 dBm\n  mode 112 MHz 128QAM rate 620 Mbit/s power 20 dBm threshold -66 dBm\n}\n\n${exampleHop(
    {
      hop: "polarization vertical\n  radio R18W\n  mode 112 MHz 128QAM",
    },
  )}`,
  check({ hop, report }) {
    const [widest, narrowest] = outermost(hop.modes);
    const channels = channelsOf(hop);
    if (widest === undefined || narrowest === undefined) return;
    const tooNarrow = channels.find(({ channel }) => isWider(widest.bandwidthHz, channel.bandwidthHz));
    const wide = channels.find(({ channel }) => isWider(channel.bandwidthHz, narrowest.bandwidthHz));
    const told = tooNarrow ?? wide;
    if (told === undefined) return;
    const { number, bandwidthHz } = told.channel;
    const mode = tooNarrow ? widest : narrowest;
    const takes = `${mode.modulation} takes ${bandwidth(mode.bandwidthHz)}`;
    const ofChannel = `the ${bandwidth(bandwidthHz)} of channel ${number}`;
    const morePercent = trimmed((mode.bandwidthHz / bandwidthHz - 1) * 100, 2);
    report({
      at: address("hop", hop.name, hop.modes.length > 1 ? "modes" : "mode"),
      about: address("hop", hop.name),
      message: tooNarrow
        ? `${takes}, ${morePercent} % more than ${ofChannel}`
        : `${takes} of ${ofChannel}; the rest stays unused`,
      severity: tooNarrow ? undefined : "info",
      related: [{ at: told.at, message: `channel ${number}` }],
    });
  },
};

function outermost(modes: readonly RadioMode[]): [RadioMode?, RadioMode?] {
  const byWidth = modes.toSorted((a, b) => b.bandwidthHz - a.bandwidthHz);
  return [byWidth[0], byWidth.at(-1)];
}

function channelsOf({ name, channel, furtherChannels = [] }: Hop): { channel: Channel; at: Address }[] {
  const all = channel === undefined ? [] : [channel, ...furtherChannels];
  return all.map((one, index) => ({ channel: one, at: address("hop", name, nth("channel", index)) }));
}

/** Whether one width is more than 3 % wider than another, with a hair for what binary fractions make of it. */
export function isWider(aHz: number, bHz: number): boolean {
  return aHz > bHz * (1 + SAME_WIDTH) + 1;
}

/** The same modulations in a width that the radio has and every channel of the hop holds, the widest first. */
function narrowMode({ hop }: Mending): readonly Fix[] {
  if (!hop) return [];
  const { name, radio, modes, channel, furtherChannels = [] } = hop;
  const channels = [channel, ...furtherChannels].filter((one) => one !== undefined);
  const nowHz = modes[0]?.bandwidthHz ?? 0;
  const widths = [...new Set(radio?.modes.map(({ bandwidthHz }) => bandwidthHz))]
    .filter((hz) => hz < nowHz && channels.every(({ bandwidthHz }) => !isWider(hz, bandwidthHz)))
    .sort((a, b) => b - a);
  const at = address("hop", name);
  return widths.map((hz) => {
    const [lowest, highest] = [modes[0]!.modulation, modes.at(-1)!.modulation];
    const width = bandwidth(hz);
    const stated = (word: string) =>
      ({ do: "replace", at: `${at} / ${word}`, argument: "bandwidth", by: width }) as const;
    const line = modes.length > 1 ? `modes ${width} ${lowest} to ${highest}` : `mode ${width} ${lowest}`;
    return decision(`Take ${modes.length > 1 ? "modes" : "the mode"} of ${width}`, {
      do: "first",
      of: [stated("mode"), stated("modes"), { do: "state", in: at, line }],
    });
  });
}
