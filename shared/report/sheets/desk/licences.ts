/** Licence schedule: all that an application, or a check of one, needs of each transmission, and what was granted. */
import { daysBetween } from "../../../design/day.js";
import type { Hop } from "../../../design/design.js";
import type { Licence } from "../../../design/licence.js";
import { ALL_BUILT } from "../../../design/state.js";
import type { HopResult } from "../../../evaluate/account/result.js";
import { bandwidth, kilometres } from "../../../format/numbers.js";
import { builtDepartures } from "../../../licence/built.js";
import type { Departure } from "../../../licence/departures.js";
import type { Held, HeldHop } from "../../../licence/held.js";
import type { Block, Inline, Page, Section, Table, TableRow } from "../../document/document.js";
import type { SheetWords } from "../words/sheet-words.js";
import { type DeskInput, deskPage, hopName, siteName, stateText } from "./desk-sheet.js";
import { grantedTables } from "./licence-granted.js";
import { placeRows, sentRows, unconfirmedPlans } from "./licence-rows.js";

interface LicensedHop {
  readonly held: HeldHop;
  readonly result?: HopResult;
}

export interface LicencesInput extends DeskInput {
  /** In the order of the text. */
  readonly hops: readonly LicensedHop[];
  /** In the order of the text; undefined: the design states none. */
  readonly licences?: readonly Licence[];
  /** ISO date. */
  readonly day: string;
}

export function licencesSheet(input: LicencesInput): Page {
  const { hops, words } = input;
  const sending = hops.filter(({ held }) => held.held.length > 0);
  const silent = hops.filter(({ held }) => held.held.length === 0);
  return deskPage(input, words.desk.licences.title, [
    summary(input),
    ...sending.map((one) => hopSection(one, words)),
    ...(silent.length === 0 ? [] : [openSection(silent, words)]),
  ]);
}

function summary({ hops, licences, day, words }: LicencesInput): Section {
  const { licences: said } = words.desk;
  const shownDay = day === ALL_BUILT ? "–" : words.day(day);
  const blocks: Block[] = [{ type: "paragraph", text: said.told(shownDay) }];
  if (licences === undefined || licences.length === 0)
    blocks.push({ type: "paragraph", text: said.noneStated });
  else {
    const granted = new Map(
      hops.flatMap(({ held: { hop, held } }) =>
        held.map((one) => [one.licence, { hop, held: one }] as const),
      ),
    );
    const rows = licences
      .toSorted((a, b) => compare(a.until ?? "~", b.until ?? "~"))
      .map((licence) => licenceRow(licence, granted.get(licence), day, words));
    const columns = [said.number, words.desk.hop, said.from, said.lastDay, said.left, said.stands];
    blocks.push({ type: "table", columns: columns.map((title) => ({ title })), rows });
    const without = hops.flatMap((one) => one.held.held.filter(({ licence }) => licence === undefined));
    if (without.length > 0) blocks.push({ type: "paragraph", text: said.without(without.length) });
  }
  blocks.push({ type: "paragraph", text: { text: said.usualLetters, mark: "quiet" } });
  blocks.push({ type: "paragraph", text: { text: said.powerTold, mark: "quiet" } });
  return { id: "licences", title: said.summary, blocks };
}

interface Granted {
  readonly hop: Hop;
  readonly held: Held;
}

function licenceRow(
  licence: Licence,
  granted: Granted | undefined,
  day: string,
  words: SheetWords,
): TableRow {
  const { licences: said } = words.desk;
  return {
    cells: [
      licence.number,
      licence.hop,
      licence.site,
      licence.until === undefined ? "–" : words.day(licence.until),
      left(licence, day, words),
      granted === undefined ? { text: said.notSent, mark: "warning" } : standsText(granted, words),
    ],
  };
}

/** What the plan does not keep; where it does, what was built otherwise. */
function standsText({ hop, held }: Granted, words: SheetWords): Inline {
  const { licences: said } = words.desk;
  const [planned, built] = [held.departures, builtDepartures(hop, held)];
  const named = (those: readonly Departure[]) => those.map(({ figure }) => said.figures[figure]).join(", ");
  const told = [
    ...(planned.length === 0 ? [] : [named(planned)]),
    ...(built.length === 0 ? [] : [said.asBuilt(named(built))]),
  ];
  return told.length === 0 ? said.held : [{ text: said.differs, mark: "error" }, ` ${told.join("; ")}`];
}

function left({ until }: Licence, day: string, { desk }: SheetWords): Inline {
  const { licences: said } = desk;
  if (until === undefined) return said.noEnd;
  if (until < day) return { text: said.ended, mark: "error" };
  return said.daysLeft(daysBetween(day, until));
}

/** More transmissions than these stand in a table for each end. */
const MOST_COLUMNS = 4;

function hopSection({ held, result }: LicensedHop, words: SheetWords): Section {
  const { hop, held: all } = held;
  const about = [
    result?.distanceM === undefined ? undefined : words.figure(kilometres(result.distanceM)),
    hop.arrangement.name,
    stateText(hop, words),
    hop.modes.length === 0 ? undefined : modesText(hop, words),
  ].filter((word) => word !== undefined && word !== "");
  const groups = all.length <= MOST_COLUMNS ? [all] : [...Map.groupBy(all, ({ sent }) => sent.site).values()];
  return {
    id: `hop-${hop.name}`,
    title: hopName(hop),
    together: true,
    blocks: [
      { type: "paragraph", text: about.join(", ") },
      placeTable(hop, all, words),
      ...groups.map((those) => sentTable(hop, those, all, result, words)),
      ...grantedTables(hop, all, words),
      ...notes(all, words),
    ],
  };
}

/** All of them, lowest first, with their widths where there are several. */
function modesText({ modes }: Hop, { desk, figure }: SheetWords): string {
  const widths = [...Map.groupBy(modes, ({ bandwidthHz }) => bandwidthHz)];
  const named = widths.map(([hz, those]) => {
    const names = [...new Set(those.map(({ modulation }) => modulation))].join(", ");
    return widths.length > 1 ? `${figure(bandwidth(hz))}: ${names}` : names;
  });
  return `${desk.licences.modes}: ${named.join("; ")}`;
}

function placeTable(hop: Hop, all: readonly Held[], words: SheetWords): Table {
  return {
    type: "table",
    columns: [
      { title: words.desk.licences.place },
      ...hop.ends.map(({ site }) => ({ title: siteName(site) })),
    ],
    rows: placeRows(hop, all, words),
  };
}

function sentTable(
  hop: Hop,
  those: readonly Held[],
  all: readonly Held[],
  result: HopResult | undefined,
  words: SheetWords,
): Table {
  const several = new Set(all.map(({ sent }) => sent.carrier)).size > 1;
  return {
    type: "table",
    columns: [
      { title: words.desk.licences.transmission },
      ...those.map(({ sent }) => ({
        title: several ? `${sent.site}, ${words.carrier(sent.carrier)}` : sent.site,
      })),
    ],
    rows: sentRows({ hop, those, all, result, words }),
  };
}

/** What the star means. */
function notes(all: readonly Held[], words: SheetWords): Block[] {
  return unconfirmedPlans(all, words).map((standing) => ({
    type: "paragraph",
    text: [
      "* ",
      { text: words.desk.notConfirmed, mark: "unjudged" },
      ` ${standing} ${words.desk.standingNeeds}`,
    ],
  }));
}

function openSection(silent: readonly LicensedHop[], words: SheetWords): Section {
  const { licences: said } = words.desk;
  return {
    id: "open",
    title: said.open,
    blocks: [
      { type: "paragraph", text: said.openTold },
      { type: "list", items: silent.map(({ held: { hop } }) => hopName(hop)) },
    ],
  };
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
