/** All sheets that there are, by kind, and the languages that they speak. */
import type { Page } from "../../shared/report/document/document.js";
import { runningTitle, withRunning } from "../../shared/report/sheets/running.js";
import { templated } from "../../shared/report/sheets/template.js";
import { ENGLISH } from "../../shared/report/sheets/words/english.js";
import { GERMAN } from "../../shared/report/sheets/words/german.js";
import type { JudgedDesign } from "../findings/judged-folder.js";
import { BOOK_SHEETS } from "./book-sheets.js";
import { DESIGN_SHEETS } from "./design-sheets.js";
import { HOP_SHEETS } from "./hop-sheets.js";
import { ownFields } from "./own-fields.js";
import type { SheetFamily, SheetOptions } from "./sheet-family.js";
import { SITE_SHEETS } from "./site-sheets.js";

const FAMILIES: readonly SheetFamily[] = [HOP_SHEETS, SITE_SHEETS, DESIGN_SHEETS, BOOK_SHEETS];

export const SHEET_KINDS: readonly string[] = FAMILIES.flatMap(({ kinds }) => kinds);

export const SHEET_LANGUAGES = { en: ENGLISH, de: GERMAN } as const;

/** @param options.kinds those asked for, of {@link SHEET_KINDS} */
export function* sheetsOf(design: JudgedDesign, options: SheetOptions): Iterable<Page> {
  const running = runningTitle(design.title, options.revision, options.words);
  for (const family of FAMILIES) {
    const kinds = family.kinds.filter((kind) => options.kinds.includes(kind));
    if (kinds.length === 0 || !isWanted(family, options)) continue;
    const ownOf = ownFields(design.model, family.about);
    for (const page of family.pages(design, { ...options, kinds })) {
      const [kind = "", file = ""] = page.name.slice(options.folder.length).split("/");
      yield withRunning(templated(page, { ...options, kind, own: ownOf(file) }), running, options.revision);
    }
  }
}

/** Whoever asks for one hop or one site wants no sheet of anything else. */
function isWanted({ about }: SheetFamily, { hop, site }: SheetOptions): boolean {
  if (hop !== undefined && about !== "hop") return false;
  return site === undefined || about === "site";
}
