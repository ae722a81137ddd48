/** What a change does to the network, as a page: for a merge request, a browser or the editor. */

import { spanWords } from "../../design/state.js";
import { ESTIMATE_REMARK } from "../../format/bounds.js";
import type { Block, KeyFigure, Page, Section, TableRow } from "../../report/document/document.js";
import { type ChangeCounts, type ChangeSet, type HopChange, isEmpty } from "../change-set.js";
import { isWorse } from "../findings.js";
import { goesOn } from "../times.js";
import { demandSection } from "./demands-section.js";
import { findingItems } from "./finding-items.js";
import { hopBlocks, hopHeading } from "./hop-section.js";
import type { ChangePageInput, TimeInput } from "./input.js";
import { licenceSection, ordersSection } from "./orders-section.js";
import { portsSection } from "./ports-section.js";
import { nowAndBefore, sharedSections } from "./shared-section.js";
import { affectedTable, rowsOfDecisions } from "./tables.js";

/** Beyond these the reader wants a table. */
const MOST_SECTIONS = 40;

export function changePage(input: ChangePageInput): Page {
  const { name, title, subtitle, times, inWords = false, colophon } = input;
  const same = times.every(({ changes }) => isEmpty(changes));
  return {
    name,
    title,
    subtitle: inWords && !same ? `${subtitle}: ${summaryOf(input)}.` : subtitle,
    keyFigures: inWords || same ? [] : keyFigures(times.map(({ changes }) => changes)),
    sections: [
      ...(same ? [section("none", "No change", [paragraph(NOTHING)])] : []),
      ...times.flatMap((time, index) => timeSections(time, index, input)),
      ...notesSection(input),
    ],
    colophon,
  };
}

/** Of what is so at all times the heading says nothing of it. */
function timeSections(
  time: ChangePageInput["times"][number],
  index: number,
  input: ChangePageInput,
): Section[] {
  const when = spanWords(time.span);
  const drawing = goesOn(time) ? input.drawing : undefined;
  const sections = changeSections({ changes: time.changes, where: time.where, drawing });
  if (when === "") return sections;
  return sections.map(({ id, title, blocks }) =>
    section(`time-${index + 1}-${id}`, `${capital(when)}: ${title}`, blocks),
  );
}

function changeSections(input: TimeInput): Section[] {
  const { changes } = input;
  const alone = changes.hops.filter(standsAlone).slice(0, MOST_SECTIONS);
  const others = changes.hops.filter((hop) => !alone.includes(hop));
  return [
    ...demandSection(input),
    ...alone.map((hop) => section(`hop-${hop.hop}`, hopHeading(hop), hopBlocks(hop, input))),
    ...affectedSection(others, alone, input),
    ...sharedSections(input),
    ...siteSection(input),
    ...findingSection(input),
    ...ordersSection(changes.orders),
    ...portsSection(changes.ports),
    ...licenceSection(changes.licences),
  ];
}

function capital(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}

function notesSection({ notes, times }: ChangePageInput): Section[] {
  const hops = times.flatMap(({ changes }) => changes.hops);
  const estimated = hops.some(({ figures }) => figures.some((figure) => figure.estimated));
  const items = estimated ? [...notes, ESTIMATE_REMARK] : notes;
  return items.length === 0 ? [] : [section("remarks", "Remarks", [{ type: "list", items }])];
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

/** What the sides differ in, of one design or of several together. */
export function keyFigures(all: readonly ChangeSet[]): KeyFigure[] {
  const { worse, demandsWorse, edited, affected, newFindings, newRemarks, ...came } = totalOf(all);
  const { fixedFindings, fixedRemarks, newlyAccepted } = came;
  const errors = all.some(({ hops, sites, shared, findings }) =>
    [...hops, ...sites, ...shared]
      .flatMap((change) => change.findings)
      .concat(findings)
      .some((change) => isWorse(change) && change.severity === "error"),
  );
  const notes = (...told: readonly (readonly [number, string])[]) =>
    told.flatMap(([count, words]) => (count > 0 ? `${count} ${words}` : [])).join(", ") || undefined;
  return [
    { label: "Hops worse", value: String(worse), tone: worse > 0 ? "warning" : undefined },
    ...(demandsWorse > 0
      ? [{ label: "Demands worse", value: String(demandsWorse), tone: "warning" as const }]
      : []),
    {
      label: "Hops edited",
      value: String(edited),
      note: notes([came.added, "added"], [came.removed, "removed"], [came.renamed, "renamed"]),
    },
    { label: "Changed without an edit", value: String(affected) },
    {
      label: "New findings",
      value: String(newFindings),
      tone: errors ? "error" : newFindings > 0 ? "warning" : undefined,
      note: notes([newlyAccepted, "newly accepted"], [newRemarks, newRemarks > 1 ? "remarks" : "remark"]),
    },
    {
      label: "Fixed findings",
      value: String(fixedFindings),
      tone: fixedFindings > 0 ? "good" : undefined,
      note: notes([fixedRemarks, fixedRemarks > 1 ? "remarks gone" : "remark gone"]),
    },
  ];
}

function totalOf(all: readonly ChangeSet[]): ChangeCounts {
  return all
    .map(({ counts }) => counts)
    .reduce((sum, counts) => {
      const keys = Object.keys(counts) as (keyof ChangeCounts)[];
      return Object.fromEntries(keys.map((key) => [key, sum[key] + counts[key]])) as unknown as ChangeCounts;
    }, NO_COUNTS);
}

const NO_COUNTS: ChangeCounts = {
  added: 0,
  removed: 0,
  renamed: 0,
  edited: 0,
  affected: 0,
  worse: 0,
  demandsWorse: 0,
  newFindings: 0,
  fixedFindings: 0,
  newlyAccepted: 0,
  newRemarks: 0,
  fixedRemarks: 0,
};

/** The same in words: `3 hops worse, 1 edited; 2 new findings; for a time 1 hop worse`. */
function summaryOf({ times }: ChangePageInput): string {
  const worse = times.some(({ changes }) => changes.worse);
  const [last, passing] = [times.filter(goesOn), times.filter((time) => !goesOn(time))].map((some) =>
    totalOf(some.map(({ changes }) => changes)),
  ) as [ChangeCounts, ChangeCounts];
  const { worse: hops, demandsWorse, newFindings, fixedFindings } = passing;
  const before = summaryOfCounts({ ...NO_COUNTS, worse: hops, demandsWorse, newFindings, fixedFindings });
  const parts = [
    worse ? "" : "nothing got worse",
    summaryOfCounts(last),
    before === "" ? "" : `for a time ${before}`,
  ];
  return parts.filter((part) => part !== "").join("; ") || "changes for a time alone";
}

function summaryOfCounts(counts: ChangeCounts): string {
  const { worse, edited, affected, added, removed, renamed, ...found } = counts;
  const told = (...parts: readonly (readonly [number, string, string?])[]) =>
    parts
      .flatMap(([count, one, many]) => (count > 0 ? `${count} ${count > 1 ? (many ?? one) : one}` : []))
      .join(", ");
  const hops = told(
    [worse, "hop worse", "hops worse"],
    [added, "added"],
    [removed, "removed"],
    [renamed, "renamed"],
    [edited, "edited"],
    [affected, "changed without an edit"],
  );
  const findings = told(
    [found.newFindings, "new finding", "new findings"],
    [found.newlyAccepted, "newly accepted"],
    [found.fixedFindings, "fixed"],
    [found.newRemarks, "new remark", "new remarks"],
    [found.fixedRemarks, "remark gone", "remarks gone"],
  );
  const demands = told([found.demandsWorse, "demand worse", "demands worse"]);
  return [hops, demands, findings].filter((part) => part !== "").join("; ");
}

function affectedSection(
  hops: readonly HopChange[],
  before: readonly HopChange[],
  input: TimeInput,
): Section[] {
  if (hops.length === 0) return [];
  const items = hops.flatMap(({ hop, findings }) => findingItems(findings, input, hop));
  const more = before.some(({ edited }) => !edited) ? "Other hops" : "Hops";
  const title = hops.some(({ edited }) => edited) ? "Other hops that changed" : `${more} that nobody edited`;
  return [
    section("affected", title, [
      affectedTable(hops),
      ...(items.length > 0 ? [{ type: "list", items } as const] : []),
    ]),
  ];
}

function siteSection(input: TimeInput): Section[] {
  const { sites } = input.changes;
  if (sites.length === 0) return [];
  const rows = sites.flatMap(({ site, status, renamedFrom, decisions }): TableRow[] => {
    if (status === "changed" && decisions.length === 0) return [];
    const named = nowAndBefore(site, renamedFrom);
    if (status === "added" || status === "removed") {
      const [state] = decisions;
      return [{ cells: [named, state?.was ?? "", state?.is === undefined ? status : `added, ${state.is}`] }];
    }
    if (decisions.length === 0) return [{ cells: [named, "", status] }];
    return rowsOfDecisions(decisions).map(({ cells }, index) => ({
      cells: [index === 0 ? named : "", cells[1]!, cells[2]!],
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

function findingSection(input: TimeInput): Section[] {
  const items = findingItems(input.changes.findings, input);
  return items.length === 0 ? [] : [section("findings", "Other findings", [{ type: "list", items }])];
}
