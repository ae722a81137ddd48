import type { SheetSection } from "../../design/sheets.js";
import { isSheetKind, SHEET_SECTIONS } from "../../report/sheets/kinds.js";
import { exampleHop } from "../example-preamble.js";
import type { NetworkRule } from "../rule.js";

export const sheetSection: NetworkRule = {
  scope: "network",
  id: "sheet-section",
  severity: "warning",
  title: "A template names sections that its sheets have",
  checks: "Of lines of a template that name a section and a kind of sheets, whether that kind has it.",
  why: "The line would do nothing, and the sheet be other than whoever wrote it thinks.",
  fix: "Name a section of the kind; the message lists them.",
  source: "common practice",
  good: `sheets DESK {\n  leave-out levels of line-up\n}\n\n${exampleHop()}`,
  bad: `sheets DESK {\n  leave-out bill of line-up\n}\n\n${exampleHop()}`,
  check({ design, report }) {
    for (const { leftOut, first } of design.sheets ?? [])
      for (const one of [...leftOut, ...first]) {
        const lacking = lackingIn(one);
        if (lacking !== undefined) report({ at: one.at, message: lacking });
      }
  },
};

function lackingIn({ section, of }: SheetSection): string | undefined {
  if (of === undefined || !isSheetKind(of)) return undefined;
  const sections: readonly string[] = SHEET_SECTIONS[of];
  if (sections.includes(section)) return undefined;
  return `sheets for ${of} have no section ${section}; they have ${sections.join(", ")}`;
}
