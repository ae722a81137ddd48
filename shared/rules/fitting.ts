/** What of the catalogue would fit in place of what does not, named beside the finding. */

import type { Antenna, Coupler } from "../design/catalogue.js";
import { suits } from "../equipment/stands.js";
import type { ArrangementFacts } from "../radio/arrangements.js";
import { listed } from "../words/lists.js";
import type { HopContext } from "./rule.js";

const MOST_NAMED = 6;

/** @returns undefined where nothing fits, or the host lends no catalogue */
export function couplersThatFit(
  { tried }: Pick<HopContext, "tried">,
  facts: ArrangementFacts | undefined,
): string | undefined {
  return named(tried?.stock.couplers.filter(({ kind }: Coupler) => kind && facts && suits(kind, facts)));
}

/** @returns undefined where nothing fits, or the host lends no catalogue */
export function antennasThatFit(
  { tried }: Pick<HopContext, "tried">,
  suit: (antenna: Antenna) => boolean = () => true,
): string | undefined {
  return named(tried?.stock.antennas.filter(suit));
}

/** Of its band and kind; whether it is enough for the level is another matter. */
function named(found: readonly { readonly name: string }[] | undefined): string | undefined {
  // Of a hop without frequencies nothing fits, and nothing is said.
  if (found === undefined || found.length === 0) return undefined;
  const names = found.map(({ name }) => name);
  const more = names.length - MOST_NAMED;
  const shown = more > 0 ? [...names.slice(0, MOST_NAMED), `${more} more`] : names;
  return `Of the catalogue ${names.length === 1 ? "fits" : "fit"} ${listed(shown)}.`;
}
