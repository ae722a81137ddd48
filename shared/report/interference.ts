/** What others' transmissions do to a receiver, as figures in words: the page, the hover and `explain` write the same. */
import { INTERFERENCE_DEFAULTS } from "../design/interference.js";
import type { DirectionResult } from "../evaluate/account/level-result.js";
import type { MethodId } from "../evaluate/account/methods.js";
import { dbm, decibels, signed, trimmed } from "../format/numbers.js";
import type { Entry } from "../interference/entry.js";
import { pathTermsOf } from "../interference/entry-path.js";
import type { InterferenceAt } from "../interference/receiver-result.js";
import { isAimed, isSameFrequency } from "../words/interference.js";

/** The receiver of a site to which most is done: what it loses counts for all of them. */
export function worstAt(found: readonly InterferenceAt[], site: string): InterferenceAt | undefined {
  return found
    .filter(({ receiver }) => receiver.place.site === site)
    .reduce<InterferenceAt | undefined>(
      (worst, one) => (worst === undefined || one.degradationDb > worst.degradationDb ? one : worst),
      undefined,
    );
}

/** Behind the filters, so that it stands beside the noise; undefined: there is none. */
export function sumDbm({ receiver, toNoiseDb }: InterferenceAt): number | undefined {
  return toNoiseDb === undefined ? undefined : receiver.noiseDbm + toNoiseDb;
}

/** Whether there is more to say of a receiver than that nothing is in reach. */
export function isReached({ entries, coLocated, toNoiseDb }: InterferenceAt): boolean {
  return entries.length > 0 || coLocated.length > 0 || toNoiseDb !== undefined;
}

export interface CarrierRatio {
  readonly modulation: string;
  /** In clear air. */
  readonly wantedDb: number;
  /** With the wanted signal faded to its raised threshold, the interferers not faded. */
  readonly fadedDb: number;
}

/** C/I of the highest mode, the interference behind the filters. */
export function carrierRatio(
  at: InterferenceAt,
  directions: readonly DirectionResult[],
): CarrierRatio | undefined {
  const mode = directions.find(({ to }) => to === at.receiver.place.site)?.modes.at(-1);
  const interferenceDbm = sumDbm(at);
  if (mode === undefined || interferenceDbm === undefined) return undefined;
  return {
    modulation: mode.modulation,
    wantedDb: mode.receivedLevelDbm - interferenceDbm,
    fadedDb: mode.thresholdDbm + (mode.degradationDb ?? 0) - interferenceDbm,
  };
}

/** A percentage of time, no matter how small. */
export function share(percent: number): string {
  return `${trimmed(percent, 6)} %`;
}

export function offsetWords(offsetHz: number): string {
  if (isSameFrequency(offsetHz)) return "0";
  return signed((hz) => `${trimmed(hz / 1e6, 3)} MHz`, offsetHz);
}

/** From where the loss of a path is known. */
export function lossOrigin({ path: { by, transHorizon } }: Pick<Entry, "path">): string {
  if (by === "bound") return "least loss over any terrain";
  return transHorizon ? "beyond the horizon" : "in line of sight";
}

/** The same in a word or two. */
export function lossMark({ path: { by, transHorizon } }: Pick<Entry, "path">): string {
  if (by === "bound") return "least";
  return transHorizon ? "over the horizon" : "line of sight";
}

/** What the filters keep out, or what stands instead of them. */
export function filterWords({ filterDb }: Pick<Entry, "filterDb">): string {
  return filterDb === undefined ? "by the table of C/I" : decibels(filterDb);
}

export function eirpWords({ sender: { eirpDbm, reductionDb } }: Pick<Entry, "sender">): string {
  return reductionDb > 0 ? `${dbm(eirpDbm)}, let down ${decibels(reductionDb)}` : dbm(eirpDbm);
}

/** Of the strongest mode, `20.0 dBm QPSK`. */
export function powerWords({ sender: { power } }: Pick<Entry, "sender">): string | undefined {
  return power && `${dbm(power.powerDbm)} ${power.modulation}`;
}

/** Methods that the figures of some receivers rest on. */
export function interferenceMethods(found: readonly InterferenceAt[]): MethodId[] {
  const entries = found.flatMap((at) => at.entries);
  if (entries.length === 0) return found.some(isReached) ? ["threshold-degradation"] : [];
  const views = [
    ...found.filter((at) => at.entries.length > 0).map(({ receiver }) => receiver),
    ...entries.map(({ sender }) => sender),
  ];
  const has = (id: MethodId, is: boolean): MethodId[] => (is ? [id] : []);
  return [
    ...has(
      "interference-loss",
      entries.some(({ path }) => path.by === "profile"),
    ),
    ...has(
      "interference-least-loss",
      entries.some(({ path }) => path.by === "bound"),
    ),
    ...has(
      "pattern-envelope",
      views.some(({ antenna }) => antenna.source === "F.699"),
    ),
    ...has(
      "pattern-average",
      views.some(({ antennaInSum }) => antennaInSum?.source === "F.1245"),
    ),
    "polarization-coupling",
    ...has(
      "net-filter-discrimination",
      entries.some(({ filterDb }) => filterDb !== undefined),
    ),
    "threshold-degradation",
  ];
}

/** What all figures of interference rest on, a sentence each; of a hop whose receivers nothing reaches only the scope. */
export function interferenceTermsTold(found: readonly InterferenceAt[]): string[] {
  const [first] = found;
  if (first === undefined) return [];
  const { terms } = first;
  const path = pathTermsOf(terms);
  const taken = (fact: "lapseNPerKm" | "surfaceRefractivity") => {
    if (terms[fact] === undefined) return "taken for a preview";
    return terms.fromMaps?.includes(fact) ? "read from the maps" : "as stated";
  };
  const entries = found.flatMap((at) => at.entries);
  const texts: string[] = [];
  if (entries.length > 0) {
    texts.push(
      `Losses are those of Rec. ITU-R P.452-18 in clear air that are not exceeded for ${share(path.longTermPercent)} of the average year (long term) and for ${share(path.shortTermPercent)} (short term), with a fall of refractivity of ${trimmed(path.lapseNPerKm, 2)} N/km (${taken("lapseNPerKm")}) and ${trimmed(path.seaLevelN, 1)} N-units at sea level (${taken("surfaceRefractivity")}).`,
    );
    texts.push(...terrainTold(found, terms.profileStepM), ...patternsTold(found));
    if (entries.some(({ sender }) => !isAimed(sender)))
      texts.push(
        "Where it is not known where an antenna looks it counts with its whole gain in every direction.",
      );
    if (entries.some(({ sender }) => sender.place.heightAssumed))
      texts.push("Antenna heights of some transmissions of others are assumed: their list states none.");
  }
  const assumed = found.filter(({ receiver }) => receiver.noiseAssumed).length;
  if (assumed > 0) texts.push("The noise figure of the receivers is assumed: their radio states none.");
  if (found.some(({ coLocated }) => coLocated.some(({ toNoiseDb }) => toNoiseDb === undefined)))
    texts.push(
      "Antennas at one place are judged only where the coupling loss between them is stated; criteria are open until then.",
    );
  texts.push(
    "The wanted signal is taken at full fade while no interferer fades: their fades are not taken as correlated, which is the pessimistic case. In the short term the strongest alone counts: enhancements on different paths are taken not to coincide.",
    "Rain scatter is not considered.",
  );
  if (found.some(({ receiver }) => receiver.frequencyHz > 50e9))
    texts.push("Above 50 GHz P.452 is used outside the range that it is stated for.");
  return texts;
}

function terrainTold(found: readonly InterferenceAt[], statedM: number | undefined): string[] {
  const paths = found.flatMap(({ entries }) => entries.map(({ path }) => path));
  const bound = paths.filter(({ by }) => by === "bound").length;
  const stepM = statedM ?? INTERFERENCE_DEFAULTS.profileStepM;
  const step = `a point every ${trimmed(stepM, 1)} m, ${statedM === undefined ? "which is usual here" : "as the network states"}`;
  const own = paths.filter((path) => path.step === "own").length;
  const closer =
    own === 0
      ? ""
      : ` ${own === 1 ? "One of them, on which a verdict rests, was" : `${own} of them, on which verdicts rest, were`} read again at the step of the terrain itself.`;
  return [
    ...(bound < paths.length ? [`Profiles of interfering paths have ${step}.${closer}`] : []),
    ...(bound > 0
      ? [
          `Of ${bound} of ${paths.length} interfering paths the ground is not known: there the least loss counts that any terrain could give, marked as least.`,
        ]
      : []),
  ];
}

const SOURCES = {
  pattern: "their own pattern",
  "F.699": "the reference pattern of Rec. ITU-R F.699-8 for their gain and size",
  "F.1245": "the reference pattern of Rec. ITU-R F.1245-3",
  none: "no discrimination at all, as nothing is known of them",
} as const;

function patternsTold(found: readonly InterferenceAt[]): string[] {
  const felt = found.filter(({ entries }) => entries.length > 0);
  const views = [
    ...felt.map(({ receiver }) => receiver),
    ...felt.flatMap(({ entries }) => entries.map(({ sender }) => sender)),
  ];
  const counts = Map.groupBy(views, ({ antenna }) => antenna.source);
  const parts = (["pattern", "F.699", "F.1245", "none"] as const).flatMap((source) => {
    const count = counts.get(source)?.length;
    return count === undefined ? [] : [`${count} with ${SOURCES[source]}`];
  });
  const inSum = views.some(({ antennaInSum }) => antennaInSum !== undefined)
    ? " In the sum those without a pattern of their own count by Rec. ITU-R F.1245-3, as the network states."
    : "";
  const inMainLobe = felt.some(({ receiver, entries }) =>
    entries.some(
      ({ sender, leavesOffAxisDeg, arrivesOffAxisDeg }) =>
        leavesOffAxisDeg < (sender.antenna.mainLobeToDeg ?? 0) ||
        arrivesOffAxisDeg < (receiver.antenna.mainLobeToDeg ?? 0),
    ),
  )
    ? " Before the first point of a pattern the main lobe counts by the stated beamwidth, 12 (angle/beamwidth)², as in the main beam of Rec. ITU-R F.699-8, and no more than at that point."
    : "";
  return [`Of the antennas, ${parts.join(", ")}.${inSum}${inMainLobe}`];
}
