import { senderWords } from "../../../shared/words/interference.js";
import { VERSION } from "../../version.js";
import type { ChannelsOutput } from "./channels-output.js";
import type { ChannelsFormat, ChannelsOfHop } from "./format.js";
import { jsonText } from "./json-text.js";

export const channelsJson: ChannelsFormat = {
  name: "json",
  what: "the same figures for programs",
  print: printJson,
};

function printJson({ hop, tried }: ChannelsOfHop): Iterable<string> {
  const plan = (hop.channel ?? hop.openChannel)!;
  const output: ChannelsOutput = {
    schema: "hopwright-channels/1",
    version: VERSION,
    hop: hop.name,
    plan: plan.plan,
    bandwidthHz: plan.bandwidthHz,
    channels: tried.map(({ trial, marginDb, availability }) => ({
      number: trial.choice.number,
      polarization: trial.polarization,
      stated: trial.stated,
      lowHz: trial.choice.lowHz,
      highHz: trial.choice.highHz,
      suffersDb: trial.suffersDb,
      suffersFrom: trial.by && senderWords(trial.by.sender),
      causesDb: trial.causesDb,
      causesAt: trial.at && senderWords(trial.at.receiver),
      beyond: trial.beyond,
      fadeMarginDb: marginDb,
      availabilityPercent: availability?.availabilityPercent,
      availabilityBound: availability?.bound,
      availabilityAtLeastPercent: availability?.atLeastPercent,
    })),
  };
  return [`${jsonText(output, 1)}\n`];
}
