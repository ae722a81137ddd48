/** The sheets of hops of one judged design, as pages: what a host has at hand is put together for `shared/report/sheets`. */
import type { Page } from "../../shared/report/document/document.js";
import { acceptanceSheet } from "../../shared/report/sheets/acceptance.js";
import { lineUpSheet } from "../../shared/report/sheets/line-up.js";
import { ENGLISH } from "../../shared/report/sheets/words/english.js";
import { GERMAN } from "../../shared/report/sheets/words/german.js";
import type { JudgedDesign } from "../findings/judged-folder.js";
import { findingsAbout } from "../report/design-pages.js";
import { fileNames } from "../report/names.js";
import { VERSION } from "../version.js";

export const HOP_SHEETS = ["line-up", "acceptance"] as const;
export type HopSheet = (typeof HOP_SHEETS)[number];

export const LANGUAGES = { en: ENGLISH, de: GERMAN } as const;

export interface SheetOptions {
  readonly sheets: readonly HopSheet[];
  /** Of this hop alone. */
  readonly hop?: string;
  readonly language: keyof typeof LANGUAGES;
  /** Of the design's sheets, empty or ending in `/`. */
  readonly folder: string;
}

/** Hop by hop, in the order of the text; hops that are not evaluated have none. */
export function* hopSheets(design: JudgedDesign, options: SheetOptions): Iterable<Page> {
  const { session, model, title } = design;
  const words = LANGUAGES[options.language];
  const names = fileNames(model.names("hop"));
  for (const name of model.names("hop")) {
    const judged = session.result(name);
    if (judged === undefined || (options.hop !== undefined && options.hop !== name)) continue;
    const { hop, result } = judged;
    const pair = session.inNetwork(name)?.pair;
    const colophon = words.common.colophon(VERSION, words.day(session.acceptanceDay));
    for (const sheet of options.sheets) {
      const base = {
        hop,
        result,
        pair,
        magneticDay: model.design().magneticDay,
        ...(title !== undefined && { design: title }),
        name: `${options.folder}${sheet}/${names.get(name)}`,
        words,
        colophon,
      };
      yield sheet === "line-up"
        ? lineUpSheet(base)
        : acceptanceSheet({ ...base, findings: findingsAbout(design, name) });
    }
  }
}
