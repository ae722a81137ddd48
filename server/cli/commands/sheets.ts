/** `sheets`: papers for people outside of the design team, each a page of its own. */
import { resolve } from "node:path";
import { sitePlans } from "../../../shared/equipment/site-plan.js";
import { CommandError, EXIT } from "../../command-error.js";
import { type JudgedDesign, judgeFolder } from "../../findings/judged-folder.js";
import { noSuchHop, notEvaluated, notStanding } from "../../findings/one-hop.js";
import { noSuchSite } from "../../findings/one-site.js";
import { shownFrom } from "../../findings/paths.js";
import { countsOf } from "../../findings/summary.js";
import { mustHaveTemplate, templateOf } from "../../sheets/choose-template.js";
import type { SheetOptions } from "../../sheets/sheet-family.js";
import { SHEET_KINDS, SHEET_LANGUAGES, sheetsOf } from "../../sheets/sheets.js";
import { FORMATS, formatNamed } from "../formats.js";
import { designFolders, refusedFolders } from "../out-folders.js";
import { safe } from "../print/safe.js";
import { sheetFaults } from "../print/sheet-faults.js";
import { tellUnreadable } from "../print/unreadable.js";
import { progressLine } from "../progress.js";
import { ReportRecord } from "../report-record.js";
import { note } from "../streams.js";
import { toldRevision } from "../told-revision.js";
import { paperNamed, WrittenPages } from "../written-pages.js";

export interface SheetsOptions {
  readonly out: string;
  readonly format: string;
  /** Kinds; empty: all. */
  readonly sheet: readonly string[];
  readonly hop?: string;
  readonly site?: string;
  /** Undefined: that of the template, else English. */
  readonly language?: string;
  /** Undefined: the only one that a design states. */
  readonly template?: string;
  readonly paper?: string;
  readonly today: string;
  readonly on?: string;
}

/** @returns the exit status, as of `report` */
export async function sheets(folder: string, options: SheetsOptions): Promise<number> {
  const format = formatNamed(FORMATS.sheets, options.format);
  const kinds = kindsOf(options.sheet);
  const { language } = options;
  if (language !== undefined && !isLanguage(language))
    throw new CommandError(`--language ${language}: choose from ${Object.keys(SHEET_LANGUAGES).join(", ")}`);
  const paper = paperNamed(options.paper);
  const progress = progressLine();
  const { hop, site, today, on } = options;
  if (hop !== undefined && site !== undefined) throw new CommandError("--hop and --site: name one of them");
  const judged = await judgeFolder(folder, { today, pace: progress.pace, only: hop, times: { on } });
  progress.end();
  const unreadable = tellUnreadable(judged);
  const refuse = refusedFolders(judged, options.out);
  refuse(options.out);
  const { designs } = judged;
  if (hop !== undefined) mustHaveSheets(designs, hop, on);
  if (site !== undefined) mustHaveSite(designs, site);
  mustHaveTemplate(designs, options.template);
  const folders = designFolders(judged.root, designs);
  const record = new ReportRecord(options.out);
  const written = new WrittenPages(options.out, { formats: [format], paper, record, progress, refuse });
  for (const design of designs) {
    const within = designs.length === 1 ? "" : folders.get(design)!;
    const revision = await toldRevision(design, judged);
    for (const fault of sheetFaults(design, process.cwd())) note(fault);
    const chosen = await chosenFor(design, options.template);
    const words = SHEET_LANGUAGES[language ?? chosen.template?.language ?? "en"];
    const made = options.sheet.length > 0 ? kinds : (chosen.template?.kinds ?? kinds);
    for (const page of sheetsOf(design, {
      kinds: made,
      hop,
      site,
      words,
      folder: within,
      revision,
      ...chosen,
    }))
      await written.write(page);
  }
  written.tell();
  // Sheets of one hop, of one site or of one kind say nothing of the others.
  const isAll = hop === undefined && site === undefined && options.sheet.length === 0;
  for (const path of isAll ? record.removeOthers() : [])
    note(`${safe(path)} was changed by hand since an earlier run and is left there`);
  const errors = designs.reduce((sum, design) => sum + countsOf(design).errors, 0);
  if (errors > 0)
    note(
      `${errors} error${errors === 1 ? "" : "s"} in the design, told on the sheets of what they are about; hopwright check tells them all`,
    );
  note(
    `${written.pages} sheet${written.pages === 1 ? "" : "s"} written to ${safe(shownFrom(process.cwd(), resolve(options.out)))}`,
  );
  if (unreadable) return EXIT.unreadable;
  return errors > 0 ? EXIT.findings : EXIT.clean;
}

/** The template with its logo, as far as that can be shown: why not is told by a finding. */
async function chosenFor(
  design: JudgedDesign,
  name: string | undefined,
): Promise<Pick<SheetOptions, "template" | "logo">> {
  const template = templateOf(design, name);
  if (template === undefined) {
    if ((design.model.lookup.sheets() ?? []).length > 0)
      note("several templates are stated and none is taken: name one with --template");
    return {};
  }
  const { logos } = await design.session.readListed();
  const logo = template.logo && logos.get(template.logo.file);
  return { template, ...(logo && !("unusable" in logo) && { logo }) };
}

function kindsOf(asked: readonly string[]): readonly string[] {
  const wrong = asked.find((one) => !SHEET_KINDS.includes(one));
  if (wrong !== undefined) throw new CommandError(`--sheet ${wrong}: choose from ${SHEET_KINDS.join(", ")}`);
  return asked.length === 0 ? SHEET_KINDS : SHEET_KINDS.filter((one) => asked.includes(one));
}

function isLanguage(language: string): language is keyof typeof SHEET_LANGUAGES {
  return Object.hasOwn(SHEET_LANGUAGES, language);
}

function mustHaveSheets(
  designs: Awaited<ReturnType<typeof judgeFolder>>["designs"],
  hop: string,
  on: string | undefined,
): void {
  const holding = designs.filter(({ model }) => model.declarations(`hop ${hop}`).length > 0);
  if (holding.length === 0) throw noSuchHop(hop, designs);
  if (holding.some(({ session }) => session.result(hop) !== undefined)) return;
  if (holding.every(({ model }) => !model.standsHop(hop))) throw notStanding(hop, on);
  throw notEvaluated(hop);
}

function mustHaveSite(designs: readonly JudgedDesign[], site: string): void {
  const holding = designs.filter(({ model }) => model.declarations(`site ${site}`).length > 0);
  if (holding.length === 0)
    throw noSuchSite(
      site,
      designs.map(({ model }) => model),
    );
  if (!holding.some(({ model }) => sitePlans(model.design()).has(site)))
    throw new CommandError(
      `${site}: no hop ends there and no equipment is stated: there is nothing to build`,
    );
}
