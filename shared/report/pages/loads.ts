/** What hops carry of what they can, of the whole network and of one hop. */
import type { DemandResult, DemandsResult, HopLoad } from "../../demands/result.js";
import { outageBounded } from "../../format/bounds.js";
import { bitRate } from "../../format/numbers.js";
import {
  carriedWords,
  exceededWords,
  grownWords,
  loadedHops,
  loadShare,
  loadWords,
  NONE,
  outgrownWords,
  ratesWords,
  shareHeldWords,
} from "../../words/demand-figures.js";
import { elementWords, someOf } from "../../words/demands.js";
import type { Block, Fact, Inline, Section, Span, Table } from "../document/document.js";
import { drawLoads, type LoadBar, NARROW_LOADS } from "../draw/loads.js";
import { type DemandsPageOf, linkedElement, linkedHop } from "./demand-links.js";

/** More bars than these are no picture; the table has all. */
const MOST_BARS = 40;

export function loadsSection(result: DemandsResult, pageOf: DemandsPageOf): Section {
  const loads = loadedHops(result);
  const loaded = new Set(loads);
  const idle = [...result.hops.values()].filter((load) => !loaded.has(load)).map(({ hop }) => hop);
  const blocks: Block[] = [...barsFigure(loads)];
  if (loads.length > 0) blocks.push(loadsTable(loads, pageOf));
  if (idle.length > 0)
    blocks.push({ type: "paragraph", text: `Carry nothing, whatever fails: ${someOf(idle, 12)}.` });
  blocks.push({ type: "paragraph", text: LOADS_TOLD });
  return { id: "loads", title: "Load of every hop", blocks };
}

const LOADS_TOLD =
  "Committed, in each direction, against what the hop carries for the share of the year that its demands ask of it, each by its length along the route; where they ask none, in clear air; and in the mode in use where demands that hold end to end run in one that carries more than the strictest share on the hop would leave. The worst failure is that of one hop, site or card that brings most committed traffic to it.";

function barsFigure(loads: readonly HopLoad[]): Block[] {
  const bars = loads.slice(0, MOST_BARS).flatMap(barOf);
  const svg = drawLoads(bars);
  if (svg === undefined) return [];
  const fullest = bars.slice(0, 3).map(({ hop, words }) => `${hop} ${words}`);
  const more = loads.length > MOST_BARS ? ` The ${MOST_BARS} fullest of ${loads.length}.` : "";
  return [
    {
      type: "figure",
      name: "loads",
      svg,
      narrow: drawLoads(bars, NARROW_LOADS),
      alt: `Load of hops, the fullest first: ${fullest.join("; ")}`,
      caption: `Filled: normally. Outlined: in the worst failure of one element. Dashed: all that the hop carries.${more}`,
    },
  ];
}

function barOf({ hop, committedBps, carriedBps, worst }: HopLoad): LoadBar[] {
  const normalPercent = loadShare(committedBps, carriedBps);
  if (normalPercent === undefined) return [];
  const worstPercent = worst && loadShare(worst.committedBps, carriedBps);
  const words =
    worst === undefined
      ? loadWords(normalPercent)
      : `${loadWords(normalPercent)}, ${loadWords(worstPercent)} in failure`;
  const overloaded = worst?.overloaded === true || normalPercent > 100;
  return [{ hop, normalPercent, ...(worstPercent !== undefined && { worstPercent }), words, overloaded }];
}

function loadsTable(loads: readonly HopLoad[], pageOf: DemandsPageOf): Table {
  const grows = loads.some(({ grown }) => grown !== undefined);
  return {
    type: "table",
    searched: true,
    columns: [
      { title: "Hop" },
      { title: "Demands" },
      { title: "Committed", align: "right" },
      { title: "Load", align: "right" },
      ...(grows ? [{ title: "Grows to" }] : []),
      { title: "Worst", align: "right" },
      { title: "Load then", align: "right" },
      { title: "When it fails" },
      { title: "Carries" },
    ],
    rows: loads.map((load) => {
      const { hop, demands, committedBps, carriedBps, worst } = load;
      return {
        find: demands.join(" "),
        cells: [
          linkedHop(hop, pageOf),
          someOf(demands, 3) || NONE,
          bitRate(committedBps),
          share(committedBps, carriedBps),
          ...(grows ? [grownWords(load) ?? NONE] : []),
          worst === undefined ? NONE : bitRate(worst.committedBps),
          worst === undefined ? NONE : share(worst.committedBps, carriedBps),
          worst === undefined ? NONE : linkedElement(worst.element, pageOf),
          [carriedWords(load), ...grownSpans(load)],
        ],
      };
    }),
  };
}

function share(committedBps: number, carriedBps: number | undefined): Inline {
  const percent = loadShare(committedBps, carriedBps);
  return percent !== undefined && percent > 100.0001
    ? { text: loadWords(percent), mark: "error" }
    : loadWords(percent);
}

function grownSpans(load: HopLoad): Span[] {
  return outgrownWords(load).flatMap((text) => [", ", { text, mark: "warning" }]);
}

export interface CarriedByHop {
  readonly load: HopLoad;
  /** That pass it normally or by a second route, in the order in which they are carried. */
  readonly demands: readonly DemandResult[];
  /** Page of all demands, where there is one. */
  readonly page?: string;
}

/** Of one hop: its demands with what each asks of it, and what it comes to. */
export function carriesSection(carried: CarriedByHop | undefined): Section[] {
  if (carried === undefined) return [];
  const { load, demands: passing, page } = carried;
  const blocks: Block[] = [{ type: "facts", facts: factsOf(load) }];
  if (passing.length > 0) blocks.push(passingTable(load, passing));
  const all =
    "Demands are carried in the order of the rows, each in the lowest mode that takes it with those above it; demands of the same priority and availability go together. ";
  blocks.push({
    type: "paragraph",
    text:
      page === undefined
        ? all
        : [all, "Routes, other hops and failures: ", { text: "demands", to: { page } }],
  });
  return [{ id: "carries", title: "What it carries", blocks }];
}

function factsOf({
  committedBps,
  peakBps,
  carriedBps,
  clearAirBps,
  worst,
  grown,
  outgrown,
  outgrownWithout,
  ...load
}: HopLoad): Fact[] {
  const facts: Fact[] = [
    {
      label: "Committed, each direction",
      value: bitRate(committedBps),
      note: `${loadWords(loadShare(committedBps, carriedBps))} of what it carries`,
    },
    { label: "With all that demands may take beyond", value: bitRate(peakBps) },
    {
      label: "It carries",
      value: carriedWords({ ...load, ...(carriedBps !== undefined && { carriedBps }) }),
    },
  ];
  if (clearAirBps !== undefined && load.percent !== undefined)
    facts.push({ label: "In clear air", value: bitRate(clearAirBps) });
  facts.push(
    worst === undefined
      ? { label: "Worst failure", value: "none brings more to it" }
      : {
          label: `Without ${elementWords(worst.element)}`,
          value: worst.overloaded
            ? [{ text: "overloaded", mark: "warning" }, ` ${bitRate(worst.committedBps)}`]
            : bitRate(worst.committedBps),
          note: `${loadWords(loadShare(worst.committedBps, carriedBps))}; ${someOf(worst.demands, 3)} ${worst.demands.length === 1 ? "comes" : "come"} to it`,
        },
  );
  if (grown)
    facts.push({
      label: `With growth, in year ${grown.year}`,
      value: bitRate(grown.committedBps),
      note: `${loadWords(loadShare(grown.committedBps, carriedBps))} of what it carries`,
    });
  if (outgrown)
    facts.push({
      label: "Outgrown",
      value: { text: `in year ${outgrown.year}`, mark: "warning" },
      note: `${bitRate(outgrown.committedBps)} committed then`,
    });
  if (outgrownWithout)
    facts.push({
      label: `Outgrown without ${elementWords(outgrownWithout.element)}`,
      value: { text: `in year ${outgrownWithout.year}`, mark: "warning" },
      note: `${bitRate(outgrownWithout.committedBps)} committed then`,
    });
  facts.push(...shareFacts(load.share));
  return facts;
}

const MOST_EXCEEDED = 3;

/** What it may lose: by its own objective and by what its demands ask. */
function shareFacts(share: HopLoad["share"]): Fact[] {
  if (share === undefined) return [];
  const { exceeded } = share;
  const told = exceeded.slice(0, MOST_EXCEEDED);
  const facts: Fact[] = [{ label: "May be out", value: shareHeldWords(share) }];
  for (const one of told)
    facts.push({
      label: `Of what ${one.demand} leaves it`,
      value: { text: "exceeded", mark: one.othersMakeUp ? "info" : "warning" },
      note: exceededWords(one),
    });
  const more = exceeded.slice(MOST_EXCEEDED).map(({ demand }) => demand);
  if (more.length > 0) facts.push({ label: "Exceeded too", value: someOf(more) });
  return facts;
}

function passingTable({ hop, demands: normal }: HopLoad, passing: readonly DemandResult[]): Table {
  const percent = (value: number | undefined) =>
    value === undefined ? NONE : outageBounded({ timePercent: value });
  return {
    type: "table",
    columns: [
      { title: "Demand" },
      { title: "Committed" },
      { title: "Needed with those above", align: "right" },
      { title: "Mode" },
      { title: "Out of the year", align: "right" },
      { title: "May take, by length", align: "right" },
    ],
    rows: passing.map((one) => {
      const here = one.hops.find((each) => each.hop === hop)!;
      const { name } = one.demand;
      return {
        cells: [
          normal.includes(name) ? name : [name, { text: " second route", mark: "quiet" }],
          ratesWords(one),
          bitRate(here.neededBps),
          here.modulation ?? (one.short.includes(hop) ? { text: "none", mark: "error" } : NONE),
          percent(here.outagePercent),
          percent(here.sharePercent),
        ],
      };
    }),
  };
}
