import type { JudgedFolder } from "../../findings/judged-folder.js";
import type { Baseline } from "../baseline.js";

/** A reader wants to see what is new. */
export function withoutOld(judged: JudgedFolder, baseline: Baseline): JudgedFolder {
  const designs = judged.designs.map((design) => ({
    ...design,
    findings: design.findings.filter((finding) => !baseline(finding)),
  }));
  return { ...judged, designs };
}
