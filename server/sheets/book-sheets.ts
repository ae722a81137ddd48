/** The book of one judged design, a page. */
import { networkBook } from "../../shared/report/sheets/book.js";
import { VERSION } from "../version.js";
import type { SheetFamily } from "./sheet-family.js";

export const BOOK_SHEETS: SheetFamily = {
  kinds: ["book"],
  *pages({ session, model }, { hop, words, folder }) {
    if (hop !== undefined) return;
    const names = model.names("hop").filter((name) => model.standsHop(name));
    yield networkBook({
      design: model.design(),
      hops: names.flatMap((name) => session.result(name) ?? []),
      unresolved: names.filter((name) => session.result(name) === undefined),
      demands: session.demands(),
      name: `${folder}book`,
      words,
      colophon: words.common.colophon(VERSION, words.day(session.acceptanceDay)),
    });
  },
};
