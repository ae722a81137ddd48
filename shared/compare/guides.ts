/** What became of the waveguides between two states of a hop: a level that one forgot is no better one. */

import { address } from "../design/address.js";
import type { Hop, HopEnd } from "../design/design.js";
import type { Finding } from "../design/finding.js";
import { guideEstimate } from "../equipment/guide-to-choose.js";
import { antennasUsed, mountingOf, takesDirect } from "../equipment/mounting.js";
import { feedersStated } from "../equipment/stands.js";

export interface GuideChange {
  /** Whether level, margin and availability may have risen only because a guide is gone, or was only estimated. */
  readonly undecided: boolean;
  /** Sites, by their new names, at which a guide is gone and nothing sound stands for it. */
  readonly forgottenAt: readonly string[];
  /** On which side an estimate stands, or what is gone. */
  readonly remark?: string;
}

/** @param siteNow the new name of a site of the old side */
export function guideChange(was: Hop, is: Hop, siteNow: (site: string) => string): GuideChange {
  const ends = is.ends.flatMap((end) => {
    const before = was.ends.find(({ site }) => siteNow(site.name) === end.site.name);
    return before === undefined ? [] : [endChange([was, before], [is, end])];
  });
  const remarks = ends.flatMap(({ remark }) => remark ?? []);
  return {
    undecided: ends.some(({ undecided }) => undecided),
    forgottenAt: ends.flatMap(({ forgottenAt }) => forgottenAt),
    remark: remarks.length === 0 ? undefined : remarks.join("; "),
  };
}

type Side = readonly [hop: Hop, end: HopEnd];

function endChange(was: Side, is: Side): GuideChange {
  const site = is[1].site.name;
  const [beforeDb, afterDb] = [estimatedDb(was), estimatedDb(is)];
  const changed = (what: string, undecided = true): GuideChange => ({
    undecided,
    forgottenAt: undecided && !isDecided(is) ? [site] : [],
    remark: `the ${what}`,
  });
  if (beforeDb !== undefined && afterDb !== undefined)
    return changed(`waveguide at ${site} is an estimate on both sides`, beforeDb !== afterDb);
  if (afterDb !== undefined) return changed(`waveguide at ${site} is an estimate now`);
  if (beforeDb !== undefined) return changed(`waveguide at ${site} was an estimate`);
  if (feedersStated(was[1]).length === 0 || isDecided(is)) return { undecided: false, forgottenAt: [] };
  return changed(`feeder at ${site} is gone, and nothing sound stands for it`);
}

function estimatedDb([hop, end]: Side): number | undefined {
  const guide = guideEstimate(hop, end);
  return guide !== undefined && "lossDb" in guide ? guide.lossDb : undefined;
}

/** A feeder, or direct mounting that is stated and possible. */
function isDecided([hop, end]: Side): boolean {
  if (end.feeder !== undefined) return true;
  return antennasUsed(hop, end).every(
    (stand) =>
      stand.feeder !== undefined || (mountingOf(end, stand) === "direct" && takesDirect(stand.antenna!)),
  );
}

/** Rules that judge a level or what follows from it. */
const OF_LEVELS: ReadonlySet<string> = new Set([
  "overload",
  "level-below-threshold",
  "standby-level",
  "standby-margin",
  "availability",
  "link-availability",
  "link-quality",
  "fade-margin",
]);

/** Whether a finding is gone with a waveguide that was only forgotten: what it said of, or of the level without it. */
export function goneWithGuide({ rule, at }: Finding, hop: string, { forgottenAt }: GuideChange): boolean {
  if (forgottenAt.length === 0) return false;
  return (
    OF_LEVELS.has(rule) || forgottenAt.some((site) => at.startsWith(address("hop", hop, site, "feeder")))
  );
}
