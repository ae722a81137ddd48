import type { Climate } from "../../design/climate.js";
import type { Hop, HopEnd } from "../../design/design.js";
import type { Outcome } from "../../propagation/outcome.js";
import {
  type DiversityImprovement,
  frequencyDiversityImprovement,
  improvementAt,
  improvementRemark,
  spaceAndFrequencyOutage,
  spaceDiversityImprovement,
  twoBranchOutage,
} from "../../propagation/p530/diversity.js";
import { antennaGain } from "../../radio/antenna-gain.js";
import { factsAt } from "../../radio/arrangement-pairs.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { cite, note, record, remarksOf, type Trace, use } from "../account/trace.js";
import { usesUnchecked } from "../path/climate.js";
import type { Diversity } from "./fading-model.js";

/** Whether a second antenna of an end receives: it mends the direction that ends there, and no other. */
export function hasSpaceDiversity(hop: Pick<Hop, "arrangement">, end: HopEnd): boolean {
  return factsAt(hop, end)?.spaceDiversity ?? false;
}

/** Of both directions: both ends have the second frequency. */
export function hasFrequencyDiversity({ arrangement }: Pick<Hop, "arrangement">): boolean {
  return arrangementByName(arrangement.name)?.protection === "frequency-diversity";
}

/**
 * Diversity of one direction, by what its receiving end is built as.
 * @param to the receiving end
 * @returns undefined when it has none, or what it needs is not stated
 */
export function diversityOf(
  hop: Hop,
  to: HopEnd,
  path: {
    readonly distanceM: number;
    readonly frequencyHz: number;
    readonly occurrencePercent: number;
    readonly moreLossDb: number;
  },
  climate: Climate,
  trace: Trace,
): Diversity | undefined {
  const [bySpace, byFrequency] = [hasSpaceDiversity(hop, to), hasFrequencyDiversity(hop)];
  if (!bySpace && !byFrequency) return undefined;
  if (!usesUnchecked(climate, "diversity", trace)) return undefined;
  const { distanceM, frequencyHz, occurrencePercent } = path;
  const common = { distanceM, frequencyHz };
  const spacing = bySpace ? spacingOf(to, frequencyHz, path.moreLossDb, trace) : undefined;
  const separationHz = byFrequency ? separationOf(hop, trace) : undefined;
  if (spacing === undefined && separationHz === undefined) return undefined;
  if (spacing) cite(trace, "space-diversity");
  if (separationHz) cite(trace, "frequency-diversity");
  cite(trace, "diversity-outage");
  return {
    space: spacing && told(spaceDiversityImprovement({ ...common, ...spacing, occurrencePercent }), trace),
    frequency: separationHz
      ? told(frequencyDiversityImprovement({ ...common, separationHz }), trace)
      : undefined,
  };
}

function told(found: Outcome<DiversityImprovement>, trace: Trace): DiversityImprovement | undefined {
  if (!found.ok) {
    note(trace, { code: "method-refuses", of: "diversity", reason: found.refusal });
    return undefined;
  }
  note(trace, ...remarksOf("diversity", found.validity));
  return found;
}

function separationOf({ furtherChannels }: Hop, trace: Trace): number | undefined {
  const secondChannel = furtherChannels?.[0];
  if (secondChannel === undefined) note(trace, { code: "frequency-diversity-not-counted" });
  if (!(secondChannel && secondChannel.separationHz > 0)) return undefined;
  use(trace, { code: "channel-distance", separationHz: secondChannel.separationHz }, "design");
  return secondChannel.separationHz;
}

function spacingOf(
  to: HopEnd,
  frequencyHz: number,
  moreLossDb: number,
  trace: Trace,
): { readonly spacingM: number; readonly gainDifferenceDb: number } | undefined {
  const { antenna, antennaHeightM, diversityAntenna, diversityHeightM } = to;
  const { name } = to.site;
  if (diversityAntenna === undefined || diversityHeightM === undefined || antennaHeightM === undefined) {
    note(trace, { code: "space-diversity-not-counted", site: name, why: "not-stated" });
    return undefined;
  }
  const spacingM = Math.abs(antennaHeightM - diversityHeightM);
  const main = antenna && antennaGain(antenna, frequencyHz);
  const second = antennaGain(diversityAntenna, frequencyHz);
  if (!(spacingM > 0) || main === undefined || second === undefined) {
    const why = spacingM > 0 ? "gain-unknown" : "one-height";
    note(trace, { code: "space-diversity-not-counted", site: name, why });
    return undefined;
  }
  use(trace, { code: "diversity-spacing", site: name, spacingM }, "design");
  note(trace, { code: "diversity-feeder-assumed" });
  return { spacingM, gainDifferenceDb: Math.abs(main.gainDbi - (second.gainDbi - moreLossDb)) };
}

/** Without diversity, at a margin: shares of the worst month. */
interface Unprotected {
  /** Multipath activity parameter. */
  readonly eta: number;
  readonly marginDb: number;
  readonly flatFraction: number;
  readonly selectiveFraction: number;
}

/**
 * Outage by flat and selective fading with diversity, fraction of the worst month; never more than without, since a
 * receiver may always stay on its main antenna.
 * @param trace told of validity and steps when given
 * @returns undefined where the method refuses: the outage without diversity stands
 */
export function outageWithDiversity(
  diversity: Diversity,
  { eta, marginDb, flatFraction, selectiveFraction }: Unprotected,
  trace?: Trace,
): number | undefined {
  const unprotected = {
    eta,
    nonSelectiveFraction: Math.min(flatFraction, 1),
    selectiveFraction: Math.min(selectiveFraction, 1),
  };
  const space = improvementOf("space", diversity, marginDb, trace);
  const second = improvementOf("frequency", diversity, marginDb, trace);
  const found =
    space !== undefined && second !== undefined
      ? spaceAndFrequencyOutage({
          ...unprotected,
          spaceImprovement: space,
          frequencyImprovement: second,
          receivers: 2,
        })
      : space !== undefined || second !== undefined
        ? twoBranchOutage({ ...unprotected, improvement: (space ?? second)! })
        : undefined;
  if (trace && found) {
    record(trace, "6.2.6", found.ok ? { I: space ?? second, ISecond: space && second, ...found.steps } : {});
    if (!found.ok) note(trace, { code: "method-refuses", of: "diversity", reason: found.refusal });
  }
  if (!found?.ok) return undefined;
  return Math.min(found.outageFraction, flatFraction + selectiveFraction);
}

function improvementOf(
  kind: keyof Diversity,
  diversity: Diversity,
  marginDb: number,
  trace: Trace | undefined,
): number | undefined {
  const prepared = diversity[kind];
  if (prepared === undefined) return undefined;
  const improvement = improvementAt(prepared, marginDb);
  const remark = trace && improvementRemark(kind, improvement);
  if (remark) note(trace, { code: "method-remark", of: "diversity", remark });
  return improvement;
}
