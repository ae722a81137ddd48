import { address } from "../design/address.js";
import type { Hop, HopEnd } from "../design/design.js";
import type { FrequencyRange } from "../design/frequency-range.js";
import { frequency } from "../format/numbers.js";
import { halfOf } from "../radio/halves.js";
import { type Carrier, carriersOf } from "./carriers.js";
import { exampleHop } from "./example-preamble.js";
import { otherRadioOrChannel } from "./fixes/radio-or-channel.js";
import type { HopRule } from "./rule.js";

export const channelOutsideRadio: HopRule = {
  scope: "hop",
  id: "channel-outside-radio",
  severity: "warning",
  title: "The whole channel should lie in what the radio covers",
  checks:
    "Both edges of every carrier's channel (its centre and half its width to either side) against the radio's tuning range, the half in which the end transmits and the sub-band that it states.",
  why: "A carrier whose centre fits may still reach beyond the unit's filter, which cuts its edge. Whether a maker's range means centres or edges stands in its documents.",
  fix: "Take a channel further inside, another half or sub-band, or accept it where the maker's range means centre frequencies.",
  source: "common practice",
  needs: [],
  quietAfter: ["frequency-outside-tuning", "both-ends-same-half", "half-outside-radio"],
  fixes: otherRadioOrChannel,
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna DISH60-18 at 40 m\n    transmits 19.69 GHz" }),
  check({ hop, report }) {
    for (const end of hop.ends) {
      for (const carrier of carriersOf(hop, end)) {
        const { frequencyHz, widthHz, at, words } = carrier;
        if (widthHz === undefined || !(widthHz > 0)) continue;
        // The narrowest range that holds the centre, and not the edges, says most.
        const cut = rangesOf(hop, end).find(({ range }) => cuts(range, carrier));
        if (cut === undefined) continue;
        const edges = `${frequency(frequencyHz - widthHz / 2)} to ${frequency(frequencyHz + widthHz / 2)}`;
        report({
          at,
          message: `${words}; its channel reaches from ${edges}, ${cut.words} from ${frequency(cut.range.fromHz)} to ${frequency(cut.range.toHz)}`,
          related: [
            { at: address("radio", hop.radio!.name, cut.fact), message: `${cut.fact} of ${hop.radio!.name}` },
          ],
        });
      }
    }
  },
};

interface Range {
  readonly range: FrequencyRange;
  readonly words: string;
  readonly fact: string;
}

/** What the unit at an end covers, the narrowest first. */
function rangesOf({ radio }: Hop, end: HopEnd): readonly Range[] {
  if (radio === undefined) return [];
  const half = halfOf(end, radio);
  const ranges: Range[] = [];
  const stated = radio.unit?.subBands.find(({ name }) => name === end.installation?.subBand);
  if (stated !== undefined && half !== undefined)
    ranges.push({ range: stated[half], words: `sub-band ${stated.name} ${half} reaches`, fact: "sub-band" });
  const ofHalf = half === "low" ? radio.lowHalf : half === "high" ? radio.highHalf : undefined;
  if (ofHalf !== undefined)
    ranges.push({ range: ofHalf, words: `the ${half} half of ${radio.name} reaches`, fact: `${half}-half` });
  if (radio.tuning !== undefined)
    ranges.push({ range: radio.tuning, words: `${radio.name} tunes`, fact: "tuning" });
  return ranges;
}

/** Rounding of stated frequencies. */
const TOLERANCE_HZ = 1000;

function cuts({ fromHz, toHz }: FrequencyRange, { frequencyHz, widthHz = 0 }: Carrier): boolean {
  const inside = frequencyHz >= fromHz && frequencyHz <= toHz;
  const below = frequencyHz - widthHz / 2 < fromHz - TOLERANCE_HZ;
  return inside && (below || frequencyHz + widthHz / 2 > toHz + TOLERANCE_HZ);
}
