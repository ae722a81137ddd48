/** In words what a proposal for open hops leaves, and how good it is. */
import type { Hop } from "../../../shared/design/design.js";
import { bandwidth, decibels, trimmed } from "../../../shared/format/numbers.js";
import type { NotProposed } from "../../../shared/interference/choose/open-hops.js";
import type { Proposal } from "../../../shared/interference/choose/propose.js";
import type { InterferenceAt } from "../../../shared/interference/receiver-result.js";
import { isOwn } from "../../../shared/interference/station.js";
import { settledWords } from "../../../shared/rules/settled-bands.js";
import { senderWords } from "../../../shared/words/interference.js";

export const NOT_PROPOSED: Readonly<Record<NotProposed, (hop: Hop) => string>> = {
  "no plan": () => "no plan and width are stated; write channel PLAN / WIDTH, the number may be left out",
  "channel unknown": () =>
    "its channel cannot be used: it wants plan and width, and a number of the plan or none; hopwright check says what is wrong",
  "no radio": () => "no radio is stated, so it is not known what it tunes to",
  "several channels": () => "it has several channels; hops of one channel alone are given one",
  geometry: () => "its path is not known yet; hopwright check says what is missing",
  "none tuned": ({ radio, channel, openChannel }) => {
    const { plan, bandwidthHz } = (channel ?? openChannel)!;
    return `${radio?.name} tunes to no channel of ${plan} / ${bandwidth(bandwidthHz)}; take another radio, plan or width`;
  },
  "odd ring": () => "no half is left for it: see the ring below",
  "both alike": () => "both its ends transmit the same half; exchange it at one of them",
};

export function contradictionWords(proposal: Proposal): readonly string[] {
  return proposal.contradictions.map(settledWords);
}

export function receiverWords({ receiver }: InterferenceAt): string {
  return isOwn(receiver.of) ? `${receiver.of.hop} at ${receiver.place.site}` : senderWords(receiver);
}

export function beyondWords(at: InterferenceAt): string {
  const [strongest] = at.entries;
  const by = strongest ? `, most by ${senderWords(strongest.sender)}` : "";
  return `${receiverWords(at)}: ${decibels(at.degradationDb)}${by}`;
}

export function isBest({ least, counted }: Proposal): boolean {
  return (
    least !== undefined &&
    counted !== undefined &&
    least.violations === counted.violations &&
    least.spectrumHz === counted.spectrumHz
  );
}

/** What is proven of it. */
export function boundWords(proposal: Proposal): readonly string[] {
  const { least, counted, beyond } = proposal;
  if (least === undefined || counted === undefined) return [];
  const mhz = (hz: number) => `${trimmed(hz / 1e6, 3)} MHz`;
  const isFewest = least.violations === counted.violations;
  const isLeast = isFewest && least.spectrumHz === counted.spectrumHz;
  const such =
    counted.violations === 0
      ? "No choice that keeps all receivers within"
      : isFewest
        ? "No choice with so few receivers beyond"
        : "No choice at all";
  const spectrum = `${such} takes less than ${mhz(least.spectrumHz)}${isLeast ? "" : `; this one takes ${mhz(counted.spectrumHz)}`}.`;
  const fewest = isFewest
    ? `No choice has fewer receivers beyond than ${counted.violations}.`
    : `No choice has fewer receivers beyond than ${least.violations}; this one has ${counted.violations}.`;
  const others =
    beyond.length === counted.violations
      ? []
      : [
          `Channels were chosen by the powers of pairs, worked out on one frequency a band; by them ${counted.violations} pass, and what is said of all choices is said of these powers.`,
        ];
  return [...(counted.violations === 0 ? [] : [fewest]), spectrum, ...others];
}
