/** The sheets of hops of one judged design, as pages: what a host has at hand is put together for `shared/report/sheets`. */
import { acceptanceSheet } from "../../shared/report/sheets/acceptance.js";
import { lineUpSheet } from "../../shared/report/sheets/line-up.js";
import { magneticDayOf } from "../../shared/report/sheets/running.js";
import { fileNames } from "../report/names.js";
import { findingsAbout } from "../report/page-material.js";
import { VERSION } from "../version.js";
import type { SheetFamily } from "./sheet-family.js";

/** Hop by hop, in the order of the text; hops that are not evaluated have none. */
export const HOP_SHEETS: SheetFamily = {
  about: "hop",
  kinds: ["line-up", "acceptance"],
  *pages(design, { kinds, hop: only, words, folder, revision }) {
    const { session, model, title } = design;
    const names = fileNames(model.names("hop"));
    const magneticDay = magneticDayOf(model.design().magneticDay, revision);
    for (const name of model.names("hop")) {
      const judged = session.result(name);
      if (judged === undefined || (only !== undefined && only !== name)) continue;
      const { hop, result } = judged;
      const pair = session.inNetwork(name)?.pair;
      const colophon = words.common.colophon(VERSION, words.day(session.acceptanceDay));
      for (const kind of kinds) {
        const base = {
          hop,
          result,
          pair,
          magneticDay,
          findings: findingsAbout(design, name),
          ...(title !== undefined && { design: title }),
          name: `${folder}${kind}/${names.get(name)}`,
          words,
          colophon,
        };
        yield kind === "line-up" ? lineUpSheet(base) : acceptanceSheet(base);
      }
    }
  },
};
