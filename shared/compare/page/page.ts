/** What a change does to the network, as a page: for a merge request, a browser or the editor. */
import type { Block, Figure, KeyFigure, Page, Section, TableRow } from "../../report/document/document.js";
import { type ChangeSet, type HopChange, isEmpty } from "../change-set.js";
import { type FindingChange, isWorse } from "../findings.js";
import { findingItems } from "./finding-items.js";
import { hopBlocks, hopHeading } from "./hop-section.js";
import { affectedTable, rowsOfDecisions } from "./tables.js";

export interface ChangePageInput {
  readonly name: string;
  readonly title: string;
  readonly subtitle: string;
  readonly changes: ChangeSet;
  /** What the comparison leaves out or takes as it is. */
  readonly notes: readonly string[];
  /** Where a finding stands in the text. */
  where?(change: FindingChange): string | undefined;
  /** Both profiles over each other, where the printer shows drawings. */
  drawing?(change: HopChange): Figure | undefined;
  readonly colophon: string;
}

/** Beyond these the reader wants a table. */
const MOST_SECTIONS = 40;

export function changePage(input: ChangePageInput): Page {
  const { name, title, subtitle, changes, colophon } = input;
  const alone = changes.hops.filter(standsAlone).slice(0, MOST_SECTIONS);
  const others = changes.hops.filter((hop) => !alone.includes(hop));
  return {
    name,
    title,
    subtitle,
    keyFigures: isEmpty(changes) ? [] : keyFigures(changes),
    sections: [
      ...(isEmpty(changes) ? [section("none", "No change", [paragraph(NOTHING)])] : []),
      ...alone.map((hop) => section(`hop-${hop.hop}`, hopHeading(hop), hopBlocks(hop, input))),
      ...affectedSection(others, input),
      ...sharedSection(input),
      ...siteSection(input),
      ...findingSection(input),
      ...ordersSection(changes),
      ...licenceSection(changes),
      ...(input.notes.length > 0
        ? [section("notes", "Notes", [{ type: "list", items: input.notes }] as const)]
        : []),
    ],
    colophon,
  };
}

/** What somebody decided, and what somebody must mend; other hops are a row of a table each. */
function standsAlone({ edited, findings }: HopChange): boolean {
  return edited || findings.some(isWorse);
}

const NOTHING = "No decision, no figure and no finding differs.";

function section(id: string, title: string, blocks: readonly Block[]): Section {
  return { id, title, blocks };
}

function paragraph(text: string): Block {
  return { type: "paragraph", text };
}

function keyFigures({ counts }: ChangeSet): KeyFigure[] {
  const { added, removed, renamed, edited, affected, worse, newFindings, fixedFindings, newlyAccepted } =
    counts;
  const came = [
    [added, "added"],
    [removed, "removed"],
    [renamed, "renamed"],
  ] as const;
  const note = came.flatMap(([count, word]) => (count > 0 ? `${count} ${word}` : [])).join(", ");
  const accepted = newlyAccepted > 0 ? `${newlyAccepted} newly accepted` : undefined;
  return [
    { label: "Hops worse", value: String(worse), tone: worse > 0 ? "warning" : "good" },
    { label: "Hops edited", value: String(edited), note: note === "" ? undefined : note },
    { label: "Changed without an edit", value: String(affected) },
    {
      label: "New findings",
      value: String(newFindings),
      tone: newFindings > 0 ? "error" : undefined,
      note: accepted,
    },
    { label: "Fixed findings", value: String(fixedFindings) },
  ];
}

function affectedSection(hops: readonly HopChange[], input: ChangePageInput): Section[] {
  if (hops.length === 0) return [];
  const items = hops.flatMap(({ hop, findings }) => findingItems(findings, input, hop));
  const title = hops.some(({ edited }) => edited) ? "Other hops that changed" : "Hops that nobody edited";
  return [
    section("affected", title, [
      affectedTable(hops),
      ...(items.length > 0 ? [{ type: "list", items } as const] : []),
    ]),
  ];
}

function sharedSection(input: ChangePageInput): Section[] {
  const { shared } = input.changes;
  if (shared.length === 0) return [];
  const rows = shared.flatMap(({ entry, status, renamedFrom, decisions, usedBy, affects }): TableRow[] => {
    const reach = `${usedBy}, ${affects} of them with consequences`;
    const said = status === "renamed" ? `renamed, was ${renamedFrom}` : status;
    if (decisions.length === 0) return [{ cells: [entry, status === "changed" ? "" : said, "", reach] }];
    return rowsOfDecisions(decisions).map(({ cells }, index) => ({
      cells: [index === 0 ? entry : "", cells[1]!, cells[2]!, index === 0 ? reach : ""],
    }));
  });
  const items = shared.flatMap(({ findings, entry }) => findingItems(findings, input, entry));
  const columns = [{ title: "What" }, { title: "Was" }, { title: "Is" }, { title: "Hops" }];
  return [
    section("shared", "What hops share", [
      { type: "table", columns, rows },
      ...(items.length > 0 ? [{ type: "list", items } as const] : []),
    ]),
  ];
}

function siteSection(input: ChangePageInput): Section[] {
  const { sites } = input.changes;
  if (sites.length === 0) return [];
  const rows = sites.flatMap(({ site, status, renamedFrom, decisions }): TableRow[] => {
    if (status === "changed" && decisions.length === 0) return [];
    const said = status === "renamed" ? `renamed, was ${renamedFrom}` : status;
    if (decisions.length === 0) return [{ cells: [site, status === "changed" ? "" : said, ""] }];
    return rowsOfDecisions(decisions).map(({ cells }, index) => ({
      cells: [index === 0 ? site : "", cells[1]!, cells[2]!],
    }));
  });
  const items = sites.flatMap(({ findings, site, because }) =>
    findingItems(findings, input, because.length > 0 ? `${site}, because of ${because.join(", ")}` : site),
  );
  const columns = [{ title: "Site" }, { title: "Was" }, { title: "Is" }];
  return [
    section("sites", "Sites", [
      ...(rows.length > 0 ? [{ type: "table", columns, rows } as const] : []),
      ...(items.length > 0 ? [{ type: "list", items } as const] : []),
    ]),
  ];
}

function findingSection(input: ChangePageInput): Section[] {
  const items = findingItems(input.changes.findings, input);
  return items.length === 0 ? [] : [section("findings", "Other findings", [{ type: "list", items }])];
}

function ordersSection({ orders }: ChangeSet): Section[] {
  if (orders.length === 0) return [];
  const amount = (count: number, unit: string) => `${Math.abs(count)}${unit === "m" ? " m" : ""}`;
  const rows = orders.map(({ part, count, unit, sites }) => {
    const shown = sites.length > 5 ? sites.slice(0, 4) : sites;
    const where = shown.map(({ site, count }) => `${site} ${count > 0 ? "+" : "-"}${amount(count, unit)}`);
    const more = sites.length > shown.length ? `, and ${sites.length - shown.length} sites more` : "";
    const action = count > 0 ? "order" : count < 0 ? "return" : "move";
    return { cells: [action, count === 0 ? "" : amount(count, unit), part, `${where.join(", ")}${more}`] };
  });
  const columns = [
    { title: "" },
    { title: "Count", align: "right" as const },
    { title: "Part" },
    { title: "Sites" },
  ];
  return [section("parts", "Parts to order and to return", [{ type: "table", columns, rows }])];
}

function licenceSection({ licences }: ChangeSet): Section[] {
  if (licences.length === 0) return [];
  const rows = licences.map(({ hop, site, action, transmission, figures }) => ({
    cells: [
      action,
      `${hop}, transmitted at ${site}`,
      transmission,
      figures.map(({ label, was, is }) => `${label} ${was ?? "unknown"} → ${is ?? "unknown"}`).join("; "),
    ],
  }));
  const columns = [{ title: "" }, { title: "Transmission" }, { title: "" }, { title: "No longer true" }];
  return [section("licences", "Licences", [{ type: "table", columns, rows }])];
}
