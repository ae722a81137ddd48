/** What became of the waveguides between two states of a hop: a level that one forgot is no better one. */
import type { Hop, HopEnd } from "../design/design.js";
import { guideEstimate } from "../equipment/guide-to-choose.js";
import { antennasUsed, mountingOf, takesDirect } from "../equipment/mounting.js";

export interface GuideChange {
  /** Whether level, margin and availability may have risen only because a guide is gone, or was only estimated. */
  readonly undecided: boolean;
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
    remark: remarks.length === 0 ? undefined : remarks.join("; "),
  };
}

type Side = readonly [hop: Hop, end: HopEnd];

function endChange(was: Side, is: Side): GuideChange {
  const at = is[1].site.name;
  const [beforeDb, afterDb] = [estimatedDb(was), estimatedDb(is)];
  if (beforeDb !== undefined && afterDb !== undefined)
    return { undecided: beforeDb !== afterDb, remark: `the waveguide at ${at} is an estimate on both sides` };
  if (afterDb !== undefined) return { undecided: true, remark: `the waveguide at ${at} is an estimate now` };
  if (beforeDb !== undefined) return { undecided: true, remark: `the waveguide at ${at} was an estimate` };
  if (was[1].feeder === undefined || is[1].feeder !== undefined || isDirect(is)) return { undecided: false };
  return { undecided: true, remark: `the feeder at ${at} is gone, and nothing sound stands for it` };
}

function estimatedDb([hop, end]: Side): number | undefined {
  const guide = guideEstimate(hop, end);
  return guide !== undefined && "lossDb" in guide ? guide.lossDb : undefined;
}

/** Said, and possible. */
function isDirect([hop, end]: Side): boolean {
  return antennasUsed(hop, end).every(
    (stand) => mountingOf(end, stand) === "direct" && takesDirect(stand.antenna!),
  );
}
