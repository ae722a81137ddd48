/** What the network is to carry: demands with their routes, the load of every hop, and what fails when something fails. */
import { committedBps, type WorstFailure, worstFailures } from "../../demands/failure-effects.js";
import type { DemandResult, DemandsResult, Route } from "../../demands/result.js";
import { outageBounded, yearlyBounded } from "../../format/bounds.js";
import { bitRate, kilometres } from "../../format/numbers.js";
import {
  availabilityHeld,
  causesOf,
  clockHeld,
  demandsRestOn,
  goesTo,
  type Held,
  latencyHeld,
  missesSomething,
  NONE,
  ratesWords,
  ringsWords,
  secondRouteHeld,
  wholeAvailabilityHeld,
  worstFailureWords,
} from "../../words/demand-figures.js";
import { routeProblemWords, secondProblemWords, takesMost } from "../../words/demands.js";
import type {
  Block,
  Inline,
  KeyFigure,
  MarkedText,
  Page,
  ReportFinding,
  Section,
  Span,
  TableRow,
} from "../document/document.js";
import { type DemandsPageOf, linkedHop, linkedRoute } from "./demand-links.js";
import { failuresSection } from "./failures.js";
import { gravestFirst } from "./figures.js";
import { loadsSection } from "./loads.js";

export interface DemandsPageInput {
  readonly name: string;
  readonly title?: string;
  readonly result: DemandsResult;
  /** Those on demands. */
  readonly findings: readonly ReportFinding[];
  readonly pageOf: DemandsPageOf;
  readonly up?: { readonly text: string; readonly page: string };
  readonly colophon: string;
}

export function demandsPage(input: DemandsPageInput): Page {
  const { name, title, result, findings, pageOf, up, colophon } = input;
  return {
    name,
    title: "Demands",
    subtitle: title,
    up: up && { text: up.text, to: { page: up.page } },
    keyFigures: keyFigures(result),
    sections: [
      ...findingsSection(findings),
      demandsSection(result),
      routesSection(result, pageOf),
      loadsSection(result, pageOf),
      failuresSection(result, pageOf),
      {
        id: "origin",
        title: "What the figures rest on",
        blocks: demandsRestOn(result).map((text) => ({ type: "paragraph", text })),
      },
    ],
    colophon,
  };
}

function keyFigures(result: DemandsResult): KeyFigure[] {
  const all = [...result.demands.values()];
  const missed = all.filter(missesSomething).length;
  const open = all.filter((one) => !missesSomething(one) && isOpen(one)).length;
  const alone = all.filter(
    ({ route, singlePoints }) => route !== undefined && singlePoints.length > 0,
  ).length;
  const overloaded = [...result.hops.values()].filter(({ worst }) => worst?.overloaded).length;
  const [value, unit] = bitRate(committedBps(all)).split(" ");
  return [
    { label: "Demands", value: String(all.length), ...ringsNote(result) },
    { label: "Committed", value: value!, unit: unit! },
    {
      label: "Missed on the way",
      value: String(missed),
      ...(open > 0 && { note: `${open} open` }),
      ...(missed > 0 && { tone: "error" as const }),
    },
    {
      label: "Lost by one failure",
      value: String(alone),
      note: "of a hop, site or card between their ends",
    },
    {
      label: "Hops overloaded in a failure",
      value: String(overloaded),
      ...(overloaded > 0 && { tone: "warning" as const }),
    },
  ];
}

function ringsNote({ rings, meshes }: DemandsResult): Pick<KeyFigure, "note"> {
  const counted = (
    [
      ["ring", rings.length],
      ["mesh", meshes.length],
    ] as const
  ).flatMap(([word, count]) =>
    count === 0 ? [] : `${count} ${word}${count === 1 ? "" : word === "ring" ? "s" : "es"}`,
  );
  return counted.length === 0 ? {} : { note: `over hops with ${counted.join(" and ")}` };
}

function isOpen({ verdicts }: DemandResult): boolean {
  return Object.values(verdicts).includes("open");
}

function findingsSection(findings: readonly ReportFinding[]): Section[] {
  return findings.length === 0
    ? []
    : [
        {
          id: "findings",
          title: "Findings",
          blocks: [{ type: "findings", findings: gravestFirst(findings) }],
        },
      ];
}

/** What each asks, and whether it is met. */
function demandsSection(result: DemandsResult): Section {
  const all = [...result.demands.values()];
  const withSecond = all.some(({ verdicts }) => verdicts.secondRoute !== undefined);
  const withClock = all.some(({ demand }) => demand.clock !== undefined);
  const worst = worstFailures(result);
  const rows = all.map((one): TableRow => {
    const { demand } = one;
    return {
      find: [demand.title, demand.from, goesTo(one)].filter((word) => word !== undefined).join(" "),
      cells: [
        demand.title === undefined ? demand.name : [demand.name, { text: ` ${demand.title}`, mark: "quiet" }],
        `${demand.from ?? NONE} > ${goesTo(one)}`,
        ratesWords(one),
        availableCell(one),
        heldCell(latencyHeld(one)),
        ...(withSecond ? [heldCell(secondRouteHeld(one))] : []),
        ...(withClock ? [heldCell(clockHeld(one))] : []),
        failureCell(worst.get(demand.name)),
      ],
    };
  });
  const titles = [
    ...["Demand", "From, to", "Committed", "Availability", "Latency"],
    ...(withSecond ? ["Second route"] : []),
    ...(withClock ? ["Clock"] : []),
    "When one thing fails",
  ];
  const blocks: Block[] = [
    { type: "table", searched: true, columns: titles.map((title) => ({ title })), rows },
  ];
  const rings = ringsWords(result);
  if (rings.length > 0)
    blocks.push(
      { type: "paragraph", text: "Rings of hops, by their sites:" },
      { type: "list", items: rings },
    );
  return { id: "demands", title: "What is asked and met", blocks };
}

function availableCell(one: DemandResult): Inline {
  const whole = wholeAvailabilityHeld(one);
  return [
    ...heldCell(availabilityHeld(one)),
    ...(whole?.asked === undefined ? [] : ["; with equipment ", ...heldCell(whole)]),
  ];
}

const VERDICT: Readonly<Record<NonNullable<Held["verdict"]>, MarkedText>> = {
  met: { text: "met", mark: "good" },
  missed: { text: "missed", mark: "error" },
  open: { text: "open", mark: "unjudged" },
};

function heldCell(held: Held | undefined): Span[] {
  if (held === undefined) return [NONE];
  const { found, asked, verdict } = held;
  return [
    found,
    ...(asked === undefined ? [] : [{ text: ` of ${asked}`, mark: "quiet" as const }]),
    ...(verdict === undefined ? [] : [" ", VERDICT[verdict]]),
  ];
}

function failureCell(worst: WorstFailure | undefined): Inline {
  const words = worstFailureWords(worst);
  return worst?.effect === "overloads" ? { text: words, mark: "strong" } : words;
}

/** Over which hops, and what takes their time. */
function routesSection(result: DemandsResult, pageOf: DemandsPageOf): Section {
  const all = [...result.demands.values()];
  const withEquipment = all.some(({ outage }) => outage?.equipmentPercent !== undefined);
  const titles = [
    ...["Demand", "Route", "Length", "Out", "Multipath", "Rain"],
    ...(withEquipment ? ["Equipment"] : []),
    "Takes most",
  ];
  const equipment = withEquipment
    ? "Equipment stands beside it."
    : "What failures of equipment take is known of no route: of some hop on each the parts state no MTBF and MTTR.";
  return {
    id: "routes",
    title: "Routes, and what takes their time",
    blocks: [
      {
        type: "table",
        searched: true,
        columns: titles.map((title, index) =>
          index < 2 || title === "Takes most" ? { title } : { title, align: "right" },
        ),
        rows: all.flatMap((one) => routeRows(one, withEquipment, pageOf)),
      },
      {
        type: "paragraph",
        text: `Out: of an average year, by propagation; of two routes, both at once. ${equipment} Rain: as if on each hop by itself, and as if on all at once.`,
      },
    ],
  };
}

function routeRows(one: DemandResult, withEquipment: boolean, pageOf: DemandsPageOf): TableRow[] {
  const { demand, route, problem, second, secondProblem } = one;
  const told = (name: Inline, spans: readonly Span[], way?: Route, out: readonly Inline[] = []): TableRow => {
    const cells = [name, spans, way === undefined ? "" : kilometres(way.lengthM), ...out];
    return { cells: [...cells, ...Array<Inline>(7 + Number(withEquipment) - cells.length).fill("")] };
  };
  const secondName: Inline = { text: "second route", mark: "quiet" };
  const rows: TableRow[] = [];
  if (route)
    rows.push(told(demand.name, linkedRoute(route, pageOf), route, outCells(one, withEquipment, pageOf)));
  else
    rows.push(
      told(demand.name, [
        { text: "no route", mark: "error" },
        ` ${problem === undefined ? "it does not say from where to where" : routeProblemWords(problem, demand)}`,
      ]),
    );
  if (second) rows.push(told(secondName, linkedRoute(second, pageOf), second));
  if (secondProblem)
    rows.push(
      told(secondName, [
        { text: "missed", mark: "error" },
        ` ${secondProblemWords(secondProblem, demand.secondRoute?.disjoint ?? "hop")}`,
      ]),
    );
  return rows;
}

function outCells(one: DemandResult, withEquipment: boolean, pageOf: DemandsPageOf): readonly Inline[] {
  const { outage } = one;
  if (outage === undefined) return [NONE];
  const causes = new Map(causesOf(outage));
  const most = takesMost(one);
  return [
    yearlyBounded({ timePercent: outage.propagationPercent }),
    // Of what no mode carries fading is no cause.
    ...(one.short.length > 0 ? [NONE, NONE] : [causes.get("multipath")!, causes.get("rain")!]),
    ...(withEquipment ? [causes.get("equipment")!] : []),
    most === undefined
      ? NONE
      : [linkedHop(most.hop, pageOf), ` ${outageBounded({ timePercent: most.outagePercent! })}`],
  ];
}
