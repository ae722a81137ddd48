import { shownFile } from "../../others/file-names.js";
import { exampleHop } from "../example-preamble.js";
import type { NetworkRule } from "../rule.js";

export const sheetLogo: NetworkRule = {
  scope: "network",
  id: "sheet-logo",
  severity: "error",
  title: "The logo of sheets must be a picture in the design's folder",
  checks:
    "Whether the file is there, within the folder of the design, a PNG or JPEG by its first bytes, whole, of 512 kB and 4000 dots a side at most.",
  why: "Sheets go out without the logo otherwise. A drawing that can hold scripts is never taken, and no file from elsewhere.",
  fix: "Put a PNG or JPEG of the logo into the design's folder and name it.",
  source: "common practice",
  good: `sheets DESK {\n  company "Eskerfold Networks"\n}\n\n${exampleHop()}`,
  bad: `sheets DESK {\n  logo "lost.png"\n}\n\n${exampleHop()}`,
  check({ design, files, report }) {
    for (const { at, logo } of design.sheets ?? []) {
      const read = logo && files.logos.get(logo.file);
      if (read === undefined || !("unusable" in read)) continue;
      report({
        at: `${at} / logo`,
        message: `the logo ${shownFile(logo!.file)} is not shown: ${read.unusable}`,
      });
    }
  },
};
