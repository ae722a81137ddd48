/**
 * The fixes of a folder's designs that leave nothing to choose: one reading, no decision changed, the finding gone, no
 * error more. They are made on the models; what is done with the texts is the caller's.
 */
import { realpathSync } from "node:fs";
import { certainFindingFix, certainTextFixes, type QuickFix } from "../../../language/editor/quick-fixes.js";
import { applyEdits, lineNumber } from "../../../language/editor/text-range.js";
import type { DesignModel } from "../../../language/model/design-model.js";
import type { Project } from "../../../language/model/project.js";
import { readSource } from "../../../language/model/source-file.js";
import { readHopFile } from "../../files/hop-files.js";
import { slashed } from "../../files/slashed.js";
import { designFolder } from "../../findings/judged-folder.js";
import { DesignSession } from "../../session/design-session.js";
import { loadProject } from "../../session/load.js";
import { tryEdits } from "../../session/trial.js";

export interface AppliedFix {
  readonly file: string;
  /** Counted from 1, as the text was when it was applied. */
  readonly line: number;
  readonly rule: string;
  readonly title: string;
}

export interface ChangedText {
  readonly path: string;
  readonly before: string;
  readonly after: string;
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

async function mend(model: DesignModel, session: DesignSession, texts: Texts): Promise<AppliedFix[]> {
  const applied: AppliedFix[] = [];
  const refused = new Set<string>();
  const writable = new Map<string, boolean>();
  const mayWrite = (path: string) => {
    let may = writable.get(path);
    if (may === undefined) writable.set(path, (may = isOwn(model, path)));
    return may;
  };
  let oneByOne = false;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const before = await errorsOf(model, session);
    const found = (await fixesOf(model, session)).filter(
      (fix) => !refused.has(keyOf(fix)) && fix.edits.every(({ file }) => mayWrite(file)),
    );
    const batch = apart(found).slice(0, oneByOne ? 1 : undefined);
    if (batch.length === 0) break;
    const told = batch.map((fix) => appliedAs(model, fix));
    const undo = texts.apply(batch);
    if ((await errorsOf(model, session)) <= before) {
      applied.push(...told);
      continue;
    }
    undo();
    // One of them brings an error: each by itself then.
    if (batch.length === 1) refused.add(keyOf(batch[0]!));
    oneByOne = true;
  }
  return applied;
}

async function fixesOf(model: DesignModel, session: DesignSession): Promise<readonly QuickFix[]> {
  const fixes = [...model.allFiles()].flatMap(({ path }) => certainTextFixes(model, path));
  const ofHops = [...session.results()].flatMap(([hop, judged]) =>
    judged.findings.map((finding) => ({ finding, judged, hops: [hop] })),
  );
  const ofNetwork = session.networkFindings().map((finding) => ({ finding, judged: undefined, hops: [] }));
  const network = session.networkFindings();
  for (const { finding, judged, hops } of [...ofHops, ...ofNetwork]) {
    const before = [...(judged?.findings ?? []), ...network];
    const fix = await certainFindingFix({ model, finding, judged, before }, (edits) =>
      tryEdits(session, edits, hops),
    );
    if (fix) fixes.push(fix);
  }
  return fixes;
}

async function errorsOf(model: DesignModel, session: DesignSession): Promise<number> {
  await session.update();
  session.updateNetwork();
  const problems = [...model.allFiles()].flatMap(({ path }) => model.problemsOf(path));
  const findings = [...session.results().values()].flatMap((judged) => judged.findings);
  const open = [...findings, ...session.networkFindings()].filter(({ accepted }) => accepted === undefined);
  return [...problems, ...open].filter(({ severity }) => severity === "error").length;
}

/** Texts as they stand in the files: what reading makes of line ends stays out of them. */
class Texts {
  private readonly first = new Map<string, string>();
  private readonly now = new Map<string, string>();

  constructor(private readonly project: Project) {}

  /** @returns what takes it back */
  apply(fixes: readonly QuickFix[]): () => void {
    const edits = Map.groupBy(
      fixes.flatMap((fix) => fix.edits),
      ({ file }) => file,
    );
    const was = [...edits.keys()].map((path) => [path, this.text(path)] as const);
    for (const [path, own] of edits) {
      const text = this.text(path);
      const inLineEnds = (newText: string) =>
        text.includes("\r\n") ? newText.replace(/\r?\n/g, "\r\n") : newText;
      this.set(
        path,
        applyEdits(
          text,
          own.map((edit) => ({ ...edit, newText: inLineEnds(edit.newText) })),
        ),
      );
    }
    return () => {
      for (const [path, text] of was) this.set(path, text);
    };
  }

  changed(): readonly ChangedText[] {
    return [...this.now]
      .map(([path, after]) => ({ path, before: this.first.get(path)!, after }))
      .filter(({ before, after }) => before !== after);
  }

  private text(path: string): string {
    const known = this.now.get(path);
    if (known !== undefined) return known;
    const file = readHopFile(path);
    const read = "text" in file ? file.text : this.project.file(path)!.text;
    this.first.set(path, read);
    return read;
  }

  private set(path: string, text: string): void {
    this.now.set(path, text);
    this.project.setFile(readSource(path, text));
  }
}

/** Lies in the design's own folder with no link on the way, and holds no unfinished merge. */
function isOwn(model: DesignModel, path: string): boolean {
  if (!path.startsWith(`${model.root}/`)) return false;
  if (/^(<{7}|>{7})/m.test(model.file(path)?.text ?? "")) return false;
  try {
    return slashed(realpathSync(path)) === slashed(realpathSync(model.root)) + path.slice(model.root.length);
  } catch {
    return false;
  }
}

/** Those whose edits lie apart; the first in the text of two that touch. */
function apart(fixes: readonly QuickFix[]): readonly QuickFix[] {
  const taken: QuickFix["edits"][number][] = [];
  return fixes.filter(({ edits }) => {
    const touches = edits.some((a) =>
      taken.some((b) => a.file === b.file && a.start <= b.end && b.start <= a.end),
    );
    if (!touches) taken.push(...edits);
    return !touches;
  });
}

function appliedAs(model: DesignModel, { edits, rule, title }: QuickFix): AppliedFix {
  const { file, start } = edits[0]!;
  return { file, line: lineNumber(model.file(file)!.text, start), rule, title };
}

function keyOf({ edits, title }: QuickFix): string {
  return `${edits[0]?.file} ${title}`;
}
