/** What a parts list cannot hold, since the design states nothing of it. */
import type { Design, Hop } from "../design/design.js";
import { isAllIndoor } from "./mounting.js";
import { type SiteEnd, type SitePlan, sitePlans } from "./site-plan.js";
import { takesOwnFeed } from "./wiring/supply.js";

/** More places than this are counted. */
const NAMED = 4;

/** Short sentences, the parts that cost most first. */
export function unlistedParts(design: Design): readonly string[] {
  const plans = [...sitePlans(design).values()];
  const ends = plans.flatMap((plan) => plan.ends);
  const hops = [...new Set(ends.map(({ hop }) => hop))];
  return [
    ...told("radios", "no radio is stated", hops.filter(({ radio }) => radio === undefined).map(nameOf)),
    ...told("antennas", "no antenna is stated", ends.filter(({ end }) => !end.antenna).map(endName)),
    ...told("cables", "no cable is stated", ends.filter(lacksCable).map(endName)),
    ...told(
      "chassis and cards",
      "no chassis is stated",
      plans.filter(lacksIndoorUnit).map(({ site }) => site.name),
    ),
    ...told(
      "-48 V pairs",
      "an all-outdoor unit on a fibre has one of its own",
      ends.filter(takesOwnFeed).map(endName),
    ),
    "Never in it: what the catalogue has no kind for, such as lightning arresters, sealing, labels and power cables.",
  ];
}

function told(what: string, why: string, places: readonly string[]): string[] {
  if (places.length === 0) return [];
  const more = places.length - NAMED;
  const where = more > 0 ? `${places.slice(0, NAMED).join(", ")} and ${more} more` : places.join(", ");
  return [`Not in it: ${what} where ${why} (${where}).`];
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

function nameOf({ name }: Hop): string {
  return name;
}

function endName({ hop, end }: SiteEnd): string {
  return `${hop.name} at ${end.site.name}`;
}
