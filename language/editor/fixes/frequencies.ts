/** A radio or a channel of the catalogue that fits what the other one is. */
import type { Hop } from "../../../shared/design/design.js";
import { factNamed } from "../../facts/fact.js";
import type { TextEdit } from "../text-range.js";
import { channelsFor, channelText } from "./channels.js";
import { type BlockInText, endInText, hopInText, stateFact } from "./edits.js";
import type { QuickFix, ToMend } from "./fix.js";
import { decision } from "./mounting.js";

/** Of each kind so many are tried. */
const MOST = 4;

/** The end's half of the channel, then channels that the radio tunes, the nearest first, then other radios. */
export function otherRadioOrChannel(toMend: ToMend): readonly QuickFix[] {
  const { model, judged, finding } = toMend;
  const block = judged && hopInText(model, judged.hop.name);
  if (!block) return [];
  const ofChannel = finding.rule === "frequency-off-channel" ? halfOfChannel(toMend) : [];
  return [
    ...ofChannel,
    ...otherChannels(toMend, judged.hop, block),
    ...otherRadios(toMend, judged.hop, block),
  ];
}

function halfOfChannel(toMend: ToMend): readonly QuickFix[] {
  const { hop } = toMend.judged!;
  const site = toMend.finding.at.split(" / ")[1] ?? "";
  const end = endInText(toMend.model, hop.name, site);
  const far = hop.ends.find((one) => one.site.name !== site);
  const half = far?.transmits === "high" ? "low" : far?.transmits === "low" ? "high" : undefined;
  return (half ? [half] : ["high", "low"]).flatMap((one): QuickFix[] => {
    const edit = end && stateFact(toMend.model, end, "transmits", `transmits ${one}`);
    return edit ? [decision(toMend, `Let ${site} transmit the ${one} half of the channel`, [edit])] : [];
  });
}

function otherChannels(toMend: ToMend, hop: Hop, block: BlockInText): readonly QuickFix[] {
  const { model } = toMend;
  const [a, b] = hop.ends.map(({ transmitFrequencyHz }) => transmitFrequencyHz);
  const widthHz = hop.channel?.bandwidthHz ?? hop.modes[0]?.bandwidthHz;
  if (a === undefined || b === undefined || widthHz === undefined || hop.furtherChannels) return [];
  const [low, high] = [Math.min(a, b), Math.max(a, b)];
  const offHz = (one: { lowHz: number; highHz: number }) =>
    Math.abs(one.lowHz - low) + Math.abs(one.highHz - high);
  const near = channelsFor(model, hop.radio)
    .filter((one) => Math.abs(one.widthHz - widthHz) < 1000 && offHz(one) > 0)
    .toSorted((x, y) => offHz(x) - offHz(y))
    .slice(0, MOST);
  const halves = halvesByFrequency(toMend, hop);
  if (halves.some((edit) => edit === undefined)) return [];
  return near.flatMap((one): QuickFix[] => {
    const edit = stateFact(model, block, "channel", `channel ${channelText(one)}`);
    const title = `Take channel ${channelText(one)} (changes the frequencies)`;
    return edit ? [decision(toMend, title, [edit, ...(halves as TextEdit[])])] : [];
  });
}

/** The half of each end that states its frequency; which is the higher one stays. */
function halvesByFrequency({ model }: ToMend, { name, ends }: Hop): readonly (TextEdit | undefined)[] {
  const [a = 0, b = 0] = ends.map(({ transmitFrequencyHz }) => transmitFrequencyHz);
  return ends.flatMap(({ site, transmits }, index) => {
    if (transmits !== undefined) return [];
    const half = (index === 0) === a >= b ? "high" : "low";
    const end = endInText(model, name, site.name);
    return [end && stateFact(model, end, "transmits", `transmits ${half}`)];
  });
}

/** Radios that tune to both frequencies with their spacing, and have the modes in use; the trial tells the rest. */
function otherRadios(toMend: ToMend, hop: Hop, block: BlockInText): readonly QuickFix[] {
  const { model } = toMend;
  if (!factNamed(block.fact.facts, "radio")) return [];
  return model
    .stockFor(hop.name)
    .radios.filter(({ name }) => name !== hop.radio?.name)
    .slice(0, MOST)
    .flatMap(({ name }): QuickFix[] => {
      const edit = stateFact(model, block, "radio", `radio ${name}`);
      return edit ? [decision(toMend, `Take radio ${name} (changes the equipment)`, [edit])] : [];
    });
}
