import type { Climate, Hop, HopEnd } from "../design/design.js";
import { frequency, metres } from "../format/numbers.js";
import type { Outcome } from "../propagation/outcome.js";
import {
  type DiversityImprovement,
  frequencyDiversityImprovement,
  improvementAt,
  improvementNote,
  METHOD_FREQUENCY,
  METHOD_OUTAGE,
  METHOD_SPACE,
  spaceAndFrequencyOutage,
  spaceDiversityImprovement,
  twoBranchOutage,
} from "../propagation/p530/diversity.js";
import { antennaGain } from "../radio/antenna-gain.js";
import { arrangementByName } from "../radio/arrangements.js";
import { usesUnchecked } from "./climate.js";
import type { Diversity, Fading, MultipathFading } from "./fading-model.js";
import { cite, note, record, type Trace, use } from "./trace.js";

export function hasSpaceDiversity(arrangement: string): boolean {
  return arrangementByName(arrangement)?.spaceDiversity ?? false;
}

export function hasFrequencyDiversity(arrangement: string): boolean {
  return /frequency-diversity/.test(arrangement);
}

/** @returns undefined when the arrangement has no diversity, or what it needs is not stated */
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
  const { name } = hop.arrangement;
  if (!hasSpaceDiversity(name) && !hasFrequencyDiversity(name)) return undefined;
  if (!usesUnchecked(climate, "Improvement by diversity", trace)) return undefined;
  const { distanceM, frequencyHz, occurrencePercent } = path;
  const common = { distanceM, frequencyHz };
  const spacing = hasSpaceDiversity(name) ? spacingOf(to, frequencyHz, path.moreLossDb, trace) : undefined;
  const separationHz = hasFrequencyDiversity(name) ? separationOf(hop, trace) : undefined;
  if (spacing === undefined && separationHz === undefined) return undefined;
  if (spacing) cite(trace, METHOD_SPACE);
  if (separationHz) cite(trace, METHOD_FREQUENCY);
  cite(trace, METHOD_OUTAGE);
  return {
    space: spacing && told(spaceDiversityImprovement({ ...common, ...spacing, occurrencePercent }), trace),
    frequency: separationHz
      ? told(frequencyDiversityImprovement({ ...common, separationHz }), trace)
      : undefined,
  };
}

function told(found: Outcome<DiversityImprovement>, trace: Trace): DiversityImprovement | undefined {
  note(trace, ...(found.ok ? found.validity : [found.refusal]).map(ofDiversity));
  return found.ok ? found : undefined;
}

const ofDiversity = (text: string) => `Diversity: ${text}`;

function separationOf({ furtherChannels }: Hop, trace: Trace): number | undefined {
  const secondChannel = furtherChannels?.[0];
  if (secondChannel === undefined)
    note(trace, "Frequency diversity is not counted: the second channel is not stated.");
  if (!(secondChannel && secondChannel.separationHz > 0)) return undefined;
  use(trace, "distance of the two channels", frequency(secondChannel.separationHz), "design");
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
  return { spacingM, gainDifferenceDb: Math.abs(main.gainDbi - (second.gainDbi - moreLossDb)) };
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
  const { diversity } = fading;
  if (diversity === undefined) return undefined;
  const unprotected = {
    eta: multipath.eta,
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
    if (!found.ok) note(trace, ofDiversity(found.refusal));
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
  const remark = trace && improvementNote(kind, improvement);
  if (remark) note(trace, ofDiversity(remark));
  return improvement;
}
