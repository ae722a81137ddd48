import {
  hotStandby,
  nPlusOne,
  seriesUnavailability,
  unitUnavailability,
} from "../../availability/equipment.js";
import type { Hop, HopEnd } from "../../design/design.js";
import { arrangementAt, factsAt } from "../../radio/arrangement-pairs.js";
import type { EquipmentOutage } from "../account/outage-result.js";
import { cite, note, record, type Trace, use } from "../account/trace.js";
import { secondsAYear } from "./outage-time.js";

/**
 * Outage by failures of the radios, both ends in series, each with the redundancy of its own arrangement: what it
 * protects is lost only when two units fail, all carriers being needed. Antennas, feeders, power and what two units share count only as far as the stated
 * MTBF holds them.
 * @returns undefined when MTBF or repair time is not stated, or the method refuses
 */
export function equipmentOutage(hop: Hop, trace: Trace): EquipmentOutage | undefined {
  const mtbfHours = hop.radio?.mtbfHours;
  const mttrHours = hop.repairHours;
  // Who states one of the two means to have failures counted.
  if (mttrHours !== undefined && mtbfHours === undefined && hop.radio !== undefined)
    note(trace, { code: "equipment-not-counted", radio: hop.radio.name });
  if (mttrHours === undefined && mtbfHours !== undefined) note(trace, { code: "equipment-not-counted" });
  if (mtbfHours === undefined || mttrHours === undefined) return undefined;
  const unit = unitUnavailability({ mtbfHours, mttrHours });
  const [first, second] = hop.ends.map((end) =>
    unit.ok ? endUnavailability(hop, end, unit.unavailability) : undefined,
  );
  if (!unit.ok || first === undefined || second === undefined) {
    note(
      trace,
      unit.ok
        ? { code: "equipment-outage-unknown" }
        : { code: "method-refuses", of: "equipment", reason: unit.refusal },
    );
    return undefined;
  }
  const failures = seriesUnavailability([first.unavailability, second.unavailability]);
  if (!failures.ok) return undefined;
  use(trace, { code: "mtbf", mtbfHours }, "catalogue");
  use(trace, { code: "repair-time", repairHours: mttrHours }, "design");
  cite(trace, "equipment");
  // Each failure of a unit in service costs one switching over, at the end that has another.
  const pairs = first.pairs + second.pairs;
  const switching = pairs === 0 ? 0 : (pairs * (hop.radio?.switchOverHours ?? 0)) / mtbfHours;
  const unavailability = Math.min(1, failures.unavailability + switching);
  const differ = arrangementAt(hop, hop.ends[0]) !== arrangementAt(hop, hop.ends[1]);
  record(trace, "equipment", {
    unit: unit.unavailability,
    ...(differ
      ? { firstEnd: first.unavailability, secondEnd: second.unavailability }
      : { end: first.unavailability }),
    bothEnds: failures.unavailability,
    switching,
  });
  return {
    unavailabilityPercent: 100 * unavailability,
    secondsPerYear: secondsAYear(100 * unavailability),
    protection: first.protection,
    protectionByEnd: differ
      ? [
          { site: hop.ends[0].site.name, ...first.protection },
          { site: hop.ends[1].site.name, ...second.protection },
        ]
      : undefined,
    unitUnavailabilityPercent: 100 * unit.unavailability,
    switchOverPercent: switching > 0 ? 100 * switching : undefined,
  };
}

interface EndOutage {
  readonly unavailability: number;
  /** Protected sets that switch over. */
  readonly pairs: number;
  readonly protection: EquipmentOutage["protection"];
}

/** Unavailability of one end with the units that its arrangement has, for all working carriers together. */
function endUnavailability(hop: Hop, end: HopEnd, unit: number): EndOutage | undefined {
  const facts = factsAt(hop, end);
  const working = facts?.workingCarriers ?? 1;
  if (facts?.protection === "n+1") {
    const channels = working;
    const found = nPlusOne({ channels, unitUnavailability: unit });
    return found.ok
      ? {
          unavailability: found.unavailability,
          pairs: 1,
          protection: { kind: "n+1", sets: channels },
        }
      : undefined;
  }
  // Two units of which one is enough, whatever parts their ways: time, height, frequency or polarization.
  if (facts !== undefined && facts.protection !== "none") {
    const pair = hotStandby({ unitUnavailability: unit, commonUnavailability: 0 });
    const all = pair.ok ? seriesUnavailability(Array<number>(working).fill(pair.unavailability)) : pair;
    return all.ok
      ? { unavailability: all.unavailability, pairs: working, protection: { kind: "pairs", sets: working } }
      : undefined;
  }
  const all = seriesUnavailability(Array<number>(working).fill(unit));
  return all.ok
    ? { unavailability: all.unavailability, pairs: 0, protection: { kind: "none", sets: working } }
    : undefined;
}
