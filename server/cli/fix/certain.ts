/**
 * The fixes of a folder's designs that leave nothing to choose: one reading, no decision changed, the finding gone, no
 * error more. They are made on the models; what is done with the texts is the caller's.
 */

import type { QuickFix } from "../../../language/editor/fixes/fix.js";
import { bringsErrors, certainFindingFix, certainTextFixes } from "../../../language/editor/quick-fixes.js";
import type { JudgedHop } from "../../../language/editor/results.js";
import { lineNumber } from "../../../language/editor/text-range.js";
import type { DesignModel } from "../../../language/model/design-model.js";
import type { Finding } from "../../../shared/design/finding.js";
import { isOwn } from "../../files/own-file.js";
import { designFolder } from "../../findings/judged-folder.js";
import { DesignSession } from "../../session/design-session.js";
import { loadProject } from "../../session/load.js";
import { type ChangedText, Texts } from "./texts.js";

interface AppliedFix {
  readonly file: string;
  /** Counted from 1, as the text was when it was applied. */
  readonly line: number;
  readonly rule: string;
  readonly title: string;
}

export interface CertainFixes {
  readonly applied: readonly AppliedFix[];
  readonly changed: readonly ChangedText[];
}

/** A fix may uncover what another mends; this deep nothing honest goes. */
const MOST_ROUNDS = 50;

export async function certainFixes(folder: string, today: string): Promise<CertainFixes> {
  const { project } = loadProject(designFolder(folder));
  const texts = new Texts(project);
  const applied: AppliedFix[] = [];
  for (const model of [...project.designs()]) {
    const session = new DesignSession(model, { today });
    applied.push(...(await mend(model, session, texts)));
  }
  return { applied, changed: texts.changed() };
}

/**
 * All at once, judged once: trying each by itself would cost a judgement of the whole network a fix. Where a batch does
 * not hold what its fixes promise, half of it is applied, and a fix that fails alone is not asked again.
 */
async function mend(model: DesignModel, session: DesignSession, texts: Texts): Promise<AppliedFix[]> {
  const applied: AppliedFix[] = [];
  const refused = new Set<string>();
  const mayWrite = remembered((path) => isOwn(model, path));
  let most = Number.POSITIVE_INFINITY;
  let before = await stateOf(model, session);
  for (let round = 0; round < MOST_ROUNDS; ) {
    const found = candidates(model, session).filter(
      ({ fix }) => !refused.has(keyOf(model, fix)) && fix.edits.every(({ file }) => mayWrite(file)),
    );
    // What the text says goes first: findings may follow from it.
    const ofText = found.filter((one) => one.ofText);
    const batch = apart(ofText.length > 0 ? ofText : found).slice(0, most);
    if (batch.length === 0) break;
    const fixes = batch.map(({ fix }) => fix);
    const told = fixes.map((fix) => appliedAs(model, fix));
    const keys = fixes.map((fix) => keyOf(model, fix));
    const undo = texts.apply(fixes);
    const after = await stateOf(model, session);
    if (holds(batch, before, after)) {
      applied.push(...told);
      before = after;
      most = Number.POSITIVE_INFINITY;
      round++;
      continue;
    }
    undo();
    before = await stateOf(model, session);
    if (batch.length === 1) refused.add(keys[0]!);
    most = Math.max(1, Math.floor(batch.length / 2));
  }
  return applied;
}

interface Candidate {
  readonly fix: QuickFix;
  /** The file of a problem of the text, or the head of a finding's address. */
  readonly place: string;
  readonly ofText: boolean;
}

function candidates(model: DesignModel, session: DesignSession): readonly Candidate[] {
  const ofText = [...model.allFiles()].flatMap(({ path }) =>
    certainTextFixes(model, path).map((fix): Candidate => ({ fix, place: path, ofText: true })),
  );
  // What stands at other times may still need what is not needed once all that is planned stands.
  const hasTimes = !model.spans()[Symbol.iterator]().next().done;
  const ofFinding = (finding: Finding, judged?: JudgedHop): readonly Candidate[] => {
    if (hasTimes && finding.rule === "acceptance-unused") return [];
    const fix = certainFindingFix({ model, finding, judged });
    return fix === undefined ? [] : [{ fix, place: headOf(finding), ofText: false }];
  };
  return [
    ...ofText,
    ...[...session.results().values()].flatMap((judged) =>
      judged.findings.flatMap((finding) => ofFinding(finding, judged)),
    ),
    ...session.networkFindings().flatMap((finding) => ofFinding(finding)),
  ];
}

interface State {
  readonly findings: readonly Finding[];
  readonly errors: number;
  /** How often a rule is found at a place. */
  readonly counts: ReadonlyMap<string, number>;
}

async function stateOf(model: DesignModel, session: DesignSession): Promise<State> {
  await session.update();
  session.updateNetwork();
  const ofHops = [...session.results().values()].flatMap((judged) => judged.findings);
  const findings = [...ofHops, ...session.networkFindings()].filter(({ accepted }) => accepted === undefined);
  const counts = new Map<string, number>();
  let errors = findings.filter(({ severity }) => severity === "error").length;
  const add = (key: string) => counts.set(key, (counts.get(key) ?? 0) + 1);
  for (const one of findings) add(`${one.rule} ${headOf(one)}`);
  for (const { path } of model.allFiles())
    for (const { rule, severity } of model.problemsOf(path)) {
      if (severity === "error") errors++;
      add(`${rule} ${path}`);
    }
  return { findings, errors, counts };
}

/** Whether each fix took away what it is for, and none brought an error. */
function holds(batch: readonly Candidate[], before: State, after: State): boolean {
  if (after.errors > before.errors) return false;
  const wanted = new Map<string, number>();
  for (const { fix, place } of batch) {
    const key = `${fix.rule} ${place}`;
    wanted.set(key, (wanted.get(key) ?? 0) + 1);
  }
  const mended = [...wanted].every(
    ([key, times]) => (after.counts.get(key) ?? 0) <= (before.counts.get(key) ?? 0) - times,
  );
  // A text that can be read shows what is wrong with the hop; a finding that goes shows only what stood behind it.
  return (
    mended &&
    (batch[0]!.ofText ||
      !bringsErrors(new Set(batch.map(({ fix }) => fix.rule)), before.findings, after.findings))
  );
}

function headOf({ at }: Finding): string {
  return at.split(" / ")[0]!;
}

function remembered<T>(of: (key: string) => T): (key: string) => T {
  const known = new Map<string, T>();
  return (key) => {
    if (!known.has(key)) known.set(key, of(key));
    return known.get(key)!;
  };
}

/** Those whose edits lie apart; the first in the text of two that touch. */
function apart(found: readonly Candidate[]): readonly Candidate[] {
  const taken = new Map<string, QuickFix["edits"][number][]>();
  return found.filter(({ fix: { edits } }) => {
    const touches = edits.some((a) => taken.get(a.file)?.some((b) => a.start <= b.end && b.start <= a.end));
    if (touches) return false;
    for (const edit of edits) {
      const ofFile = taken.get(edit.file);
      if (ofFile) ofFile.push(edit);
      else taken.set(edit.file, [edit]);
    }
    return true;
  });
}

function appliedAs(model: DesignModel, { edits, rule, title }: QuickFix): AppliedFix {
  const { file, start } = edits[0]!;
  return { file, line: lineNumber(model.file(file)!.text, start), rule, title };
}

/** By the line it stands in, which keeps its words where offsets move. */
function keyOf(model: DesignModel, { edits, title }: QuickFix): string {
  const { file, start } = edits[0]!;
  const { text } = model.file(file)!;
  const line = text.slice(text.lastIndexOf("\n", start - 1) + 1, text.indexOf("\n", start) + 1 || undefined);
  return `${file} ${title} ${line}`;
}
