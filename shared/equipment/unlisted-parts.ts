/** What a parts list cannot hold, since the design states nothing of it. */
import type { Design } from "../design/design.js";
import { isAllIndoor } from "./mounting.js";
import { type SiteEnd, type SitePlan, sitePlans } from "./site-plan.js";
import { takesOwnFeed } from "./wiring/supply.js";

/** More places than this are counted. */
const NAMED = 4;

/** What nothing is stated of. */
export type UnlistedKind = "radios" | "antennas" | "cables" | "chassis and cards" | "-48 V pairs";

export interface Unlisted {
  readonly what: UnlistedKind;
  /** At least one: a hop, an end of one, a site. */
  readonly places: readonly { readonly hop?: string; readonly site?: string }[];
}

/** The parts that cost most first. */
export function unlistedOf(design: Design): readonly Unlisted[] {
  const plans = [...sitePlans(design).values()];
  const ends = plans.flatMap((plan) => plan.ends);
  const hops = [...new Set(ends.map(({ hop }) => hop))];
  const all: readonly Unlisted[] = [
    {
      what: "radios",
      places: hops.filter(({ radio }) => radio === undefined).map(({ name }) => ({ hop: name })),
    },
    { what: "antennas", places: ends.filter(({ end }) => !end.antenna).map(endPlace) },
    { what: "cables", places: ends.filter(lacksCable).map(endPlace) },
    {
      what: "chassis and cards",
      places: plans.filter(lacksIndoorUnit).map(({ site }) => ({ site: site.name })),
    },
    { what: "-48 V pairs", places: ends.filter(takesOwnFeed).map(endPlace) },
  ];
  return all.filter(({ places }) => places.length > 0);
}

const WHY: Readonly<Record<UnlistedKind, string>> = {
  radios: "no radio is stated",
  antennas: "no antenna is stated",
  cables: "no cable is stated",
  "chassis and cards": "no chassis is stated",
  "-48 V pairs": "an all-outdoor unit on a fibre has one of its own",
};

/** Short sentences, in that order. */
export function unlistedParts(design: Design): readonly string[] {
  return [
    ...unlistedOf(design).map(told),
    "Never in it: what the catalogue has no kind for, such as lightning arresters, sealing, labels and power cables.",
  ];
}

function told({ what, places }: Unlisted): string {
  const names = places.slice(0, NAMED).map(({ hop, site }) => {
    return hop !== undefined && site !== undefined ? `${hop} at ${site}` : (hop ?? site);
  });
  const more = places.length - NAMED;
  const where = more > 0 ? `${names.join(", ")} and ${more} more` : names.join(", ");
  return `Not in it: ${what} where ${WHY[what]} (${where}).`;
}

/** Transmitter and receiver in the rack have a waveguide; units on the structure have a cable. */
function lacksCable({ hop, end }: SiteEnd): boolean {
  return hop.radio !== undefined && end.installation?.cable === undefined && !isAllIndoor(hop);
}

/** No chassis is stated, and a unit there is not known to need none. */
export function lacksIndoorUnit({ equipment, ends }: SitePlan): boolean {
  const needs = ({ hop }: SiteEnd) => hop.radio?.unit?.construction !== "all-outdoor";
  return (equipment?.chassis ?? []).length === 0 && ends.some(needs);
}

function endPlace({ hop, end }: SiteEnd): Unlisted["places"][number] {
  return { hop: hop.name, site: end.site.name };
}
