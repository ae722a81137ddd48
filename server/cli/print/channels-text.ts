import { availabilityBounded, ESTIMATE_REMARK } from "../../../shared/format/bounds.js";
import { bandwidth, decibels, frequency } from "../../../shared/format/numbers.js";
import { isOnBoth } from "../../../shared/interference/channel-trials.js";
import { isOwn } from "../../../shared/interference/station.js";
import { senderWords } from "../../../shared/words/interference.js";
import type { TriedChannel } from "../../session/channels.js";
import type { ChannelsFormat, ChannelsOfHop } from "./format.js";
import { safe } from "./safe.js";
import { wrapped } from "./wrap.js";

export const channelsText: ChannelsFormat = {
  name: "text",
  what: "for reading: a line a channel and polarization, the best first",
  print: printText,
};

function* printText({ hop, tried, paint }: ChannelsOfHop): Iterable<string> {
  const plan = (hop.channel ?? hop.openChannel)!;
  yield `${paint("bold", safe(`${hop.name}: channels of ${plan.plan} / ${bandwidth(plan.bandwidthHz)}`))}\n\n`;
  const isBoth = isOnBoth(hop);
  const rows = [HEADS, ...tried.map((one) => rowOf(one, isBoth))];
  const widths = HEADS.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  for (const [index, row] of rows.entries()) {
    const line = row.map((cell, column) =>
      column < 2 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!),
    );
    const text = safe(line.join("  ").trimEnd());
    yield `${index === 0 ? paint("bold", text) : text}\n`;
    const because = index === 0 ? undefined : reasons(tried[index - 1]!);
    if (because !== undefined) yield `    ${safe(because)}\n`;
  }
  if (tried.some(({ availability }) => availability?.atLeastPercent !== undefined))
    yield `\n${wrapped(ESTIMATE_REMARK, 95)}\n`;
  yield "\nSuffers: how much the hop's threshold rises, by all. Causes: the most that another receiver\nloses to it. Beyond: receivers that pass what the network allows, 1 dB where it states nothing.\nIn order of receivers beyond, then of the greater of both, then of the number.\n";
}

const HEADS = [
  "channel",
  "polarization",
  "frequencies",
  "suffers",
  "causes",
  "beyond",
  "margin",
  "available",
];

function rowOf({ trial, marginDb, availability }: TriedChannel, isBoth: boolean): string[] {
  const { choice, polarization, stated, suffersDb, causesDb, beyond } = trial;
  return [
    `${choice.number}${stated ? " (stated)" : ""}`,
    isBoth ? "both" : (polarization ?? "not stated"),
    `${frequency(choice.lowHz)} / ${frequency(choice.highHz)}`,
    decibels(suffersDb),
    decibels(causesDb),
    String(beyond),
    marginDb === undefined ? "-" : decibels(marginDb),
    availability === undefined ? "-" : availabilityBounded(availability),
  ];
}

/** Less than this is no reason to name anybody. */
const TOLD_DB = 0.05;

function reasons({ trial: { suffersDb, by, causesDb, at } }: TriedChannel): string | undefined {
  const told = [
    ...(by && suffersDb >= TOLD_DB ? [`suffers from ${senderWords(by.sender)}`] : []),
    ...(at && causesDb >= TOLD_DB
      ? [
          `harms ${isOwn(at.receiver.of) ? `${at.receiver.of.hop} at ${at.receiver.place.site}` : senderWords(at.receiver)}`,
        ]
      : []),
  ];
  return told.length === 0 ? undefined : told.join("; ");
}
