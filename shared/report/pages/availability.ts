import type { Hop } from "../../design/design.js";
import type { HopResult } from "../../evaluate/result.js";
import { availabilityBounded, outageBounded, yearlyBounded, yearlyOut } from "../../format/bounds.js";
import { availability, bitRate, decibels, outage, yearly } from "../../format/numbers.js";
import type { Fact, Section, Table } from "../document/document.js";

export function availabilitySection(hop: Hop, result: HopResult): Section[] {
  const found = result.availability;
  if (found === undefined) return [];
  const { availabilityPercent, bound, objectivePercent, shortfallDb, dominant, equipment, totalPercent } =
    found;
  const facts: Fact[] = [
    {
      label: `Both directions, ${found.modulation}`,
      value: availabilityBounded(availabilityPercent, bound),
      note: `${yearlyOut(availabilityPercent, bound)} out`,
    },
  ];
  if (objectivePercent !== undefined) {
    const objective = hop.objective?.title ?? hop.objective?.name ?? "objective";
    facts.push({
      label: `Asked (${objective})`,
      value: availability(objectivePercent),
      note: `${yearly(100 - objectivePercent)} out`,
    });
  }
  if (availabilityPercent > 0) {
    const { multipathPercent, rainPercent } = found;
    facts.push({
      label: "Multipath, both directions",
      value: outageBounded({ timePercent: multipathPercent }),
      note: yearlyBounded({ timePercent: multipathPercent }),
    });
    const rain = { timePercent: rainPercent, bound: found.rainBound };
    facts.push({ label: "Rain, worse direction", value: outageBounded(rain), note: yearlyBounded(rain) });
    if (dominant !== "none") facts.push(takesMost(found));
  }
  if (shortfallDb !== undefined)
    facts.push({ label: "Margin missing, each way", value: decibels(shortfallDb) });
  if (equipment !== undefined) {
    facts.push({
      label: "Equipment, both ends",
      value: outageBounded({ timePercent: equipment.unavailabilityPercent }),
      note: `${yearly(equipment.unavailabilityPercent)}, protection: ${equipment.protection}`,
    });
    facts.push({
      label: "Propagation and equipment",
      value: availabilityBounded(totalPercent ?? availabilityPercent, bound),
      note: `${yearlyOut(totalPercent ?? availabilityPercent, bound)} out`,
    });
  }
  return [
    {
      id: "availability",
      title: "Availability",
      blocks: [
        { type: "facts", facts: [...facts, ...capacityFacts(found, result), ...objectiveFacts(result)] },
        ...causesTable(found),
        {
          type: "paragraph",
          text: `Propagation, share of an average year. ${equipment === undefined ? "Failures of equipment and power are not in it." : "Failures of equipment stand beside it; power and structures are in neither."}${found.planningOnly ? " For early planning only: the refractivity gradient was assumed." : ""}`,
        },
      ],
    },
  ];
}

type Availability = NonNullable<HopResult["availability"]>;

/** No cause is named as the largest while rain, of which only a bound is known, may be larger. */
function takesMost({ causes, dominant, rainPercent, rainBound }: Availability): Fact {
  const [most] = causes;
  const label = "Takes most";
  const rain = outageBounded({ timePercent: rainPercent, bound: rainBound });
  if (most === undefined || rainBound !== "at most") return { label, value: most?.cause ?? dominant };
  if (causes.some(({ beyondLaw }) => beyondLaw))
    return { label, value: most.cause, note: "rain never takes the margin, by its law continued" };
  return most.yearPercent >= rainPercent
    ? { label, value: most.cause }
    : { label, value: `not decided: ${most.cause} or rain`, note: `rain ${rain}, where its law ends` };
}

function capacityFacts({ committed, objectivePercent }: Availability, { directions }: HopResult): Fact[] {
  const facts: Fact[] = [];
  if (committed?.capacityBps !== undefined && objectivePercent !== undefined) {
    facts.push({
      label: `Carried ${availability(objectivePercent)} of the year`,
      value: bitRate(committed.capacityBps),
      note: committed.modulation,
    });
  }
  for (const { from, to, expectedCapacityBps } of directions) {
    if (expectedCapacityBps === undefined) continue;
    facts.push({ label: `Mean capacity, ${from} to ${to}`, value: bitRate(expectedCapacityBps) });
  }
  return facts;
}

function objectiveFacts({ objectives }: HopResult): Fact[] {
  return (objectives ?? []).map(({ what, allowedPercent, foundPercent, bound, of, verdict, source }) => ({
    label: `${what[0]!.toUpperCase()}${what.slice(1)} (${source}, from memory)`,
    value: `${outageBounded({ timePercent: foundPercent, bound })}, ${outage(allowedPercent)} allowed`,
    note: `${of}; ${verdict}`,
  }));
}

/** The parts of the outage, largest first, so that what dominates is seen at once. */
function causesTable({ causes, outage: lost }: Availability): Table[] {
  if (causes.length === 0) return [];
  const rows = [
    ...causes.map((cause) => ({ name: cause.cause as string, ...cause })),
    { name: "together", ...lost },
  ];
  return [
    {
      type: "table",
      caption: "Outage by cause, both directions",
      columns: [
        { title: "Cause" },
        { title: "Average year", align: "right" },
        { title: "In time", align: "right" },
        { title: "Worst month", align: "right" },
      ],
      rows: rows.map(({ name, yearPercent: timePercent, worstMonthPercent, bound }, index) => ({
        emphasis: index === rows.length - 1,
        cells: [
          name,
          outageBounded({ timePercent, bound }),
          yearlyBounded({ timePercent, bound }),
          worstMonthPercent === undefined ? "–" : outageBounded({ timePercent: worstMonthPercent, bound }),
        ],
      })),
    },
  ];
}
