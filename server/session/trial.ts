/** What an edit would do, found out on a copy of the design. */
import type { TextEdit } from "../../language/editor/text-range.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import type { Finding } from "../../shared/design/finding.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { HopResult } from "../../shared/evaluate/result.js";
import { judgeHop, judgeNetwork } from "../../shared/rules/judge.js";
import type { DesignSession } from "./design-session.js";

/**
 * Findings on a hop, and those of the network, after the edits. Other hops keep the results they have.
 * @param hop the hop to evaluate again; undefined: network findings alone
 */
export async function tryEdits(
  session: DesignSession,
  edits: readonly TextEdit[],
  hop: string | undefined,
): Promise<readonly Finding[]> {
  const model = copyWith(session.model, edits);
  const results = new Map<string, HopResult>(
    [...session.results()].map(([name, judged]) => [name, judged.result]),
  );
  const resolved = hop === undefined ? undefined : model.hop(hop)?.hop;
  const findings: Finding[] = [];
  if (resolved) {
    const result = evaluateHop(resolved, await session.groundOf(resolved));
    results.set(resolved.name, result);
    findings.push(...judgeHop(resolved, result, session.today));
  }
  return [...findings, ...judgeNetwork(model.design(), results, session.today)];
}

function copyWith(model: DesignModel, edits: readonly TextEdit[]): DesignModel {
  const copy = new DesignModel(model.root);
  const byFile = Map.groupBy(edits, ({ file }) => file);
  for (const file of model.allFiles()) {
    const own = byFile.get(file.path);
    copy.setFile(own ? readSource(file.path, applied(file.text, own)) : file);
  }
  return copy;
}

/** Edits do not overlap; the last in the text goes first, so that offsets hold. */
function applied(text: string, edits: readonly TextEdit[]): string {
  return [...edits]
    .sort((a, b) => b.start - a.start)
    .reduce((done, { start, end, newText }) => done.slice(0, start) + newText + done.slice(end), text);
}
