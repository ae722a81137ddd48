/**
 * Offers to mend a finding. Fixes of the text come with the problems of the text. Fixes of the engineering
 * are each tried on a copy and offered only if the finding vanishes and no new error takes its place;
 * they change a decision of the design and say in their title which.
 */
import type { Finding } from "../../shared/design/finding.js";
import type { InterferenceFound } from "../../shared/interference/network.js";
import { CRITERION_RULES } from "../../shared/rules/asked.js";
import { RULES } from "../../shared/rules/index.js";
import type { TextProblem } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import type { SourceFile } from "../model/source-file.js";
import { withEdits } from "../model/twin.js";
import { acceptFix } from "./fixes/accept.js";
import type { QuickFix, ToMend } from "./fixes/fix.js";
import { proposedFixes } from "./fixes/proposed.js";
import { TEXT_PROPOSALS } from "./fixes/text-proposals.js";
import { overlap, type TextEdit, type TextRange } from "./text-range.js";

/** A copy of the design that was edited, read and evaluated again. */
export interface TriedDesign {
  /** All that stand on the hops concerned, network findings included. */
  readonly findings: readonly Finding[];
  /** Undefined: it was not computed. */
  readonly interference?: InterferenceFound;
}

/** Applies the edits to a copy of the design. */
export type TryFix = (edits: readonly TextEdit[]) => TriedDesign | Promise<TriedDesign>;

/** Fixes of the text problems that touch a range of a file, each tried on the text. */
export function textFixes(model: DesignModel, path: string, range: TextRange): readonly QuickFix[] {
  const file = model.file(path);
  if (!file) return [];
  return model
    .problemsOf(path)
    .filter((problem) => overlap(problem, range))
    .flatMap((problem) => fixesOfProblem(model, file, problem));
}

/** Of each problem of a file the one fix that it has, where that leaves nothing to choose; not tried. */
export function certainTextFixes(model: DesignModel, path: string): readonly QuickFix[] {
  const file = model.file(path);
  if (!file) return [];
  return model.problemsOf(path).flatMap((problem) => {
    const proposed = proposedFor(model, file, problem);
    return proposed.length === 1 && proposed[0]!.certain ? proposed : [];
  });
}

function fixesOfProblem(model: DesignModel, file: SourceFile, problem: TextProblem): readonly QuickFix[] {
  return proposedFor(model, file, problem).filter((fix) => mendsText(model, file, problem.rule, fix));
}

function proposedFor(model: DesignModel, file: SourceFile, problem: TextProblem): readonly QuickFix[] {
  const further = TEXT_PROPOSALS[problem.rule]?.({ model, file, problem }) ?? [];
  return distinct([...ownFixes(file.path, problem), ...further]);
}

function ownFixes(file: string, { rule, fixes = [] }: TextProblem): readonly QuickFix[] {
  return fixes.map(({ title, start, end, newText, certain }) => ({
    title,
    rule,
    changesDecision: false,
    certain,
    edits: [{ file, start, end, newText }],
  }));
}

/** The words and the names may lead to the same text. */
function distinct(fixes: readonly QuickFix[]): readonly QuickFix[] {
  return [
    ...new Map(fixes.toReversed().map((fix) => [JSON.stringify(fix.edits), fix])).values(),
  ].toReversed();
}

/** Whether less of the rule is wrong with the file, and no more in all: one error may have hidden another. */
function mendsText(model: DesignModel, { path }: SourceFile, rule: string, { edits }: QuickFix): boolean {
  const count = (of: DesignModel) => {
    const errors = of.problemsOf(path).filter(({ severity }) => severity !== "info");
    return { ofRule: of.problemsOf(path).filter((one) => one.rule === rule).length, all: errors.length };
  };
  const before = count(model);
  const after = withEdits(model, edits, count);
  return after.ofRule < before.ofRule && after.all <= before.all;
}

/** More attempts than this are not made for one finding: each is an evaluation. */
const MOST_ATTEMPTS = 12;
const MOST_OFFERED = 4;
/** Of those that tell what they come to. */
const MOST_WITH_FIGURES = 3;

/** Fixes of one engineering finding, those that were tried and help; accepting it comes last. */
export async function findingFixes(toMend: ToMend, tryFix: TryFix): Promise<readonly QuickFix[]> {
  if (toMend.finding.accepted) return [];
  const proposed = proposedFixes(toMend).slice(0, MOST_ATTEMPTS);
  const rule = RULES.get(toMend.finding.rule);
  const most = rule?.comesTo ? MOST_WITH_FIGURES : MOST_OFFERED;
  const helping: QuickFix[] = [];
  for (const fix of proposed) {
    if (helping.length >= most) break;
    const { findings, interference } = await tryFix(fix.edits);
    if (!helps(toMend, findings)) continue;
    const figures = interference && rule?.comesTo?.(toMend.finding, interference);
    helping.push(figures ? { ...fix, title: `${fix.title}: ${figures}` } : fix);
  }
  const accept = acceptFix(toMend);
  // What the accepted fault brings about may well be told from then on; that is no reason to refuse.
  if (accept && vanishes(toMend, (await tryFix(accept.edits)).findings)) helping.push(accept);
  return helping;
}

/** The one fix of a finding, where it has one alone that changes no decision; not tried. */
export function certainFindingFix(toMend: Omit<ToMend, "before">): QuickFix | undefined {
  if (toMend.finding.accepted) return undefined;
  const [fix, ...others] = proposedFixes({ ...toMend, before: [] });
  return fix === undefined || others.length > 0 || fix.changesDecision ? undefined : fix;
}

/** Whether fixes of these rules brought an error that was not there, and that none of them only uncovered. */
export function bringsErrors(
  rules: ReadonlySet<string>,
  before: readonly Finding[],
  after: readonly Finding[],
): boolean {
  const known = new Set(before.filter(isOpen).flatMap(keysOf));
  return after.some(
    (one) =>
      isOpen(one) &&
      one.severity === "error" &&
      ![...rules].some((rule) => rule === one.rule || isUncoveredBy(rule, one.rule)) &&
      keysOf(one).some((key) => !known.has(key)),
  );
}

/** Findings that stay quiet behind others: mending those uncovers them, which is no fault of the fix. */
const UNCOVERED: ReadonlySet<string> = new Set([
  "availability",
  "capacity",
  "fade-margin",
  "level-below-threshold",
  "standby-level",
  "standby-margin",
]);

/** Rules about figures hide each other only where one is quiet behind the other; a hop that cannot be built hides all. */
const FIGURES: ReadonlySet<string> = new Set([...UNCOVERED, ...CRITERION_RULES, "overload"]);

/** What a hop does to others hides nothing of what it comes to itself. */
function isAboutFigures(rule: string): boolean {
  return FIGURES.has(rule) || RULES.get(rule)?.comesTo !== undefined;
}

function isQuietAfter(hidden: string, cause: string): boolean {
  const rule = RULES.get(hidden);
  // An obstruction tells what it costs.
  if (cause === "clearance" || cause === "diffraction-loss") return true;
  return rule?.scope === "hop" && (rule.quietAfter?.includes(cause) ?? false);
}

/** After these the path is another one, and what it comes to is another matter. */
const OTHER_PATH: ReadonlySet<string> = new Set(["path-length", "position-slip"]);

function helps(toMend: ToMend, after: readonly Finding[]): boolean {
  const { finding, before } = toMend;
  const known = new Set(before.filter(isOpen).flatMap(keysOf));
  const isNew = (one: Finding) =>
    one.rule !== finding.rule &&
    !isUncoveredBy(finding.rule, one.rule) &&
    keysOf(one).some((key) => !known.has(key));
  // What one hop does to another is told by a warning as well as by an error, and may come elsewhere by the same rule.
  const isHarm = (one: Finding) =>
    [finding.rule, one.rule].every((rule) => RULES.get(rule)?.comesTo) &&
    keysOf(one).some((key) => !known.has(key));
  return (
    vanishes(toMend, after) &&
    !after.some((one) => isOpen(one) && (isHarm(one) || (one.severity === "error" && isNew(one))))
  );
}

/** Whether mending a finding of one rule may show one of another that stood behind it. */
function isUncoveredBy(mended: string, rule: string): boolean {
  return (
    (UNCOVERED.has(rule) && (!isAboutFigures(mended) || isQuietAfter(rule, mended))) ||
    (OTHER_PATH.has(mended) && (rule === "not-judged" || CRITERION_RULES.has(rule)))
  );
}

/** What moves from place to place is the same finding, unless it leaves more unjudged. */
function keysOf({ rule, about, at, notJudged = [""] }: Finding): string[] {
  return notJudged.map((criterion) => `${rule} ${about ?? at} ${criterion}`);
}

function vanishes({ finding, before }: ToMend, after: readonly Finding[]): boolean {
  const isSame = (one: Finding) => isOpen(one) && one.rule === finding.rule && onSameHop(one.at, finding.at);
  return after.filter(isSame).length < Math.max(1, before.filter(isSame).length);
}

function isOpen(finding: Finding): boolean {
  return finding.accepted === undefined;
}

/** A finding may move from one end of its hop to the other without being another one. */
function onSameHop(a: string, b: string): boolean {
  return a.split(" / ")[0] === b.split(" / ")[0];
}
