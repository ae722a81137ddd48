/** All formats by the command that prints in them; the first of each is taken where none is named. */
import { CommandError } from "../command-error.js";
import { channelsJson } from "./print/channels-json.js";
import { channelsText } from "./print/channels-text.js";
import { demandsJson } from "./print/demands-json.js";
import { demandsText } from "./print/demands-text.js";
import { diffHtml } from "./print/diff-html.js";
import { diffJson } from "./print/diff-json.js";
import { diffMarkdown } from "./print/diff-markdown.js";
import { explainJson } from "./print/explain-json.js";
import { explainText } from "./print/explain-text.js";
import type { Format } from "./print/format.js";
import { checkGithub } from "./print/github.js";
import { historyJson } from "./print/history-json.js";
import { historyText } from "./print/history-text.js";
import { checkJson } from "./print/json.js";
import { checkJunit } from "./print/junit.js";
import { checkLines } from "./print/lines.js";
import { listCsv } from "./print/list-csv.js";
import { listGeoJson } from "./print/list-geojson.js";
import { listJson } from "./print/list-json.js";
import { listKml } from "./print/list-kml.js";
import { listXlsx } from "./print/list-xlsx.js";
import { profileCsv } from "./print/profile-csv.js";
import { profileSvg } from "./print/profile-svg.js";
import { profileText } from "./print/profile-text.js";
import { reportHtml } from "./print/report-html.js";
import { reportMarkdown } from "./print/report-markdown.js";
import { reportPdf } from "./print/report-pdf.js";
import { checkSarif } from "./print/sarif.js";
import { checkText } from "./print/text.js";

export const FORMATS = {
  check: [checkText, checkLines, checkJson, checkSarif, checkJunit, checkGithub],
  list: [listCsv, listXlsx, listJson, listGeoJson, listKml],
  report: [reportHtml, reportMarkdown, reportPdf],
  sheets: [reportHtml, reportMarkdown, reportPdf],
  diff: [diffMarkdown, diffHtml, diffJson],
  history: [historyText, historyJson],
  profile: [profileText, profileCsv, profileSvg],
  explain: [explainText, explainJson],
  channels: [channelsText, channelsJson],
  demands: [demandsText, demandsJson],
} as const;

export type FormatCommand = keyof typeof FORMATS;

export function hasFormats(command: string): command is FormatCommand {
  return Object.hasOwn(FORMATS, command);
}

/** @throws CommandError with the names that there are */
export function formatNamed<F extends Pick<Format<never, unknown>, "name">>(
  formats: readonly F[],
  name: string,
): F {
  const found = formats.find((format) => format.name === name);
  if (found) return found;
  throw new CommandError(`--format ${name}: choose from ${formats.map((format) => format.name).join(", ")}`);
}
