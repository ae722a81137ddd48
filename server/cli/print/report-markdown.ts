import { printMarkdown } from "../../../shared/report/document/markdown.js";
import type { ReportFormat } from "./format.js";

export const reportMarkdown: ReportFormat = {
  name: "markdown",
  what: "pages for a repository, the drawings beside them",
  print: printMarkdown,
};
