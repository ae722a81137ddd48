/** What an edit would do, found out beside the design: the design itself stays as it is. */
import type { TextEdit } from "../../language/editor/text-range.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource, type SourceFile } from "../../language/model/source-file.js";
import type { Design, Hop } from "../../shared/design/design.js";
import type { Finding } from "../../shared/design/finding.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { HopResult } from "../../shared/evaluate/result.js";
import { judgeHop, judgeNetwork } from "../../shared/rules/judge.js";
import type { DesignSession } from "./design-session.js";
import { spotHeights } from "./spots.js";

/**
 * Findings on some hops, and those of the network, after the edits. Other hops keep the results they have.
 * @param hops those to evaluate again; none: network findings alone
 */
export async function tryEdits(
  session: DesignSession,
  edits: readonly TextEdit[],
  hops: readonly string[],
): Promise<readonly Finding[]> {
  const { design, resolved } = edited(session.model, edits, hops);
  const results = new Map<string, HopResult>(
    [...session.results()].map(([name, judged]) => [name, judged.result]),
  );
  const findings: Finding[] = [];
  for (const hop of resolved) {
    const result = evaluateHop(hop, await session.groundOf(hop));
    results.set(hop.name, result);
    findings.push(...judgeHop(hop, result, session.today));
  }
  const heights = await spotHeights(design, session.terrain(), session.spotHeights());
  return [...findings, ...judgeNetwork(design, results, session.today, heights)];
}

/**
 * The design as the edits would have it. They are taken back before anything else runs, so that attempts of several
 * requests do not see each other; what they do not touch stays resolved from one attempt to the next.
 */
function edited(
  model: DesignModel,
  edits: readonly TextEdit[],
  hops: readonly string[],
): { readonly design: Design; readonly resolved: readonly Hop[] } {
  const twin = twinOf(model);
  const touched: SourceFile[] = [];
  for (const [path, own] of Map.groupBy(edits, ({ file }) => file)) {
    const file = model.file(path);
    if (!file) continue;
    touched.push(file);
    twin.setFile(readSource(path, applied(file.text, own)));
  }
  const design = twin.design();
  const resolved = hops.flatMap((name) => twin.hop(name)?.hop ?? []);
  for (const file of touched) twin.setFile(file);
  return { design, resolved };
}

const twins = new WeakMap<DesignModel, DesignModel>();

/** A second model of the same files, kept for the next attempt: only files that differ are put in anew. */
function twinOf(model: DesignModel): DesignModel {
  let twin = twins.get(model);
  if (!twin) twins.set(model, (twin = new DesignModel(model.root)));
  for (const { path } of [...twin.allFiles()]) if (!model.file(path)) twin.removeFile(path);
  for (const file of model.allFiles()) if (twin.file(file.path) !== file) twin.setFile(file);
  return twin;
}

/** Edits do not overlap; the last in the text goes first, so that offsets hold. */
function applied(text: string, edits: readonly TextEdit[]): string {
  return [...edits]
    .sort((a, b) => b.start - a.start)
    .reduce((done, { start, end, newText }) => done.slice(0, start) + newText + done.slice(end), text);
}
