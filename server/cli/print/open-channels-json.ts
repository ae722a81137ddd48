import type { Proposal, Proposed } from "../../../shared/interference/choose/propose.js";
import { senderWords } from "../../../shared/words/interference.js";
import { VERSION } from "../../version.js";
import { jsonText } from "./json-text.js";
import type { OpenChannelsOutput } from "./open-channels-output.js";
import type { OpenChannelsShown } from "./open-channels-text.js";
import { contradictionWords, isBest, NOT_PROPOSED, receiverWords } from "./open-channels-words.js";

export function openChannelsJson({ designs }: OpenChannelsShown): Iterable<string> {
  const output: OpenChannelsOutput = {
    schema: "hopwright-open-channels/1",
    version: VERSION,
    designs: designs.map(({ title, proposal }) => ({
      title,
      hops: proposal.proposed.map(hopOf),
      notProposed: proposal.left.map(({ hop, why }) => ({ hop: hop.name, why: NOT_PROPOSED[why](hop) })),
      contradictions: contradictionWords(proposal),
      receiversBeyond: proposal.beyond.map((at) => ({
        at: receiverWords(at),
        degradationDb: at.degradationDb,
        mostBy: at.entries[0] && senderWords(at.entries[0].sender),
      })),
      receiversBeyondBefore: proposal.beyondBefore,
      channels: proposal.channels,
      spectrumHz: proposal.spectrumHz,
      ...boundOf(proposal),
    })),
  };
  return [`${jsonText(output, 1)}\n`];
}

type OfDesign = OpenChannelsOutput["designs"][number];

function hopOf({ open, choice, polarization, suffersDb, isBeyond }: Proposed): OfDesign["hops"][number] {
  const { hop, isNumberOpen, isPolarizationOpen, halves } = open;
  return {
    hop: hop.name,
    plan: choice.plan,
    bandwidthHz: choice.widthHz,
    number: choice.number,
    polarization,
    halves: hop.ends.flatMap(({ site, transmits }) =>
      transmits === undefined ? [] : [{ site: site.name, transmits }],
    ),
    proposed: [
      ...(isNumberOpen ? (["number"] as const) : []),
      ...(isPolarizationOpen ? (["polarization"] as const) : []),
      ...(halves.size > 0 ? (["halves"] as const) : []),
    ],
    suffersDb,
    beyond: isBeyond,
  };
}

function boundOf(proposal: Proposal): Pick<OfDesign, "bound"> {
  const { least, counted } = proposal;
  if (least === undefined || counted === undefined) return {};
  return {
    bound: {
      receiversBeyond: least.violations,
      spectrumHz: least.spectrumHz,
      ofProposal: { receiversBeyond: counted.violations, spectrumHz: counted.spectrumHz },
      isBest: isBest(proposal),
    },
  };
}
