import { availabilityBounded, ESTIMATE_REMARK, outageBounded, yearlyBounded } from "../../format/bounds.js";
import { bitRate } from "../../format/numbers.js";
import type { Pair } from "../../network/in-network.js";
import type { BandOfPair, PairResult } from "../../network/pairs.js";
import type { Fact, Section } from "../document/document.js";

/** The other hop of a dual-band pair, with its page where the report has one. */
export type OtherBand = Pair & { readonly page?: string };

/** What both bands carry together; empty unless the two are a pair. */
export function pairSection(pairWith: OtherBand | undefined): Section[] {
  const pair = pairWith?.both;
  if (pairWith === undefined || pair === undefined) return [];
  const { other, page } = pairWith;
  const { name, title } = other;
  const text = title ?? name;
  const facts: Fact[] = [
    { label: "Other band", value: page === undefined ? text : [{ text, to: { page } }] },
    ...band("Committed", pair.robust),
    ...band("Beside it", pair.other),
  ];
  if (pair.clearAirBps !== undefined)
    facts.push({ label: "Both bands in clear air", value: bitRate(pair.clearAirBps), note: "highest modes" });
  if (pair.bothOutPercent !== undefined) {
    const out = {
      timePercent: pair.bothOutPercent,
      bound: pair.bothOutBound,
      atMostPercent: pair.bothOutAtMostPercent,
    };
    facts.push({ label: "Both bands out", value: outageBounded(out), note: yearlyBounded(out) });
  }
  return [
    {
      id: "pair",
      title: "Dual-band pair",
      blocks: [
        { type: "facts", facts },
        {
          type: "paragraph",
          text: "Each band is judged by itself. Rain takes both at once: the outage of both is that of the band with the smaller outage, no product of the two. Common practice; no Recommendation at hand says how to combine them. Propagation only.",
        },
        ...(isEstimated(pair) ? [{ type: "paragraph", text: ESTIMATE_REMARK } as const] : []),
      ],
    },
  ];
}

function isEstimated({ robust, other, bothOutAtMostPercent }: PairResult): boolean {
  return [robust.atLeastPercent, other.atLeastPercent, bothOutAtMostPercent].some((one) => one !== undefined);
}

function band(label: string, of: BandOfPair): Fact[] {
  const { hop, judgedBps, modulation, availabilityPercent, bound, atLeastPercent } = of;
  if (availabilityPercent === undefined || modulation === undefined) return [];
  const rate = judgedBps === undefined ? modulation : `${bitRate(judgedBps)}, ${modulation}`;
  return [
    {
      label: `${label}, ${hop}`,
      value: availabilityBounded({ availabilityPercent, bound, atLeastPercent }),
      note: rate,
    },
  ];
}
