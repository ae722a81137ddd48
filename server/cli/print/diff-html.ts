import { printHtml } from "../../../shared/report/document/html.js";
import { changePages, together } from "../../report/diff-pages.js";
import type { DiffFormat } from "./format.js";

export const diffHtml: DiffFormat = {
  name: "html",
  what: "a page with drawings, to keep or to send",
  print: async (compared) => {
    const pages = await changePages(compared, { drawings: true });
    return [printHtml(together(pages, compared)).text];
  },
};
