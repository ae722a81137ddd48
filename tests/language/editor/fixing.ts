/** Asks for the fixes of a finding in a small design, each tried on a fresh copy. */

import type { QuickFix } from "../../../language/editor/fixes/fix.js";
import { findingFixes } from "../../../language/editor/quick-fixes.js";
import { applyEdits } from "../../../language/editor/text-range.js";
import { DesignModel } from "../../../language/model/design-model.js";
import { readSource } from "../../../language/model/source-file.js";
import type { Finding } from "../../../shared/design/finding.js";
import { HOP, judge, PREAMBLE } from "./judged.js";

export const FILE = "/design/main.hop";

export function modelOf(text: string): DesignModel {
  const model = new DesignModel("/design");
  model.setFile(readSource(FILE, text));
  return model;
}

/** Fixes of the first open finding of a rule; each attempt is made on a fresh copy. */
export async function fixesOf(
  text: string,
  rule: string,
): Promise<{
  finding: Finding;
  fixes: readonly QuickFix[];
  applied: (fix: QuickFix) => string;
  attempts: number;
}> {
  const model = modelOf(text);
  const { results, findings } = judge(model);
  const finding = findings.find((one) => one.rule === rule && !one.accepted);
  if (!finding) throw new Error(`no ${rule} among ${findings.map((one) => one.rule).join(", ")}`);
  const hop = /^hop (.*?)( \/ |$)/.exec(finding.at)?.[1];
  let attempts = 0;
  const applied = ({ edits }: Pick<QuickFix, "edits">) => applyEdits(text, edits);
  const fixes = await findingFixes(
    { model, finding, judged: hop === undefined ? undefined : results(hop), before: findings },
    (edits) => {
      attempts++;
      return judge(modelOf(applied({ edits })));
    },
  );
  return { finding, fixes, applied, attempts };
}

export const withHop = (change: (hop: string) => string) => `${PREAMBLE}\n${change(HOP)}`;
export const titles = (fixes: readonly QuickFix[]) => fixes.map(({ title }) => title);
