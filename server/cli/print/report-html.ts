import { printHtml } from "../../../shared/report/document/html.js";
import type { ReportFormat } from "./format.js";

export const reportHtml: ReportFormat = {
  name: "html",
  what: "pages for a browser, each a file of its own with its drawings",
  print: (page) => [printHtml(page)],
};
