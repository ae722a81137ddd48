/** Readings against promises over the network: where many of one kind are off alike, an entry of the catalogue is wrong. */
import type { UnitRole } from "../design/as-built.js";
import type { Hop } from "../design/design.js";
import type { HopResult } from "../evaluate/account/result.js";
import { usualBand } from "../spectrum/usual-band.js";
import { type HeldReading, heldReadings } from "./held.js";

export type CalibrationBy = "all" | "band" | "radio" | "branch";

interface CalibratedReading {
  readonly hop: string;
  readonly reading: HeldReading;
  /** Measured less promised: negative where less arrives. */
  readonly moreDb: number;
  readonly band: string;
  /** Undefined: none is stated. */
  readonly radio?: string;
  readonly branch: UnitRole;
}

export interface CalibrationGroup {
  readonly by: CalibrationBy;
  /** Of the group: `18 GHz`, `R18`, `standby`; of all of them empty. */
  readonly name: string;
  readonly count: number;
  /** Mean of measured less promised: bias. */
  readonly meanDb: number;
  /** Standard deviation of the readings about their mean, as estimated from them; undefined: there is one. */
  readonly spreadDb?: number;
  /**
   * `few`: less than five, which prove nothing. `off`: the mean is off by more than 1 dB and by more than twice what
   * chance leaves of it (the spread over the root of the count).
   */
  readonly stands: "few" | "as promised" | "off";
}

export interface Calibration {
  /** All first, then by band, radio and branch, each in the order of its names. */
  readonly groups: readonly CalibrationGroup[];
  readonly readings: readonly CalibratedReading[];
  /** Readings that say nothing of the catalogue. */
  readonly leftOut: {
    /** Beyond 10 dB, or with the sign of a side lobe or a turned feed: of the hop, not of its parts. */
    readonly faults: number;
    /** Replaced, with power control, from before a change, or of nothing that the hop has. */
    readonly unusable: number;
  };
}

/** Ours: so few readings are told with no verdict. */
export const FEW_READINGS = 5;
/** Ours: what is off by more is a fault of a hop. */
export const FAULT_DB = 10;
/** Ours: a bias of less is no fault of a catalogue. */
export const BIAS_DB = 1;
const TIMES_CHANCE = 2;

/** @returns undefined where nothing was measured */
export function calibrationOf(
  hops: Iterable<{ readonly hop: Hop; readonly result: HopResult }>,
): Calibration | undefined {
  const readings: CalibratedReading[] = [];
  let [faults, unusable] = [0, 0];
  for (const { hop, result } of hops) {
    for (const reading of heldReadings(hop, result)?.readings ?? []) {
      const { verdict, lessDb, signatures, expected } = reading;
      const isHeld = verdict === "agrees" || verdict === "low" || verdict === "high";
      if (!isHeld || lessDb === undefined || expected === undefined) unusable++;
      else if (signatures.length > 0 || Math.abs(lessDb) > FAULT_DB) faults++;
      else {
        const hz = hop.ends.find(({ site }) => site.name === expected.from)?.transmitFrequencyHz;
        readings.push({
          hop: hop.name,
          reading,
          moreDb: -lessDb,
          band: hz === undefined ? "band not stated" : usualBand(hz, hop.channel?.plan),
          radio: hop.radio?.name,
          branch: expected.branch,
        });
      }
    }
  }
  if (readings.length + faults + unusable === 0) return undefined;
  const by = (kind: CalibrationBy, nameOf: (one: CalibratedReading) => string) =>
    [...Map.groupBy(readings, nameOf)]
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, those]) => groupOf(kind, name, those));
  return {
    groups: [
      ...(readings.length === 0 ? [] : [groupOf("all", "", readings)]),
      ...by("band", ({ band }) => band),
      ...by("radio", ({ radio }) => radio ?? "no radio stated"),
      ...by("branch", ({ branch }) => branch),
    ],
    readings,
    leftOut: { faults, unusable },
  };
}

/**
 *     mean m = sum d / n,    spread s = sqrt(sum (d - m)^2 / (n - 1))
 *
 * @param those at least one
 */
function groupOf(by: CalibrationBy, name: string, those: readonly CalibratedReading[]): CalibrationGroup {
  const count = those.length;
  const meanDb = those.reduce((sum, { moreDb }) => sum + moreDb, 0) / count;
  const squares = those.reduce((sum, { moreDb }) => sum + (moreDb - meanDb) ** 2, 0);
  const spreadDb = count > 1 ? Math.sqrt(squares / (count - 1)) : undefined;
  const chanceDb = (TIMES_CHANCE * (spreadDb ?? 0)) / Math.sqrt(count);
  const isOff = Math.abs(meanDb) > BIAS_DB && Math.abs(meanDb) > chanceDb;
  const stands = count < FEW_READINGS ? "few" : isOff ? "off" : "as promised";
  return { by, name, count, meanDb, ...(spreadDb !== undefined && { spreadDb }), stands };
}
