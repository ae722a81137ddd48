/** What acts on a cause of outage, by what its method depends on: what is tried against it, and what is said of it. */
import type { Hop } from "../design/design.js";
import type { ModeResult } from "../evaluate/account/level-result.js";
import type { Cause, CauseOutage } from "../evaluate/account/outage-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { hasFrequencyDiversity, hasSpaceDiversity } from "../evaluate/fading/diversity.js";
import { judgedMode } from "../evaluate/level/judged-mode.js";
import type { Means } from "./advice.js";

/** Methods of these do not ask for the flat margin. */
const WHATEVER_THE_MARGIN: ReadonlySet<Cause> = new Set([
  "selective fading",
  "cross-polar interference in clear air",
  "cross-polar interference in rain",
]);

export function dependsOnMargin(cause: Cause): boolean {
  return !WHATEVER_THE_MARGIN.has(cause);
}

/** The judged mode of the direction that loses more. */
export function worseMode(
  hop: Hop,
  result: HopResult,
  lost: (mode: ModeResult) => number | undefined,
): ModeResult | undefined {
  const each = result.directions.flatMap(({ modes }) => judgedMode(hop, modes) ?? []);
  return each.toSorted((a, b) => (lost(b) ?? 0) - (lost(a) ?? 0))[0];
}

/** A smaller part of an outage is worth neither a word nor a trial of its own. */
const WORTH_A_WORD = 0.01;

/** Those of some causes that are worth a word, in their order. */
export function weighty(
  causes: readonly CauseOutage[],
  share: (cause: CauseOutage) => number,
): readonly CauseOutage[] {
  const total = causes.reduce((sum, cause) => sum + share(cause), 0);
  return causes.filter((cause) => share(cause) > WORTH_A_WORD * total);
}

/**
 * What may mend an outage, by all of its causes of weight, the largest first. No larger antennas where most of it comes
 * whatever the margin: they would be paid for the smaller part.
 * @param most the cause that is told to take most
 */
export function meansAgainst(
  causes: readonly CauseOutage[],
  share: (cause: CauseOutage) => number,
  most: Cause | undefined,
): Means[] {
  const means = weighty(causes, share).flatMap(({ cause }) => MEANS[cause]);
  const byMargin = most === undefined || dependsOnMargin(most);
  return [...new Set([...means, ...ALWAYS])].filter((one) => byMargin || !LARGER_ANTENNAS.includes(one));
}

const ALWAYS: readonly Means[] = ["another radio", "a lower mode"];

export const LARGER_ANTENNAS: readonly Means[] = [
  "a larger antenna at one end",
  "larger antennas at both ends",
];

const MEANS: Readonly<Record<Cause, readonly Means[]>> = {
  rain: ["vertical polarization", ...LARGER_ANTENNAS],
  "cross-polar interference in rain": [],
  "flat fading": [...LARGER_ANTENNAS, "space diversity"],
  "selective fading": ["space diversity"],
  "fading with diversity": LARGER_ANTENNAS,
  "cross-polar interference in clear air": ["antennas with more discrimination"],
};

/** One sentence; it proposes nothing that the hop has already. */
export function yieldsTo(cause: Cause, hop: Pick<Hop, "arrangement" | "ends">): string {
  const bare = hop.ends.filter((end) => !hasSpaceDiversity(hop, end));
  const where = bare.length === 1 ? ` at ${bare[0]!.site.name} too` : "";
  const orDiversity = bare.length === 0 || hasFrequencyDiversity(hop) ? "" : ` or space diversity${where}`;
  switch (cause) {
    case "rain":
      return "Rain yields to margin, a lower band or a shorter hop, not to diversity.";
    case "cross-polar interference in rain":
      return "Cross-polar interference in rain yields to a canceller that gains more, a lower mode or a channel for each polarization, not to margin.";
    case "flat fading":
      return `Flat fading yields to margin, a more inclined path${orDiversity}.`;
    case "selective fading":
      return `Selective fading yields to a better equalizer, a lower or narrower mode${orDiversity}, not to margin.`;
    case "fading with diversity":
      return bare.length < 2
        ? "Fading with this diversity yields to margin or a larger spacing of the antennas."
        : "Fading with this diversity yields to margin or channels further apart.";
    case "cross-polar interference in clear air":
      return "Cross-polar interference in clear air yields to antennas with more discrimination, a canceller that gains more, a lower mode or a channel for each polarization, not to margin.";
  }
}
