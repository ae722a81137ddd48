/** What is asked in a network and how it stands: objectives of hops, and demands. */

import type { DemandResult, DemandsResult, Route } from "../../demands/result.js";
import type { Demand } from "../../design/demand.js";
import type { Hop } from "../../design/design.js";
import type { Verdict } from "../../evaluate/account/outage-result.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { withinReason } from "../../evaluate/reason.js";
import { bitRate } from "../../format/numbers.js";
import { type Criterion, criteriaOf } from "../../rules/asked.js";
import { availabilityHeld } from "../../words/demand-figures.js";
import type {
  Block,
  Inline,
  MarkedText,
  ReportFinding,
  Section,
  TableRow,
  Tone,
} from "../document/document.js";
import { errorsAmong, errorsTable } from "./design-errors.js";
import type { SheetWords } from "./words/sheet-words.js";

export interface BookHop {
  readonly hop: Hop;
  readonly result: HopResult;
}

/** A hop with what is asked of it, looked at once. */
export interface HeldHop extends BookHop {
  readonly criteria: readonly Criterion[];
  /** Undefined: it has no objective, or one that asks nothing of it. */
  readonly verdict: Verdict | undefined;
}

export function heldOf({ hop, result }: BookHop): HeldHop {
  const criteria = hop.objective === undefined ? [] : criteriaOf(hop, withinReason(hop).hop, result);
  return { hop, result, criteria, verdict: worst(criteria.map(({ verdict }) => verdict)) };
}

function worst(verdicts: readonly Verdict[]): Verdict | undefined {
  return (["missed", "open", "met"] as const).find((one) => verdicts.includes(one));
}

export const TONES: Readonly<Record<Verdict | "none", Tone>> = {
  met: "good",
  missed: "error",
  open: "warning",
  none: "unjudged",
};

/** Where nothing is known or asked. */
export const NONE = "–";

export function verdictMark(verdict: Verdict | undefined, { book }: SheetWords): MarkedText {
  const code = verdict ?? "none";
  return { text: book.verdicts[code], mark: TONES[code] };
}

export function objectivesSection(held: readonly HeldHop[], words: SheetWords): Section {
  const { book, acceptance } = words;
  const counts = { met: 0, missed: 0, open: 0 };
  for (const { verdict } of held) if (verdict) counts[verdict]++;
  const without = held.filter(({ verdict }) => verdict === undefined).length;
  const named = (criteria: readonly Criterion[], which: Verdict): string =>
    criteria
      .filter(({ verdict }) => verdict === which)
      .map(({ rule, name }) => acceptance.criteria[rule] ?? name)
      .join(", ") || NONE;
  /** With reason and last day. */
  const acceptedIn = ({ accepts }: Hop, criteria: readonly Criterion[]): string =>
    criteria
      .filter(({ verdict }) => verdict !== "met")
      .flatMap(({ rule, name }) => {
        const accepted = accepts.find((one) => one.rule === rule);
        if (accepted === undefined) return [];
        const { reason, until } = accepted;
        const what = acceptance.criteria[rule] ?? name;
        return book.acceptedAs(what, reason, until === undefined ? undefined : words.day(until));
      })
      .join("; ") || NONE;
  const rows = held
    .filter(({ verdict }) => verdict === "missed" || verdict === "open")
    .map(({ hop, criteria, verdict }) => ({
      cells: [
        hop.name,
        hop.objective?.title ?? hop.objective?.name ?? NONE,
        verdictMark(verdict, words),
        named(criteria, "missed"),
        named(criteria, "open"),
        acceptedIn(hop, criteria),
      ],
    }));
  const table: Block = {
    type: "table",
    columns: [
      { title: book.columns.hop },
      { title: book.objective },
      { title: acceptance.stands },
      { title: book.missed },
      { title: book.open },
      { title: book.accepted },
    ],
    rows,
  };
  return {
    id: "objectives",
    title: book.objectives,
    blocks: [
      { type: "paragraph", text: book.objectivesCounted(counts, without) },
      ...(rows.length > 0 ? [table] : []),
    ],
  };
}

/** As the text has it: `20 Mbit/s + 2 E1`. */
function statedRate({ committedBps, e1, stm1 }: Demand, { figure }: SheetWords): string {
  const parts = [
    ...(committedBps === undefined ? [] : [figure(bitRate(committedBps))]),
    ...(e1 === undefined ? [] : [`${e1} E1`]),
    ...(stm1 === undefined ? [] : [`${stm1} STM-1`]),
  ];
  return parts.length === 0 ? NONE : parts.join(" + ");
}

/** What was found at the demands or sites of the table above; nothing where nothing was. */
export function errorBlocks(
  kind: "site" | "demand",
  errors: ReadonlyMap<string, readonly ReportFinding[]>,
  words: SheetWords,
): readonly Block[] {
  const table = errorsTable(
    [...errors].map(([name, findings]) => ({ about: { kind, name }, findings })),
    words,
  );
  return table === undefined ? [] : [{ ...table, caption: words.errors.title }];
}

/** @param errors by demand: what it asks may be met while something about it is wrong */
export function demandsSection(
  result: DemandsResult | undefined,
  errors: ReadonlyMap<string, readonly ReportFinding[]>,
  words: SheetWords,
): Section {
  const { book, figure } = words;
  const all = [...(result?.demands.values() ?? [])];
  const way = (route: Route | undefined) => route?.sites.join(" > ") ?? book.noWay;
  const row = (one: DemandResult): TableRow => {
    const { demand, taken, route, second, verdicts } = one;
    const available = availabilityHeld(one);
    const to =
      demand.to === undefined ? NONE : demand.to === "handover" ? route?.sites.at(-1) : demand.to.site;
    const verdict = route === undefined ? "missed" : worst(Object.values(verdicts));
    const isWrong = verdict !== "missed" && errorsAmong(errors.get(demand.name) ?? []).length > 0;
    const cells: Inline[] = [
      demand.name,
      demand.from ?? NONE,
      to ?? book.overHandover,
      statedRate(demand, words),
      figure(bitRate(taken.committedBps)),
      way(route),
      second === undefined ? NONE : way(second),
      figure(available?.found ?? NONE),
      figure(available?.asked ?? NONE),
      isWrong
        ? [verdictMark(verdict, words), ", ", { text: words.errors.below, mark: "error" }]
        : verdictMark(verdict, words),
    ];
    return { cells };
  };
  const { name, from, to, rates, taken: takes, way: over, second, available, asked, stands } = book.demand;
  const table: Block = {
    type: "table",
    columns: [
      { title: name },
      { title: from },
      { title: to },
      { title: rates, align: "right" },
      { title: takes, align: "right" },
      { title: over },
      { title: second },
      { title: available, align: "right" },
      { title: asked, align: "right" },
      { title: stands },
    ],
    rows: all.map(row),
  };
  return {
    id: "demands",
    title: book.demands,
    blocks: [
      all.length === 0 ? { type: "paragraph", text: book.noDemands } : table,
      ...errorBlocks("demand", errors, words),
    ],
  };
}
