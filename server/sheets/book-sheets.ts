/** The book of one judged design, a page. */
import { heldHop, licencesFor } from "../../shared/licence/held.js";
import { networkBook } from "../../shared/report/sheets/book.js";
import { VERSION } from "../version.js";
import { errorsOfBook } from "./sheet-errors.js";
import type { SheetFamily } from "./sheet-family.js";

export const BOOK_SHEETS: SheetFamily = {
  kinds: ["book"],
  *pages(judged, { hop, words, folder }) {
    if (hop !== undefined) return;
    const { session, model } = judged;
    const design = model.design();
    const names = model.names("hop").filter((name) => model.standsHop(name));
    const hops = names.flatMap((name) => session.result(name) ?? []);
    const day = session.acceptanceDay;
    yield networkBook({
      design,
      hops,
      unresolved: names.filter((name) => session.result(name) === undefined),
      demands: session.demands(),
      licensed: hops.map(({ hop: one, result }) => heldHop(one, result, licencesFor(design, one.name), day)),
      errors: errorsOfBook(judged),
      day,
      name: `${folder}book`,
      words,
      colophon: words.common.colophon(VERSION, words.day(day)),
    });
  },
};
