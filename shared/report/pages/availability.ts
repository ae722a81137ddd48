import type { Hop } from "../../design/design.js";
import { METHODS } from "../../evaluate/account/methods.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { monthShare, rainShare, yearShare } from "../../evaluate/outage/shares.js";
import { takesMost } from "../../evaluate/outage/takes-most.js";
import {
  type Available,
  availabilityBounded,
  ESTIMATE_REMARK,
  outageBounded,
  type Share,
  yearlyBounded,
  yearlyOut,
} from "../../format/bounds.js";
import { availability, bitRate, decibels, outage, yearly } from "../../format/numbers.js";
import { shown } from "../../words/message.js";
import { countedMessage, objectiveMessage, protectionMessage } from "../../words/objectives.js";
import type { Fact, Section, Table } from "../document/document.js";

export function availabilitySection(hop: Hop, result: HopResult): Section[] {
  const found = result.availability;
  if (found === undefined) return [];
  const { availabilityPercent, objectivePercent, shortfallDb, dominant, equipment } = found;
  const facts: Fact[] = [
    {
      label: `Both directions, ${found.modulation}`,
      value: availabilityBounded(found, objectivePercent),
      note: `${yearlyOut(found, objectivePercent)} out`,
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
    const { multipathPercent } = found;
    facts.push({
      label: "Multipath, both directions",
      value: outageBounded({ timePercent: multipathPercent }),
      note: yearlyBounded({ timePercent: multipathPercent }),
    });
    const rain = rainShare(found);
    facts.push({ label: "Rain, worse direction", value: outageBounded(rain), note: yearlyBounded(rain) });
    if (dominant !== "none") facts.push(mostFact(found));
  }
  if (shortfallDb !== undefined)
    facts.push({ label: "Margin missing, each way", value: decibels(shortfallDb) });
  if (equipment !== undefined) {
    facts.push({
      label: "Equipment, both ends",
      value: outageBounded({ timePercent: equipment.unavailabilityPercent }),
      note: `${yearly(equipment.unavailabilityPercent)}, protection: ${shown(protectionMessage(equipment))}`,
    });
    facts.push({
      label: "Propagation and equipment",
      value: availabilityBounded(withEquipment(found)),
      note: `${yearlyOut(withEquipment(found))} out`,
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
          text: `Propagation, share of an average year. ${equipment === undefined ? "Failures of equipment and power are not in it." : "Failures of equipment stand beside it; power and structures are in neither."}${found.planningOnly ? " For early planning only: the refractivity gradient was assumed." : ""}${found.atLeastPercent === undefined ? "" : ` ${ESTIMATE_REMARK}`}`,
        },
      ],
    },
  ];
}

type Availability = NonNullable<HopResult["availability"]>;

function withEquipment({ totalPercent, totalAtLeastPercent, ...found }: Availability): Available {
  return totalPercent === undefined
    ? found
    : { availabilityPercent: totalPercent, bound: found.bound, atLeastPercent: totalAtLeastPercent };
}

/** No cause is named as the largest while rain, of which only a bound is known, may be larger. */
function mostFact(found: Availability): Fact {
  const label = "Takes most";
  const { of, part, parts } = takesMost(found);
  if (of === "not decided") {
    const rain = outageBounded(rainShare(found));
    return { label, value: "not decided: multipath or rain", note: `rain ${rain}, where its law ends` };
  }
  if (part === undefined) return { label, value: of };
  const note = parts > 1 ? `most of it ${part.cause}, ${outageBounded(yearShare(part))}` : part.cause;
  return { label, value: of, note };
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
  return (objectives ?? []).map((one) => {
    const { method, allowedPercent, foundPercent, bound, atMostPercent, verdict } = one;
    const { source, standing } = METHODS[method];
    const what = shown(objectiveMessage(one));
    return {
      label: `${what[0]!.toUpperCase()}${what.slice(1)} (${source}${standing === "from memory" ? ", from memory" : ""})`,
      value: `${outageBounded({ timePercent: foundPercent, bound, atMostPercent }, allowedPercent)}, ${outage(allowedPercent)} allowed`,
      note: `${shown(countedMessage(one))}; ${verdict}`,
    };
  });
}

function written(share: Share | undefined): string {
  return share === undefined ? "–" : outageBounded(share);
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
      rows: rows.map(({ name, ...each }, index) => ({
        emphasis: index === rows.length - 1,
        cells: [
          name,
          outageBounded(yearShare(each)),
          yearlyBounded(yearShare(each)),
          written(monthShare(each)),
        ],
      })),
    },
  ];
}
