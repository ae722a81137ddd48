/** Lists against a design: what they add, what they change, and what of them could not be taken. */
import { withoutSteering } from "../format/steering.js";
import { type Compared, commonShift, compareRow } from "./compared.js";
import type { EndRow, ListedRows, SiteRow, Source, Told } from "./facts.js";
import { type BookedEnd, type BookedHop, filled, HopBook } from "./hop-book.js";
import type { Known } from "./known.js";
import { leftOver } from "./left-over.js";
import { readingChanges } from "./line-up-rows.js";
import { type Paired, type Placed, pairDirections } from "./pairing.js";
import { PartBook } from "./part-book.js";
import { type BookedSite, SiteBook } from "./site-book.js";
import type { ListedChange, NewHop, NewPart, NewSite } from "./state.js";
import { endStatements, hopStatements, siteStatements } from "./state-facts.js";
import { textOf } from "./table.js";

export interface ImportPlan {
  readonly newSites: readonly NewSite[];
  readonly newHops: readonly NewHop[];
  readonly newParts: readonly NewPart[];
  readonly changes: readonly ListedChange[];
  /** Sites and hops of the design that rows speak of. */
  readonly matched: { readonly sites: number; readonly hops: number };
  readonly transmissions: {
    readonly pairs: number;
    readonly single: readonly Source[];
    readonly repeated: number;
  };
  readonly compared: Pick<Compared, "azimuths" | "azimuthsOff" | "greatestOffDeg">;
  readonly told: readonly Told[];
  /** Of the lists as a whole. */
  readonly remarks: readonly string[];
}

export function planImport(rows: ListedRows, known: Known): ImportPlan {
  const told: Told[] = [...rows.told];
  const compared: Compared = { azimuths: 0, azimuthsOff: 0, greatestOffDeg: 0, told };
  const sites = new SiteBook(known, told);
  for (const row of rows.sites) tellRepeated(row, sites.siteOf(row), told);
  const hops = new HopBook(known, sites, told);
  hops.addHops(rows.hops);
  const placed = rows.transmissions.flatMap((row) => hops.placed(row));
  const pairing = pairDirections(placed.map(({ row, a, b }): Placed => ({ row, a: a.name, b: b.name })));
  const byName = new Map(sites.sites.map((site) => [site.name, site]));
  for (const { row, a, b } of placed) compareRow(row, a, b, compared);
  hops.addPairs(pairing.pairs, (name) => byName.get(name)!);
  hops.addEnds(rows.ends);
  for (const row of rows.hops) {
    const [a, b] =
      row.ends?.map(({ site }) => (site.name === undefined ? undefined : sites.named(site.name))) ?? [];
    if (a && b) compareRow(row, a, b, compared);
  }
  tellPairing(pairing.pairs, pairing.repeated, told);
  const readings = readingChanges(rows.readings, known.design.hops, told);
  const shift = commonShift(sites.sites);
  const parts = new PartBook(known.stocked);
  const stated = hops.hops.map((hop) => hopStated(hop, parts, known, told));
  // Sites that only single transmissions speak of belong to the register, not to the design.
  const ends = new Set(hops.hops.flatMap((hop) => hop.ends.map(({ site }) => site)));
  const listed = new Set(rows.sites.map(({ from }) => from));
  const wanted = (site: BookedSite) => ends.has(site) || site.rows.some(({ from }) => listed.has(from));
  return {
    newSites: sites.sites.filter((site) => !site.known && wanted(site)).map((site) => newSite(site)),
    newHops: stated.flatMap(({ added }) => added ?? []),
    newParts: parts.parts,
    changes: [...sites.sites.flatMap(siteChanges), ...stated.flatMap(({ changes }) => changes), ...readings],
    matched: {
      sites: sites.sites.filter(({ known: site, rows: said }) => site && said.length > 0).length,
      hops: hops.hops.filter(({ known: hop }) => hop).length,
    },
    transmissions: {
      pairs: pairing.pairs.length,
      single: pairing.single.map(({ row }) => row.from),
      repeated: pairing.repeated.length,
    },
    compared,
    told: inOrder(told, rows),
    remarks: [...(shift === undefined ? [] : [shift]), ...leftOver(hops.hops)],
  };
}

/** The first that says something counts, so that a second row may be at odds with it unseen. */
function tellRepeated(row: SiteRow, site: BookedSite | undefined, told: Told[]): void {
  const [first] = site?.rows ?? [];
  if (site && first !== row)
    told.push({
      from: row.from,
      what: "remark",
      reason: `${site.name} stands in line ${first!.from.line} already; of this row counts what that one leaves open`,
    });
}

/** By list, in the order in which they were read, and by line. */
function inOrder(told: readonly Told[], rows: ListedRows): readonly Told[] {
  const lists = new Map<string, number>();
  for (const { from } of [
    ...rows.told,
    ...rows.sites,
    ...rows.hops,
    ...rows.transmissions,
    ...rows.ends,
    ...rows.readings,
  ])
    if (!lists.has(from.sheet)) lists.set(from.sheet, lists.size);
  const order = ({ from }: Told) => lists.get(from.sheet) ?? lists.size;
  return told.toSorted((a, b) => order(a) - order(b) || a.from.line - b.from.line);
}

function tellPairing(
  pairs: readonly Paired[],
  repeated: readonly { readonly row: Placed; readonly of: Placed }[],
  told: Told[],
): void {
  for (const { go, back, crossed } of pairs)
    if (crossed)
      told.push({
        from: go.row.from,
        what: "remark",
        reason: `and line ${back.row.from.line} are two directions on different polarizations: the hop states none`,
      });
  for (const { row, of } of repeated)
    told.push({ from: row.row.from, what: "row", reason: `says the same as line ${of.row.from.line}` });
}

/** What the rows of a site say together: the first that says something counts. */
function saidOf({ rows }: BookedSite): SiteRow {
  return rows.reduce((said, row) => filled(said, row));
}

function newSite(site: BookedSite): NewSite {
  const said = saidOf(site);
  const title = said.title ?? (said.name !== undefined && said.name !== site.name ? said.name : undefined);
  return { name: site.name, title, facts: siteStatements(said) };
}

function siteChanges(site: BookedSite): ListedChange[] {
  const { known, rows } = site;
  if (!known || rows.length === 0) return [];
  const said = saidOf(site);
  const at = `site ${known.name}`;
  return [
    ...titleChange(at, said.title, known.title),
    ...siteStatements(said, known).map((statement) => ({ at, statement })),
  ];
}

/** A text as it comes back from a list: signs that steer are marks there, and blanks are single. */
function listedText(text: string): string {
  return textOf(withoutSteering(text, (sign) => (/[\t\n\r]/.test(sign) ? sign : "\ufffd")));
}

function titleChange(at: string, title: string | undefined, was: string | undefined): ListedChange[] {
  if (title === undefined || title === was || title === at.split(" ")[1]) return [];
  if (was !== undefined && listedText(was) === title) return [];
  return [{ at, statement: { word: "", args: [{ name: "title", text: title, changed: true }] } }];
}

function hopStated(
  hop: BookedHop,
  parts: PartBook,
  { objectives }: Known,
  told: Told[],
): { readonly added?: NewHop; readonly changes: readonly ListedChange[] } {
  const { facts, known } = hop;
  const asked = facts.objective;
  const objective = objectives.find((name) => name.toLowerCase() === asked?.toLowerCase());
  if (asked !== undefined && objective === undefined)
    told.push({
      from: facts.from,
      what: "cell",
      reason: `no objective is called ${asked}; declare it, and import again`,
    });
  const radio = facts.radio ?? hop.ends[0].facts.radio ?? hop.ends[1].facts.radio;
  const chosen = { objective, radio: radio === undefined ? undefined : parts.radio(radio, facts) };
  const hasChannel = facts.channel !== undefined || known?.channel !== undefined;
  const ends = hop.ends.map((end, i) => ({
    site: end.site.name,
    facts: endStated(end, parts, hasChannel, known?.ends[i as 0 | 1]),
  }));
  if (!known)
    return {
      added: { name: hop.name, title: facts.title, facts: hopStatements(facts, chosen), ends },
      changes: [],
    };
  const at = `hop ${known.name}`;
  return {
    changes: [
      ...titleChange(at, facts.title, known.title),
      ...hopStatements(facts, chosen, known).map((statement) => ({ at, statement })),
      ...ends.flatMap(({ site, facts: said }) =>
        said.map((statement) => ({ at: `${at} / ${site}`, statement })),
      ),
    ],
  };
}

function endStated(
  { facts }: BookedEnd,
  parts: PartBook,
  hasChannel: boolean,
  known: Parameters<typeof endStatements>[3],
) {
  const hz = facts.frequency?.value;
  const antenna = parts.antenna(facts as EndRow, hz);
  return endStatements(
    facts,
    {
      antenna,
      diversityAntenna: parts.diversityAntenna(facts as EndRow, antenna ?? known?.antenna?.name, hz),
      coupler: facts.coupler === undefined ? undefined : parts.part("coupler", facts.coupler),
      feeder: facts.feeder === undefined ? undefined : parts.part("feeder", facts.feeder),
    },
    hasChannel,
    known,
  );
}
