/** Every fix that is offered for a design, applied to its text and judged anew: what went and what came. */

import type { QuickFix } from "../../language/editor/fixes/fix.js";
import { findingFixes, textFixes } from "../../language/editor/quick-fixes.js";
import { applyEdits } from "../../language/editor/text-range.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import type { Finding } from "../../shared/design/finding.js";
import { judge } from "../language/editor/judged.js";
import { exampleGround, exampleInterference } from "../rules/example-design.js";

const FILE = "/example/example.hop";

interface Told {
  readonly rule: string;
  readonly severity: string;
  readonly at: string;
  readonly message: string;
}

export interface Applied {
  readonly fix: QuickFix;
  /** Rule that it was offered for, and how often that is found before and after. */
  readonly rule: string;
  readonly before: number;
  readonly after: number;
  /** Errors that were not there before. */
  readonly came: readonly Told[];
  readonly text: string;
}

interface Judged {
  readonly model: DesignModel;
  readonly findings: readonly Finding[];
  readonly told: readonly Told[];
  readonly results: ReturnType<typeof judge>["results"];
  readonly interference: ReturnType<typeof judge>["interference"];
}

function judged(text: string): Judged {
  const model = new DesignModel("/example");
  model.setFile(readSource(FILE, text));
  const { results, findings, interference } = judge(model, exampleGround, exampleInterference);
  const problems = model.problemsOf(FILE).map((one) => ({ ...one, at: "text" }));
  const open = findings.filter(({ accepted }) => accepted === undefined);
  return { model, findings, told: [...problems, ...open], results, interference };
}

/** Fixes of what is found by a rule of the engine. */
export async function fixesOfRule(text: string, rule: string): Promise<readonly Applied[]> {
  const was = judged(text);
  const applied: Applied[] = [];
  for (const finding of was.findings.filter((one) => one.rule === rule && one.accepted === undefined)) {
    const hop = /^hop (.*?)( \/ |$)/.exec(finding.at)?.[1];
    const fixes = await findingFixes(
      {
        model: was.model,
        finding,
        judged: hop === undefined ? undefined : was.results(hop),
        before: was.findings,
        interference: was.interference,
      },
      (edits) => judged(applyEdits(text, edits)),
    );
    applied.push(...fixes.map((fix) => outcome(text, was, rule, fix)));
  }
  return applied;
}

/** Fixes of what is wrong with the text by itself. */
export function fixesOfText(text: string, rule: string): readonly Applied[] {
  const was = judged(text);
  return textFixes(was.model, FILE, { start: 0, end: text.length })
    .filter((fix) => fix.rule === rule)
    .map((fix) => outcome(text, was, rule, fix));
}

function outcome(text: string, was: Judged, rule: string, fix: QuickFix): Applied {
  const fixed = applyEdits(text, fix.edits);
  const is = judged(fixed);
  const count = ({ told }: Judged) => told.filter((one) => one.rule === rule).length;
  const errors = ({ told }: Judged) => told.filter(({ severity }) => severity === "error");
  const known = new Map<string, number>();
  for (const one of errors(was)) known.set(keyOf(one), (known.get(keyOf(one)) ?? 0) + 1);
  const came = errors(is).filter((one) => {
    const left = known.get(keyOf(one)) ?? 0;
    known.set(keyOf(one), left - 1);
    return left <= 0;
  });
  return { fix, rule, before: count(was), after: count(is), came, text: fixed };
}

/** What moves from one end of its hop to the other is the same. */
function keyOf({ rule, at }: Told): string {
  return `${rule} ${at.split(" / ")[0]}`;
}
