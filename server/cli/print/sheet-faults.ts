/** What is wrong with the templates of a design's sheets, a line each, as `check` finds it. */

import { sheetLogo } from "../../../shared/rules/sheets/sheet-logo.js";
import { sheetSection } from "../../../shared/rules/sheets/sheet-section.js";
import { sheetsDoubled } from "../../../shared/rules/sheets/sheets-doubled.js";
import type { JudgedDesign } from "../../findings/judged-folder.js";
import { shownFrom } from "../../findings/paths.js";
import { safe } from "./safe.js";

const RULES: ReadonlySet<string> = new Set([sheetLogo, sheetSection, sheetsDoubled].map(({ id }) => id));

/** `error[sheet-logo]: the logo lost.png is not shown: ... (net/sheets.hop:4:8)` */
export function* sheetFaults({ findings }: Pick<JudgedDesign, "findings">, cwd: string): Iterable<string> {
  for (const { rule, severity, message, place } of findings) {
    if (!RULES.has(rule)) continue;
    const where =
      place === undefined ? "" : ` (${safe(shownFrom(cwd, place.file))}:${place.line}:${place.column})`;
    yield `${severity}[${rule}]: ${safe(message)}${where}`;
  }
}
