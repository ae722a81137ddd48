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
    ],
    rows: modes.toReversed().map((mode) => ({
      emphasis: judged !== undefined && modes.length > 1 && sameMode(mode, judged),
      cells: [
        `${mode.modulation}, ${bandwidth(mode.bandwidthHz)}`,
        mode.bitRateBps === undefined ? "–" : bitRate(mode.bitRateBps),
        dbm(mode.transmitPowerDbm),
        dbm(mode.receivedLevelDbm),
        `${dbm(mode.thresholdDbm)}${mode.thresholdFrom === "catalogue" ? "" : " (computed)"}`,
        decibels(mode.fadeMarginDb),
        outageText(mode.multipath),
        outageText(mode.rain),
        mode.availabilityPercent === undefined ? "–" : availability(mode.availabilityPercent),
      ],
    })),
  };
}

function outageText(found: Outage | undefined): string {
  if (found === undefined) return "–";
  return `${found.bound === "at most" ? "≤ " : found.bound === "at least" ? "≥ " : ""}${outage(found.timePercent)}`;
}

export function availabilitySection(hop: Hop, result: HopResult): Section[] {
  const found = result.availability;
  if (found === undefined) return [];
  const { availabilityPercent, objectivePercent, multipathPercent, rainPercent, shortfallDb, dominant } =
    found;
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
    facts.push({
      label: "Multipath, both directions",
      value: outage(multipathPercent),
      note: yearly(multipathPercent),
    });
    facts.push({ label: "Rain, worse direction", value: outage(rainPercent), note: yearly(rainPercent) });
    if (dominant !== "none") facts.push({ label: "Takes most", value: dominant });
  }
  if (shortfallDb !== undefined)
    facts.push({ label: "Margin missing, each way", value: decibels(shortfallDb) });
  return [
    {
      id: "availability",
      title: "Availability",
      blocks: [
        { type: "facts", facts },
        {
          type: "paragraph",
          text: "Propagation only, share of an average year. Failures of equipment and power are not in it.",
        },
      ],
    },
  ];
}
