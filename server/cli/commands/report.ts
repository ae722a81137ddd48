import { resolve } from "node:path";
import type { Page } from "../../../shared/report/document/document.js";
import { listPage } from "../../../shared/report/pages/list-page.js";
import { runningTitle, withRunning } from "../../../shared/report/sheets/running.js";
import { ENGLISH } from "../../../shared/report/sheets/words/english.js";
import { EXIT } from "../../command-error.js";
import { type JudgedDesign, type JudgedFolder, judgeFolder } from "../../findings/judged-folder.js";
import { noSuchHop, notEvaluated, notStanding } from "../../findings/one-hop.js";
import { shownFrom } from "../../findings/paths.js";
import { countsOf } from "../../findings/summary.js";
import { cataloguePages } from "../../report/catalogue-pages.js";
import {
  calibrationIn,
  demandsOf,
  overviewOf,
  pageOfHop,
  pagesOfGone,
  pagesOfSites,
  partsOf,
} from "../../report/design-pages.js";
import type { PageOptions } from "../../report/page-material.js";
import { plannedOf } from "../../report/planned.js";
import { FORMATS, formatNamed } from "../formats.js";
import { designFolders, refusedFolders } from "../out-folders.js";
import { safe } from "../print/safe.js";
import { tellUnreadable } from "../print/unreadable.js";
import { progressLine } from "../progress.js";
import { ReportRecord } from "../report-record.js";
import { note } from "../streams.js";
import { toldRevision } from "../told-revision.js";
import { paperNamed, WrittenPages } from "../written-pages.js";

export interface ReportOptions {
  readonly out: string;
  /** Names of formats. */
  readonly only: readonly string[];
  readonly hop?: string;
  readonly paper?: string;
  readonly today: string;
  /** The day that is looked at; left out: all that is planned stands. */
  readonly on?: string;
}

/**
 * Writes the pages and takes away those of earlier runs that are no more.
 * @returns the exit status, as of `check`: 1 when the design has errors, which the pages tell
 * @throws CommandError when the folder to write into is a design's own
 */
export async function report(folder: string, options: ReportOptions): Promise<number> {
  const paper = paperNamed(options.paper);
  const progress = progressLine();
  const judged = await judgeFolder(folder, {
    today: options.today,
    pace: progress.pace,
    only: options.hop,
    times: { on: options.on },
  });
  progress.end();
  const unreadable = tellUnreadable(judged);
  const refuse = refusedFolders(judged, options.out);
  refuse(options.out);
  const record = new ReportRecord(options.out);
  const formats = options.only.map((name) => formatNamed(FORMATS.report, name));
  const written = new WrittenPages(options.out, {
    formats,
    paper,
    record,
    progress,
    refuse,
  });
  for await (const page of options.hop === undefined
    ? allPages(judged, options)
    : pagesOfHop(judged, options.hop, options))
    await written.write(page);
  written.tell();
  // One hop's page says nothing of the others.
  const changed = options.hop === undefined ? record.removeOthers() : [];
  for (const path of changed)
    note(`${safe(path)} was changed by hand since an earlier report and is left there`);
  const errors = judged.designs.reduce((sum, design) => sum + countsOf(design).errors, 0);
  if (errors > 0) note(`${errors} error${errors === 1 ? "" : "s"} in the design, told on the pages`);
  note(
    `${written.pages} page${written.pages === 1 ? "" : "s"} written to ${safe(shownFrom(process.cwd(), resolve(options.out)))}`,
  );
  if (unreadable) return EXIT.unreadable;
  return errors > 0 ? EXIT.findings : EXIT.clean;
}

/** Page by page, so that a large network's report is never whole in memory. */
async function* allPages(judged: JudgedFolder, { today }: ReportOptions): AsyncIterable<Page> {
  const { root, designs } = judged;
  const [only] = designs;
  if (designs.length === 1 && only) {
    yield* inRevision(only, judged, designPages(only, { folder: "", today }));
    return;
  }
  const folders = designFolders(root, designs);
  const rows = designs.map((design) => ({
    title: design.title ?? shownFrom(root, design.root),
    folder: shownFrom(root, design.root),
    page: `${folders.get(design)}index`,
    counts: countsOf(design),
  }));
  yield listPage({ name: "index", rows });
  for (const design of designs) {
    const options = { folder: folders.get(design)!, today, up: { text: "All designs", page: "index" } };
    yield* inRevision(design, judged, designPages(design, options));
  }
}

/** With the design's name and revision for each printed side. */
async function* inRevision(
  design: JudgedDesign,
  judged: JudgedFolder,
  pages: AsyncIterable<Page>,
): AsyncIterable<Page> {
  const revision = await toldRevision(design, judged);
  const running = runningTitle(design.title, revision, ENGLISH);
  for await (const page of pages) yield withRunning(page, running, revision);
}

async function* designPages(design: JudgedDesign, options: PageOptions): AsyncIterable<Page> {
  const catalogue = [...cataloguePages(design, options)];
  yield overviewOf(design, { ...options, catalogue: catalogue[0]?.name });
  const parts = partsOf(design, options, await plannedOf(design));
  if (parts) yield parts;
  const carried = demandsOf(design, options);
  if (carried) yield carried;
  const measured = calibrationIn(design, options);
  if (measured) yield measured;
  yield* catalogue;
  yield* pagesOfSites(design, options);
  for (const name of design.model.names("hop")) {
    const page = await pageOfHop(design, name, options);
    if (page) yield page;
  }
  yield* pagesOfGone(design, options);
}

async function* pagesOfHop(
  judged: JudgedFolder,
  name: string,
  { today, on }: ReportOptions,
): AsyncIterable<Page> {
  const { root, designs } = judged;
  const holding = designs.filter(({ model }) => model.declarations(`hop ${name}`).length > 0);
  if (holding.length === 0) throw noSuchHop(name, designs);
  const folders = designFolders(root, holding);
  for (const design of holding) {
    const folder = holding.length === 1 ? "" : folders.get(design)!;
    const page = await pageOfHop(design, name, { folder, today, alone: true });
    if (page) {
      const revision = await toldRevision(design, judged);
      yield withRunning(page, runningTitle(design.title, revision, ENGLISH), revision);
    } else if (!design.model.standsHop(name)) throw notStanding(name, on);
    else throw notEvaluated(name);
  }
}
