import type { Hop } from "../../design/design.js";
import { sameMode } from "../../evaluate/judged-mode.js";
import type { DirectionResult, HopResult, ModeResult, Outage } from "../../evaluate/result.js";
import {
  availability,
  bandwidth,
  bitRate,
  dbm,
  decibels,
  frequency,
  outage,
  yearly,
} from "../../format/numbers.js";
import { weakerDirection } from "../../rules/judged-modes.js";
import type { Fact, Section, Table } from "../document/document.js";

/** Every mode in both directions; the one that the objective is held against stands out. */
export function modesSection(hop: Hop, result: HopResult): Section[] {
  const tables = result.directions.filter(({ modes }) => modes.length > 0);
  if (tables.length === 0) return [];
  const judged = weakerDirection(hop, result)?.mode;
  return [
    {
      id: "modes",
      title: tables.some(({ modes }) => modes.length > 1) ? "Modes" : "Mode",
      blocks: [
        ...(judged && tables.some(({ modes }) => modes.length > 1)
          ? [{ type: "paragraph", text: `The objective is held against ${judged.modulation}.` } as const]
          : []),
        ...tables.map((direction) => modesTable(direction, judged)),
      ],
    },
  ];
}

function modesTable(
  { from, to, frequencyHz, modes }: DirectionResult,
  judged: ModeResult | undefined,
): Table {
  const timed = modes.some(({ timeInUsePercent }) => timeInUsePercent !== undefined);
  return {
    type: "table",
    caption: `${from} to ${to}, ${frequency(frequencyHz)}`,
    columns: [
      { title: "Mode" },
      { title: "Rate", align: "right" },
      { title: "Power", align: "right" },
      { title: "Received", align: "right" },
      { title: "Threshold", align: "right" },
      { title: "Margin", align: "right" },
      { title: "Multipath", align: "right" },
      { title: "Rain", align: "right" },
      { title: "Available", align: "right" },
      ...(timed ? [{ title: "In use", align: "right" } as const] : []),
    ],
    rows: modes.toReversed().map((mode) => ({
      emphasis: judged !== undefined && modes.length > 1 && sameMode(mode, judged),
      cells: [
        `${mode.modulation}, ${bandwidth(mode.bandwidthHz)}`,
        mode.bitRateBps === undefined ? "–" : bitRate(mode.bitRateBps),
        dbm(mode.transmitPowerDbm),
        dbm(mode.receivedLevelDbm),
        thresholdText(mode),
        decibels(mode.fadeMarginDb),
        outageText(mode.multipath),
        outageText(mode.rain),
        mode.availabilityPercent === undefined ? "–" : availability(mode.availabilityPercent),
        ...(timed ? [mode.timeInUsePercent === undefined ? "–" : availability(mode.timeInUsePercent)] : []),
      ],
    })),
  };
}

function outageText(found: Outage | undefined): string {
  if (found === undefined) return "–";
  return `${found.bound === "at most" ? "≤ " : found.bound === "at least" ? "≥ " : ""}${outage(found.timePercent)}`;
}

function thresholdText({ thresholdDbm, thresholdFrom, degradationDb }: ModeResult): string {
  const computed = thresholdFrom === "catalogue" ? "" : " (computed)";
  const raised = degradationDb ? `, raised ${decibels(degradationDb)}` : "";
  return `${dbm(thresholdDbm)}${computed}${raised}`;
}

export function availabilitySection(hop: Hop, result: HopResult): Section[] {
  const found = result.availability;
  if (found === undefined) return [];
  const { availabilityPercent, objectivePercent, shortfallDb, dominant, equipment, totalPercent } = found;
  const bound = found.bound === undefined ? "" : `${found.bound} `;
  const facts: Fact[] = [
    {
      label: `Both directions, ${found.modulation}`,
      value: `${bound}${availability(availabilityPercent)}`,
      note: yearly(100 - availabilityPercent),
    },
  ];
  if (objectivePercent !== undefined) {
    const objective = hop.objective?.title ?? hop.objective?.name ?? "objective";
    facts.push({
      label: `Asked (${objective})`,
      value: availability(objectivePercent),
      note: yearly(100 - objectivePercent),
    });
  }
  if (availabilityPercent > 0) {
    const { multipathPercent, rainPercent } = found;
    facts.push({
      label: "Multipath, both directions",
      value: outage(multipathPercent),
      note: yearly(multipathPercent),
    });
    facts.push({ label: "Rain, worse direction", value: outage(rainPercent), note: yearly(rainPercent) });
    if (dominant !== "none") facts.push({ label: "Takes most", value: found.causes[0]?.cause ?? dominant });
  }
  if (shortfallDb !== undefined)
    facts.push({ label: "Margin missing, each way", value: decibels(shortfallDb) });
  if (equipment !== undefined) {
    facts.push({
      label: "Equipment, both ends",
      value: outage(equipment.unavailabilityPercent),
      note: `${yearly(equipment.unavailabilityPercent)}, protection: ${equipment.protection}`,
    });
    facts.push({
      label: "Propagation and equipment",
      value: availability(totalPercent ?? availabilityPercent),
      note: yearly(100 - (totalPercent ?? availabilityPercent)),
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
  return (objectives ?? []).map(({ what, allowedPercent, foundPercent, of, met, source }) => ({
    label: `${what[0]!.toUpperCase()}${what.slice(1)} (${source}, from memory)`,
    value: `${outage(foundPercent)}, ${outage(allowedPercent)} allowed`,
    note: `${of}; ${met ? "met" : "not met"}`,
  }));
}

/** The parts of the outage, largest first, so that what dominates is seen at once. */
function causesTable({ causes, outage: lost }: Availability): Table[] {
  if (causes.length === 0) return [];
  const month = (percent: number | undefined) => (percent === undefined ? "–" : outage(percent));
  return [
    {
      type: "table",
      caption: "Outage by cause, both directions",
      columns: [
        { title: "Cause" },
        { title: "Average year", align: "right" },
        { title: "", align: "right" },
        { title: "Worst month", align: "right" },
      ],
      rows: [
        ...causes.map(({ cause, yearPercent, worstMonthPercent, bound }) => ({
          cells: [
            cause,
            outageText({ timePercent: yearPercent, bound }),
            yearly(yearPercent),
            month(worstMonthPercent),
          ],
        })),
        {
          emphasis: true,
          cells: [
            "together",
            outage(lost.yearPercent),
            yearly(lost.yearPercent),
            month(lost.worstMonthPercent),
          ],
        },
      ],
    },
  ];
}
