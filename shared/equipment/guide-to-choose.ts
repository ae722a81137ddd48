/** The waveguide that an end needs and nobody has chosen: what is counted for it until somebody does. */
import type { Hop, HopEnd } from "../design/design.js";
import { FLEXIBLE_GUIDE_LOSS } from "./flexible-guide.data.js";
import { antennasUsed, type Lead, leadTo } from "./mounting.js";
import type { Stand } from "./stands.js";

/** As the parts list and the level diagram call it. */
export const GUIDE_TO_CHOOSE = "waveguide, to be chosen";

/** Length that is counted, m; usual pieces have 0.3 to 1.2 m. */
export const ESTIMATED_LENGTH_M = 1;

/** Above this flexible guide is practically not used: nothing is estimated. */
const HIGHEST_HZ = FLEXIBLE_GUIDE_LOSS.at(-1)!.upToHz;

/** Why nothing is estimated: the long line of an all-indoor radio, or a guide above the highest frequency. */
export type OpenLead =
  | { readonly code: "line-not-stated"; readonly site: string }
  | { readonly code: "guide-not-stated"; readonly site: string; readonly aboveHz: number };

export interface GuideEstimate {
  readonly lossDb: number;
  /** Of the table, for example `6 to 8 GHz`. */
  readonly band: string;
}

function isToChoose(lead: Lead): boolean {
  return lead === "piece to choose" || lead === "line to choose";
}

/** The first antenna of an end to which something has to be chosen. */
export function openLead(hop: Pick<Hop, "arrangement" | "radio">, end: HopEnd): Stand | undefined {
  return antennasUsed(hop, end).find((stand) => isToChoose(leadTo(hop, end, stand)));
}

/**
 * Loss of a metre of flexible guide at the hop's higher frequency: the greatest usual one of its band.
 * @param stand antenna to which it leads, else the first that wants it
 * @returns `open`, with the reason, above 42 GHz and for the long line of an all-indoor radio, where nothing is
 * estimated; undefined where nothing has to be chosen, or no frequency is known
 * @see the table of usual losses: from memory, unconfirmed
 */
export function guideEstimate(
  hop: Pick<Hop, "arrangement" | "radio" | "ends">,
  end: HopEnd,
  stand: Stand | undefined = openLead(hop, end),
): GuideEstimate | { readonly open: OpenLead } | undefined {
  const lead = stand && leadTo(hop, end, stand);
  const { name } = end.site;
  if (lead === "line to choose") return { open: { code: "line-not-stated", site: name } };
  if (lead !== "piece to choose") return undefined;
  const highestHz = Math.max(0, ...hop.ends.map(({ transmitFrequencyHz = 0 }) => transmitFrequencyHz));
  if (!(highestHz > 0)) return undefined;
  const row = FLEXIBLE_GUIDE_LOSS.find(({ upToHz }) => highestHz <= upToHz);
  if (row === undefined) return { open: { code: "guide-not-stated", site: name, aboveHz: HIGHEST_HZ } };
  return { lossDb: row.lossDbPerM[1] * ESTIMATED_LENGTH_M, band: row.band };
}
