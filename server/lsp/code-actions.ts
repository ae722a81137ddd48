/** Fixes that are offered in a range: of the text's problems, and of the engine's findings after a trial on a copy. */
import {
  type CodeAction,
  CodeActionKind,
  CodeActionTriggerKind,
  type Connection,
  type Diagnostic,
  type TextEdit,
} from "vscode-languageserver";
import type { QuickFix } from "../../language/editor/fixes/fix.js";
import { findingFixes, textFixes } from "../../language/editor/quick-fixes.js";
import type { TextRange } from "../../language/editor/text-range.js";
import { locate } from "../../language/model/locate.js";
import type { Finding } from "../../shared/design/finding.js";
import { linesOf } from "../findings/lines.js";
import type { DesignSession } from "../session/design-session.js";
import { tryEdits } from "../session/trial.js";
import { bestChannels, openHopAt } from "./channel-figures.js";
import type { Designs } from "./designs.js";
import { pathOf, uriOf } from "./locations.js";
import { proposeCommand } from "./propose-channels.js";
import { isUnsaved } from "./unsaved.js";

export function registerCodeActions(connection: Connection, designs: () => Designs): void {
  connection.onCodeAction(async ({ textDocument, range, context }, token): Promise<CodeAction[]> => {
    const file = designs().file(pathOf(textDocument.uri));
    if (!file) return [];
    const lines = linesOf(file);
    const asked = { start: lines.offset(range.start), end: lines.offset(range.end) };
    const { fixes, session } = await fixesAt(designs(), file.path, asked);
    if (session === undefined) return [];
    const open = openHopAt(session, file.path, asked);
    // Asked for by the caret alone, the network is not tried.
    const isAsked = context.triggerKind !== CodeActionTriggerKind.Automatic;
    const channels = open !== undefined && isAsked ? await bestChannels(session, open, token) : [];
    const actions = [...fixes, ...channels].map((fix) => codeAction(fix, session, context.diagnostics));
    return open === undefined || isUnsaved(file.path) ? actions : [...actions, proposeAll(file.path)];
  });
}

/** For all open hops at once: worked out only when it is taken. */
function proposeAll(path: string): CodeAction {
  return {
    title: "Propose number, polarization and half for all open hops",
    kind: CodeActionKind.QuickFix,
    command: proposeCommand(path),
  };
}

/** What mends the text's problems and the engine's findings that a range of a file touches. */
export async function fixesAt(
  designs: Designs,
  path: string,
  asked: TextRange,
): Promise<{ readonly fixes: readonly QuickFix[]; readonly session?: DesignSession }> {
  const session = designs.sessionsOf(path)[0];
  if (!session) return { fixes: [] };
  const fixes = [...textFixes(session.model, path, asked)];
  for (const { finding, hop } of findingsAt(session, path, asked)) {
    const judged = hop === undefined ? undefined : session.result(hop);
    const hops = hop === undefined ? hopsAt(session, finding.at) : [hop];
    const before = [
      ...hops.flatMap((name) => session.result(name)?.findings ?? []),
      ...session.networkFindings(),
    ];
    fixes.push(
      ...(await findingFixes(
        { model: session.model, finding, judged, before, interference: session.interference },
        (edits) => tryEdits(session, edits, hops),
      )),
    );
  }
  // An unsaved document is judged with a copy: nothing is offered that changes the design itself.
  const offered = isUnsaved(path)
    ? fixes.filter(({ edits }) => edits.every((edit) => edit.file === path))
    : fixes;
  return { fixes: offered, session };
}

/** So many hops of a site are evaluated at each attempt to mend it. */
const MOST_HOPS = 8;

/** The hops that a mending of a site would change. */
function hopsAt({ model }: DesignSession, at: string): string[] {
  const site = /^site (.*?)(?: \/ |$)/.exec(at)?.[1];
  if (site === undefined) return [];
  const hops = model
    .names("hop")
    .filter((name) => model.hop(name)?.hop?.ends.some((end) => end.site.name === site));
  return hops.slice(0, MOST_HOPS);
}

function findingsAt(
  session: DesignSession,
  path: string,
  range: TextRange,
): { finding: Finding; hop?: string }[] {
  const touches = (finding: Finding) => {
    const place = locate(finding.at, session.model);
    return place?.file === path && place.start <= range.end && range.start <= place.end;
  };
  const hops = session.model.file(path)?.declarations.filter(({ kind }) => kind === "hop") ?? [];
  const ofHops = hops.flatMap(({ name }) =>
    (session.result(name)?.findings ?? []).map((finding) => ({ finding, hop: name })),
  );
  const ofNetwork = session.networkFindingsIn(path).map((finding) => ({ finding }));
  return [...ofHops, ...ofNetwork].filter(({ finding }) => touches(finding));
}

function codeAction(fix: QuickFix, session: DesignSession, diagnostics: readonly Diagnostic[]): CodeAction {
  const changes: Record<string, TextEdit[]> = {};
  for (const { file, start, end, newText } of fix.edits) {
    const source = session.model.file(file);
    if (source) (changes[uriOf(file)] ??= []).push({ range: linesOf(source).range(start, end), newText });
  }
  return {
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics: diagnostics.filter(({ code }) => code === fix.rule),
    edit: { changes },
  };
}
