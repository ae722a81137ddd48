/** The overview of a network: every hop in a row, the map, and what is wrong. */

import type { Design, Hop } from "../../design/design.js";
import { stateWords } from "../../design/state.js";
import type { ClearanceResult } from "../../evaluate/account/path-result.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { availabilityBounded, ESTIMATE_REMARK } from "../../format/bounds.js";
import { dbm, decibels, fresnelAsked, gigahertz, kilometres, trimmed } from "../../format/numbers.js";
import { arrangementWords } from "../../radio/arrangement-pairs.js";
import { weakerDirection } from "../../rules/judged-modes.js";
import { clearanceAgainst } from "../clearance-against.js";
import type {
  Inline,
  KeyFigure,
  MarkedText,
  Page,
  ReportFinding,
  Section,
  Span,
  TableRow,
  Tone,
} from "../document/document.js";
import { PAGE_WORDS } from "../document/page-words.js";
import { drawNetwork, NARROW_MAP } from "../draw/network-map.js";
import { drawTopology } from "../draw/system/topology/topology.js";
import { gravest, gravestFirst, worstClearance } from "./figures.js";
import { type NetworkLicence, networkLicenceSection } from "./licences.js";

interface OverviewHop {
  readonly hop: Hop;
  readonly result: HopResult;
  readonly findings: readonly ReportFinding[];
  /** ISO date of the day on which it stands no more, though the others do; its figures are those before. */
  readonly until?: string;
  /** ISO dates on which parts of it are exchanged. */
  readonly changesOn?: readonly string[];
  /** Its own page; undefined: it has none in this report. */
  readonly page?: string;
}

export interface OverviewInput {
  readonly name: string;
  readonly design: Design;
  readonly hops: readonly OverviewHop[];
  /** Findings on no single hop: text, network, catalogue. */
  readonly others: readonly ReportFinding[];
  /** Hops of the text that have no result yet. */
  readonly unresolved: readonly string[];
  /** The time that figures are of, in words; undefined where nothing in the design has a state. */
  readonly shows?: string;
  readonly up?: { readonly text: string; readonly page: string };
  /** What the network carries, and the page that tells it. */
  readonly demands?: { readonly words: string; readonly page: string };
  /** Readings against what was promised, and the page that tells them. */
  readonly measured?: { readonly words: string; readonly page: string };
  /** Page of the parts list, where there is one. */
  readonly parts?: string;
  /** Page of the catalogue, where there is one. */
  readonly catalogue?: string;
  /** Sites with a page of their own. */
  readonly sites?: readonly { readonly name: string; readonly title?: string; readonly page: string }[];
  /** Licences that the design states, and the day of today. */
  readonly licences?: { readonly all: readonly NetworkLicence[]; readonly today: string };
  readonly colophon: string;
}

export function overviewPage(input: OverviewInput): Page {
  const { name, design, hops, others, unresolved, up, colophon } = input;
  const findings = [
    ...others,
    ...hops.flatMap((one) => one.findings.map((finding) => ({ ...finding, hop: one.hop.name }))),
  ];
  return {
    name,
    title: design.title ?? "Network without a title",
    subtitle: "Overview of the hops",
    up: up && { text: up.text, to: { page: up.page } },
    keyFigures: counts(input, findings),
    sections: [
      ...mapSection(design, hops),
      ...diagramSection(design, hops),
      hopsSection(hops, unresolved, input.shows),
      ...(input.licences
        ? networkLicenceSection(input.licences.all, input.licences.today, design.licenceTerms?.noticeDays)
        : []),
      ...demandsLink(input.demands),
      ...measuredLink(input.measured),
      ...sitesSection(input.sites ?? []),
      ...partsSection(input.parts, input.catalogue),
      ...findingsSections(findings),
    ],
    colophon,
  };
}

function counts(
  { design, hops, unresolved, others }: OverviewInput,
  findings: readonly ReportFinding[],
): KeyFigure[] {
  const countIn = (all: readonly ReportFinding[], severity: ReportFinding["severity"]) =>
    all.filter((finding) => finding.severity === severity && !finding.accepted).length;
  const count = (severity: ReportFinding["severity"]) => countIn(findings, severity);
  // What is not of a hop stands neither in the map nor in the table of hops.
  const beside = (severity: ReportFinding["severity"]) => {
    const number = countIn(others, severity);
    return number === 0 ? {} : { note: `${number} not of hops: at the end of the page` };
  };
  const lengthM = hops.reduce((sum, { result }) => sum + (result.distanceM ?? 0), 0);
  const incomplete = unresolved.length + hops.filter(({ result }) => result.directions.length < 2).length;
  const [errors, warnings] = [count("error"), count("warning")];
  const unjudged = hops.filter(isUnjudged).length;
  const gone = hops.filter(({ until }) => until !== undefined).length;
  return [
    {
      label: "Hops",
      value: String(hops.length + unresolved.length),
      note: [
        `${trimmed(lengthM / 1000, 0)} km in all`,
        ...(incomplete > 0 ? [`${incomplete} not evaluated`] : []),
        ...(gone > 0 ? [`${gone} taken down before the others stand`] : []),
        ...(unjudged > 0 ? [`${unjudged} without an objective`] : []),
      ].join(", "),
    },
    { label: "Sites", value: String(design.sites.size) },
    { label: "Errors", value: String(errors), tone: errors > 0 ? "error" : undefined, ...beside("error") },
    {
      label: "Warnings",
      value: String(warnings),
      tone: warnings > 0 ? "warning" : undefined,
      ...beside("warning"),
    },
    { label: "Accepted", value: String(findings.filter(({ accepted }) => accepted).length) },
  ];
}

/** The same without a scale: who is joined to whom, by what. */
function diagramSection(design: Design, hops: readonly OverviewHop[]): Section[] {
  const standing = hops.filter(({ until }) => until === undefined);
  const drawn = drawTopology([...design.sites.values()], standing);
  if (!drawn) return [];
  const { svg, narrow, alt } = drawn;
  const caption = "Band, capacity of the judged mode over all carriers, arrangement. Dashed: planned.";
  return [
    {
      id: "diagram",
      title: "Who is joined to whom",
      blocks: [{ type: "figure", name: "diagram", svg, narrow, alt, caption }],
    },
  ];
}

function mapSection(design: Design, hops: readonly OverviewHop[]): Section[] {
  const sites = [...design.sites.values()];
  const standing = hops.filter(({ until }) => until === undefined);
  const lines = standing.map(({ hop, result, findings }) => ({
    name: hop.name,
    sites: result.ends,
    tone: result.directions.length === 2 ? lineTone(hop, findings) : undefined,
    state: hop.state,
  }));
  const drawn = drawNetwork(sites, lines);
  if (!drawn) return [];
  const { svg, alt } = drawn;
  // The map of a large network is a picture of its shape, and not worth a second one.
  const narrow = sites.length > 400 ? undefined : drawNetwork(sites, lines, NARROW_MAP)?.svg;
  const planned = [...sites, ...hops.map(({ hop }) => hop)].some(({ state }) => state?.word === "planned");
  const caption = `${planned ? "Pale lines and hollow sites: planned. " : ""}${TONES_TOLD}`;
  return [
    {
      id: "map",
      title: "Where it lies",
      blocks: [{ type: "figure", name: "map", svg, narrow, alt, caption }],
    },
  ];
}

const TONES_TOLD =
  "Solid green: nothing found. Thick red: error. Dashed: warning. Dotted violet: accepted. Thin grey: not judged, no objective. Fine grey dots: not evaluated.";

/** Remarks alone leave a hop in order, if anything was asked of it. */
function lineTone(hop: Hop, findings: readonly ReportFinding[]): Tone {
  const tone = gravest(findings);
  if (tone !== undefined && tone !== "info") return tone;
  return hop.objective === undefined ? "unjudged" : "good";
}

/** Evaluated, and held against nothing. */
function isUnjudged({ hop, result }: OverviewHop): boolean {
  return hop.objective === undefined && result.directions.length === 2;
}

function hopsSection(
  hops: readonly OverviewHop[],
  unresolved: readonly string[],
  shows: string | undefined,
): Section {
  const stated = hops.some((one) => stateCell(one) !== "");
  return {
    id: "hops",
    title: "Hops",
    blocks: [
      {
        type: "table",
        searched: true,
        columns: [
          { title: "Hop" },
          ...(stated ? [{ title: "State" }] : []),
          { title: "Length, km", align: "right" },
          { title: "Transmits, GHz", align: "right" },
          { title: "Arrangement" },
          { title: "Level at line\u2011up, dBm", align: "right" },
          { title: "Judged mode" },
          { title: "Fade margin, dB", align: "right" },
          { title: "Availability, %", align: "right" },
          { title: "Clearance (F1)", align: "right" },
          { title: "Findings" },
        ],
        rows: hops.map((hop) => hopRow(hop, stated)),
      },
      { type: "paragraph", text: COLUMNS_TOLD },
      ...(hops.some(({ result }) => result.availability?.atLeastPercent !== undefined)
        ? [{ type: "paragraph", text: ESTIMATE_REMARK } as const]
        : []),
      ...(unresolved.length > 0
        ? [
            {
              type: "paragraph",
              text: `Not evaluated, since the text does not say enough: ${unresolved.join(", ")}.`,
            } as const,
          ]
        : []),
      ...(shows === undefined
        ? []
        : [
            {
              type: "paragraph",
              text: `Figures are those ${shows}; of a hop that is taken down before that, those of its last day.`,
            } as const,
          ]),
    ],
  };
}

const COLUMNS_TOLD =
  "Level at line-up: received in the highest mode, the lower of both directions. Fade margin and availability: of the judged mode, with the power of that mode: the lowest that carries the capacity asked for, the highest where none does, the lowest of all where the objective asks no capacity; the availability is that of propagation, both directions together.";

function demandsLink(demands: OverviewInput["demands"]): Section[] {
  if (demands === undefined) return [];
  const { words, page } = demands;
  const text = [
    `${words}. Routes, load of every hop, and what fails when something fails: `,
    { text: "demands", to: { page } },
  ];
  return [{ id: "demands", title: "Demands", blocks: [{ type: "paragraph", text }] }];
}

function measuredLink(measured: OverviewInput["measured"]): Section[] {
  if (measured === undefined) return [];
  const { words, page } = measured;
  const text = [`${words}. By band, radio and branch: `, { text: "measured against promised", to: { page } }];
  return [{ id: "measured", title: "Measured", blocks: [{ type: "paragraph", text }] }];
}

function partsSection(page: string | undefined, catalogue: string | undefined): Section[] {
  if (page === undefined) return [];
  const text = [
    "What to order, site by site, with slots, ports and loads: ",
    { text: "parts", to: { page } },
    ...(catalogue === undefined
      ? []
      : [
          ". What each radio, antenna, coupler and card is and where it fits: ",
          { text: "catalogue", to: { page: catalogue } },
        ]),
  ];
  return [{ id: "parts", title: "Parts", blocks: [{ type: "paragraph", text }] }];
}

function sitesSection(sites: NonNullable<OverviewInput["sites"]>): Section[] {
  if (sites.length === 0) return [];
  const text = sites.flatMap(({ name, title, page }, index): Span[] => [
    ...(index === 0 ? [] : [", "]),
    { text: title === undefined ? name : `${name} (${title})`, to: { page } },
  ]);
  return [
    {
      id: "sites",
      title: "Sites",
      blocks: [
        { type: "paragraph", text: "Antennas and hops, rack and faces of each site:" },
        { type: "paragraph", text },
      ],
    },
  ];
}

/** Units stand in the headings, so that ten columns fit on a page. */
function hopRow(row: OverviewHop, stated: boolean): TableRow {
  const { hop, result, findings, page } = row;
  const weaker = weakerDirection(hop, result);
  const clearance = worstClearance(result);
  const { availability: found, distanceM, directions } = result;
  const named = [hop.title, ...hop.ends.flatMap(({ site }) => [site.name, site.title])];
  return {
    find: named.filter((name) => name !== undefined).join(" "),
    cells: [
      page === undefined ? hop.name : { text: hop.name, to: { page } },
      ...(stated ? [stateCell(row)] : []),
      distanceM === undefined ? "–" : figure(kilometres(distanceM)),
      transmits(hop),
      arrangementWords(hop),
      directions.length > 0 ? figure(dbm(Math.min(...directions.map((one) => one.receivedLevelDbm)))) : "–",
      weaker?.mode.modulation ?? "–",
      weaker ? figure(decibels(weaker.mode.fadeMarginDb)) : "–",
      found ? availabilityBounded(found, found.objectivePercent).replaceAll(" %", "") : "–",
      clearance ? `${figure(clearanceAgainst(clearance))}${asked(clearance)}` : "–",
      badges(findings, isUnjudged(row)),
    ],
  };
}

function stateCell({ hop, until, changesOn = [] }: OverviewHop): string {
  const own = hop.state ? stateWords(hop.state) : until === undefined ? [] : `until ${until}`;
  const changes = changesOn.length === 0 ? [] : `changes ${changesOn.join(", ")}`;
  return [own, changes].flat().join("; ");
}

/** A quantity without its unit. */
function figure(quantity: string): string {
  return quantity.slice(0, quantity.indexOf(" "));
}

function asked({ forInformation, requiredFraction }: ClearanceResult): string {
  return forInformation ? "" : ` of ${figure(fresnelAsked(requiredFraction))}`;
}

function transmits({ ends }: Hop): string {
  const each = ends.flatMap(({ transmitFrequencyHz: hz }) => (hz === undefined ? [] : gigahertz(hz)));
  return each.length === 0 ? "–" : each.join(" / ");
}

/** How many of each kind, the gravest first. */
function badges(findings: readonly ReportFinding[], unjudged: boolean): Inline {
  const kinds: MarkedText[] = (["error", "warning", "accepted", "info"] as const).flatMap((tone) => {
    const count = findings.filter((one) => (one.accepted ? "accepted" : one.severity) === tone).length;
    return count === 0
      ? []
      : [
          {
            text: `${count === 1 ? "" : `${count} `}${plural(PAGE_WORDS.en.tones[tone], count)}`,
            mark: tone,
          },
        ];
  });
  if (unjudged) kinds.push({ text: "not judged: no objective", mark: "unjudged" });
  return kinds.length === 0 ? "" : kinds.flatMap((kind, index) => (index === 0 ? [kind] : [" ", kind]));
}

function plural(word: string, count: number): string {
  return count === 1 || word === "accepted" ? word : `${word}s`;
}

function findingsSections(findings: readonly ReportFinding[]): Section[] {
  const open = gravestFirst(findings.filter(({ accepted }) => !accepted));
  const accepted = findings.filter((finding) => finding.accepted);
  const sections: Section[] = [];
  if (open.length > 0)
    sections.push({ id: "findings", title: "Findings", blocks: [{ type: "findings", findings: open }] });
  if (accepted.length > 0) {
    sections.push({
      id: "accepted",
      title: "Accepted exceptions",
      blocks: [{ type: "findings", findings: accepted }],
    });
  }
  return sections;
}
