/** The book of a network: where it lies, who is joined to whom, every hop in a row, what is asked and met, its demands. */
import type { DemandsResult } from "../../demands/result.js";
import type { Design, Hop, HopEnd, Site } from "../../design/design.js";
import type { Verdict } from "../../evaluate/account/outage-result.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { judgedMode } from "../../evaluate/level/judged-mode.js";
import { fixed, gigahertz, trimmed } from "../../format/numbers.js";
import { formatDms } from "../../geodesy/coordinates.js";
import type { HeldHop as LicensedHop } from "../../licence/held.js";
import { arrangementWords } from "../../radio/arrangement-pairs.js";
import { carriers } from "../../radio/arrangements.js";
import type { Block, KeyFigure, Page, ReportFinding, Section, TableRow } from "../document/document.js";
import { drawNetwork, NARROW_MAP, WIDE_MAP } from "../draw/network-map.js";
import { drawTopology } from "../draw/system/topology/topology.js";
import {
  type BookHop,
  demandsSection,
  errorBlocks,
  type HeldHop,
  heldOf,
  NONE,
  objectivesSection,
  TONES,
  verdictMark,
} from "./book-asked.js";
import { exceptionsSection, licencesSection } from "./book-lists.js";
import { errorCountSection } from "./design-errors.js";
import type { SheetWords } from "./words/sheet-words.js";

export interface BookInput {
  readonly design: Design;
  readonly hops: readonly BookHop[];
  /** Hops of the text that have no result. */
  readonly unresolved: readonly string[];
  /** Undefined: the design states none. */
  readonly demands?: DemandsResult | undefined;
  /** What each hop sends, with the licence that it rests on. */
  readonly licensed: readonly LicensedHop[];
  readonly errors: BookErrors;
  /** ISO date, today's. */
  readonly day: string;
  readonly name: string;
  readonly words: SheetWords;
  readonly colophon: string;
}

export interface BookErrors {
  /** All that stand in the design. */
  readonly count: number;
  /** By name. */
  readonly ofDemands: ReadonlyMap<string, readonly ReportFinding[]>;
  readonly ofSites: ReadonlyMap<string, readonly ReportFinding[]>;
}

export function networkBook(input: BookInput): Page {
  const { design, name, words, colophon } = input;
  const held = input.hops.map(heldOf);
  // What fills a side as it comes first, so that none before a drawing stays half empty.
  const sections = [
    objectivesSection(held, words),
    demandsSection(input.demands, input.errors.ofDemands, words),
    exceptionsSection(design, input.day, words),
    ...licencesSection(design, input.licensed, words),
    ...mapSection(design, held, words),
    ...topologySection(design, held, words),
    hopsSection(held, input.unresolved, words),
    sitesSection(input, held),
  ];
  const entries = sections.map(({ id, title }) => ({ id, title }));
  const { book } = words;
  return {
    name,
    title: design.title === undefined ? book.title : `${book.title}: ${design.title}`,
    language: words.language,
    // For the table of hops, and the diagram is wide too.
    paper: { landscape: true },
    keyFigures: keyFigures(input, held),
    sections: [
      ...errorCountSection(input.errors.count, words),
      { id: "contents", title: book.contents, blocks: [{ type: "contents", entries }] },
      ...sections,
    ],
    colophon,
  };
}

function keyFigures({ design, unresolved, words }: BookInput, held: readonly HeldHop[]): KeyFigure[] {
  const { book, figure } = words;
  const lengthM = held.reduce((sum, { result }) => sum + (result.distanceM ?? 0), 0);
  const count = (verdict: Verdict) => held.filter((one) => one.verdict === verdict).length;
  const [missed, open] = [count("missed"), count("open")];
  return [
    {
      label: book.hops,
      value: String(held.length + unresolved.length),
      note: figure(`${trimmed(lengthM / 1000, 0)} km`),
    },
    { label: book.sites, value: String(design.sites.size) },
    { label: `${book.objectives}: ${book.verdicts.met}`, value: String(count("met")) },
    {
      label: `${book.objectives}: ${book.verdicts.missed}`,
      value: String(missed),
      ...(missed > 0 && { tone: "error" as const }),
    },
    {
      label: `${book.objectives}: ${book.verdicts.open}`,
      value: String(open),
      ...(open > 0 && { tone: "warning" as const }),
    },
  ];
}

function mapSection(design: Design, held: readonly HeldHop[], { book }: SheetWords): Section[] {
  const { network: words, legend: said } = book;
  const sites = [...design.sites.values()];
  const lines = held.map(({ hop, result, verdict }) => ({
    name: hop.name,
    sites: result.ends,
    tone: TONES[verdict ?? "none"],
    state: hop.state,
  }));
  const isPlanned = [...sites, ...lines].some(({ state }) => state?.word === "planned");
  const legend = (["met", "missed", "open", "none"] as const)
    .filter((one) => held.some(({ verdict }) => (verdict ?? "none") === one))
    .map((one) => ({ kind: `hop ${TONES[one]}`, words: said[one] }));
  const telling = {
    words,
    legend: [...legend, ...(isPlanned ? [{ kind: "hop good planned", words: said.planned }] : [])],
  };
  const drawn = drawNetwork(sites, lines, WIDE_MAP, telling);
  if (!drawn) return [];
  const narrow =
    sites.length > MOST_ON_PHONE ? undefined : drawNetwork(sites, lines, NARROW_MAP, telling)?.svg;
  const alt = book.mapAlt(sites.length, lines.length);
  return [
    { id: "map", title: book.map, blocks: [{ type: "figure", name: "map", svg: drawn.svg, narrow, alt }] },
  ];
}

/** The map of a large network is a picture of its shape, and not worth a second one. */
const MOST_ON_PHONE = 400;

function topologySection(design: Design, held: readonly HeldHop[], { book }: SheetWords): Section[] {
  const drawn = drawTopology([...design.sites.values()], held, book.network);
  if (!drawn) return [];
  const { svg, narrow } = drawn;
  const alt = book.topologyAlt(design.sites.size, held.length);
  const caption = book.topologyTold;
  return [
    {
      id: "topology",
      title: book.topology,
      blocks: [{ type: "figure", name: "topology", svg, narrow, alt, caption }],
    },
  ];
}

function hopsSection(held: readonly HeldHop[], unresolved: readonly string[], words: SheetWords): Section {
  const { book } = words;
  const { columns } = book;
  const right = "right" as const;
  const blocks: Block[] = [
    {
      type: "table",
      searched: true,
      sorted: true,
      columns: [
        { title: columns.hop },
        { title: columns.sites },
        { title: columns.lengthKm, align: right },
        { title: columns.sendsGhz, align: right },
        { title: columns.radio },
        { title: columns.antennas },
        { title: columns.azimuths, align: right },
        { title: columns.capacityMbit, align: right },
        { title: columns.arrangement },
        { title: columns.objective },
      ],
      rows: held.map((one) => hopRow(one, words)),
    },
    { type: "paragraph", text: { text: book.hopsTold, mark: "quiet" } },
  ];
  if (unresolved.length > 0)
    blocks.push({ type: "paragraph", text: book.notEvaluated(unresolved.join(", ")) });
  return { id: "hops", title: book.hops, blocks };
}

function hopRow({ hop, result, verdict }: HeldHop, words: SheetWords): TableRow {
  const { figure } = words;
  const each = (of: (end: HopEnd, at: 0 | 1) => string | undefined) => {
    const both = ([0, 1] as const).map((at) => of(hop.ends[at], at) ?? NONE);
    return both.every((one) => one === NONE) ? NONE : both.join(" / ");
  };
  const title = ({ site }: HopEnd) => site.title ?? site.name;
  const titles = hop.ends.map(title).join(" – ");
  const carried = capacityOf(hop, result);
  return {
    find: [hop.title, ...hop.ends.map(({ site }) => site.name)].filter((one) => one !== undefined).join(" "),
    cells: [
      hop.name,
      titles,
      result.distanceM === undefined ? NONE : figure(fixed(result.distanceM / 1000, 2)),
      figure(each(({ transmitFrequencyHz: hz }) => (hz === undefined ? undefined : gigahertz(hz)))),
      hop.radio?.title ?? hop.radio?.name ?? NONE,
      same(each(({ antenna }) => antenna?.name)),
      figure(each((_, at) => (result.geometry ? fixed(result.geometry[at].azimuthDeg, 2) : undefined))),
      carried === undefined ? NONE : `${figure(trimmed(carried.bps / 1e6, 1))}, ${carried.modulation}`,
      arrangementWords(hop, words.book.network),
      verdictMark(verdict, words),
    ],
  };
}

/** What both ends have alike stands once. */
function same(both: string): string {
  const [one, other] = both.split(" / ");
  return one === other ? one! : both;
}

/** What both directions carry in the mode that the objective is held against, and which one that is. */
function capacityOf(hop: Hop, { directions }: HopResult) {
  const rates = directions.map(({ modes }) => {
    const mode = judgedMode(hop, modes);
    return mode?.bitRateBps === undefined ? undefined : { bps: mode.bitRateBps, modulation: mode.modulation };
  });
  const all = rates.filter((rate) => rate !== undefined);
  if (all.length === 0 || all.length < rates.length) return undefined;
  const least = all.reduce((a, b) => (b.bps < a.bps ? b : a));
  return { bps: least.bps * carriers(hop.arrangement.name), modulation: least.modulation };
}

function sitesSection({ design, errors, words }: BookInput, held: readonly HeldHop[]): Section {
  const { book, figure } = words;
  const at = new Map<string, number>();
  for (const { result } of held) for (const site of result.ends) at.set(site, (at.get(site) ?? 0) + 1);
  const row = ({ name, title, position, structure }: Site): TableRow => ({
    cells: [
      name,
      title ?? NONE,
      position === undefined ? NONE : figure(formatDms(position.latitudeDeg, "latitude")),
      position === undefined ? NONE : figure(formatDms(position.longitudeDeg, "longitude")),
      structure === undefined ? NONE : words.installation.mast.structure(structure.kind),
      structure === undefined ? NONE : figure(trimmed(structure.heightM, 1)),
      String(at.get(name) ?? 0),
    ],
  });
  const { site } = book;
  return {
    id: "sites",
    title: book.sites,
    blocks: [
      {
        type: "table",
        columns: [
          { title: site.name },
          { title: site.title },
          { title: site.latitude, align: "right" },
          { title: site.longitude, align: "right" },
          { title: site.structure },
          { title: site.heightM, align: "right" },
          { title: site.hops, align: "right" },
        ],
        rows: [...design.sites.values()].map(row),
      },
      ...errorBlocks("site", errors.ofSites, words),
    ],
  };
}
