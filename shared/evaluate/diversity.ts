import type { Climate, Hop, HopEnd } from "../design/design.js";
import { frequency, metres } from "../format/numbers.js";
import {
  frequencyDiversityImprovement,
  METHOD_FREQUENCY,
  METHOD_OUTAGE,
  METHOD_SPACE,
  spaceAndFrequencyOutage,
  spaceDiversityImprovement,
  twoBranchOutage,
} from "../propagation/p530/diversity.js";
import { antennaGain } from "../radio/antenna-gain.js";
import { usesUnchecked } from "./climate.js";
import type { Fading, MultipathFading } from "./fading.js";
import { cite, note, record, type Trace, use } from "./trace.js";

/** What diversity a direction has; the receiving end counts. */
export interface Diversity {
  readonly space?: { readonly spacingM: number; readonly gainDifferenceDb: number };
  readonly frequency?: { readonly separationGHz: number };
}

export function hasSpaceDiversity(arrangement: string): boolean {
  return /space-(and-frequency-)?diversity/.test(arrangement);
}

export function hasFrequencyDiversity(arrangement: string): boolean {
  return /frequency-diversity/.test(arrangement);
}

/** @returns undefined when the arrangement has no diversity, or what it needs is not stated */
export function diversityOf(
  hop: Hop,
  to: HopEnd,
  climate: Climate,
  frequencyHz: number,
  trace: Trace,
): Diversity | undefined {
  const { name } = hop.arrangement;
  if (!hasSpaceDiversity(name) && !hasFrequencyDiversity(name)) return undefined;
  if (!usesUnchecked(climate, "Improvement by diversity", trace)) return undefined;
  const space = hasSpaceDiversity(name) ? spaceOf(to, frequencyHz, trace) : undefined;
  const second = hasFrequencyDiversity(name) ? hop.secondChannel : undefined;
  if (hasFrequencyDiversity(name) && second === undefined)
    note(trace, "Frequency diversity is not counted: the second channel is not stated.");
  const frequencyBranch =
    second && second.separationHz > 0 ? { separationGHz: second.separationHz / 1e9 } : undefined;
  if (frequencyBranch) use(trace, "distance of the two channels", frequency(second!.separationHz), "design");
  if (space === undefined && frequencyBranch === undefined) return undefined;
  if (space) cite(trace, METHOD_SPACE);
  if (frequencyBranch) cite(trace, METHOD_FREQUENCY);
  cite(trace, METHOD_OUTAGE);
  return { space, frequency: frequencyBranch };
}

function spaceOf(to: HopEnd, frequencyHz: number, trace: Trace): Diversity["space"] {
  const { antenna, antennaHeightM, diversityAntenna, diversityHeightM } = to;
  const { name } = to.site;
  if (diversityAntenna === undefined || diversityHeightM === undefined || antennaHeightM === undefined) {
    note(
      trace,
      `Space diversity is not counted towards ${name}: its diversity antenna or a height is not stated.`,
    );
    return undefined;
  }
  const spacingM = Math.abs(antennaHeightM - diversityHeightM);
  const main = antenna && antennaGain(antenna, frequencyHz);
  const second = antennaGain(diversityAntenna, frequencyHz);
  if (!(spacingM > 0) || main === undefined || second === undefined) {
    note(
      trace,
      spacingM > 0
        ? `Space diversity is not counted towards ${name}: the gain of an antenna is not known.`
        : `Space diversity is not counted towards ${name}: both antennas are at one height.`,
    );
    return undefined;
  }
  use(trace, `spacing of the diversity antennas at ${name}`, metres(spacingM), "design");
  note(trace, "Space diversity: the feeder of the second antenna is taken to lose as much as the first.");
  return { spacingM, gainDifferenceDb: Math.abs(main.gainDbi - second.gainDbi) };
}

/**
 * Outage by flat and selective fading with diversity, fraction of the worst month; never more than without, since a
 * receiver may always stay on its main antenna.
 * @param flatFraction of the worst month without diversity, at the margin
 * @param trace told of validity and steps when given
 * @returns undefined where the method refuses: the outage without diversity stands
 */
export function outageWithDiversity(
  fading: Fading,
  multipath: MultipathFading,
  marginDb: number,
  flatFraction: number,
  selectiveFraction: number,
  trace?: Trace,
): number | undefined {
  const { diversity, distanceM, frequencyGHz } = fading;
  if (diversity === undefined) return undefined;
  const { eta, occurrencePercent } = multipath;
  const unprotected = {
    eta,
    nonSelectiveFraction: Math.min(flatFraction, 1),
    selectiveFraction: Math.min(selectiveFraction, 1),
  };
  const common = { frequencyGHz, distanceM, fadeDepthDb: marginDb };
  const bySpace =
    diversity.space && spaceDiversityImprovement({ ...common, ...diversity.space, occurrencePercent });
  const byFrequency =
    diversity.frequency && frequencyDiversityImprovement({ ...common, ...diversity.frequency });
  if (trace) {
    for (const one of [bySpace, byFrequency])
      note(trace, ...(one?.ok ? one.validity : one ? [one.refusal] : []).map((text) => `Diversity: ${text}`));
  }
  const space = bySpace?.ok ? bySpace.improvement : undefined;
  const second = byFrequency?.ok ? byFrequency.improvement : undefined;
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
    if (!found.ok) note(trace, `Diversity: ${found.refusal}`);
  }
  if (!found?.ok) return undefined;
  return Math.min(found.outageFraction, flatFraction + selectiveFraction);
}
