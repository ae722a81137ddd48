/** What an edit would do, found out beside the design: the design itself stays as it is. */
import type { TriedDesign } from "../../language/editor/quick-fixes.js";
import type { TextEdit } from "../../language/editor/text-range.js";
import { withEdits } from "../../language/model/twin.js";
import type { Hop } from "../../shared/design/design.js";
import type { Finding } from "../../shared/design/finding.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { judgeHop } from "../../shared/rules/judge.js";
import type { DesignSession } from "./design-session.js";

/**
 * Findings on some hops, and those of the network, after the edits; of other hops, to which the edits or what they do to
 * the interference make a difference, what they did not have before.
 * @param hops those to evaluate again; none: those that the edits stand in
 */
export async function tryEdits(
  session: DesignSession,
  edits: readonly TextEdit[],
  hops: readonly string[],
): Promise<TriedDesign> {
  const edited = new Set([...hops, ...hopsIn(session, edits)]);
  const { design, resolved } = withEdits(session.model, edits, (model) => ({
    design: model.design(),
    resolved: new Map([...edited].flatMap((name) => named(name, model.hop(name)?.hop))),
  }));
  const results = new Map<string, HopResult>(
    [...session.results()].map(([name, judged]) => [name, judged.result]),
  );
  for (const [name, hop] of resolved) results.set(name, await evaluated(session, hop, session.interference));
  const tried = await session.interference.tried(await session.interferenceInputs(design, results));
  const interference = tried?.found ?? session.interference;
  for (const name of tried?.changed ?? []) {
    const hop = resolved.get(name) ?? session.result(name)?.hop;
    if (hop === undefined) continue;
    resolved.set(name, hop);
    results.set(name, await evaluated(session, hop, interference));
  }
  const findings = [...resolved].flatMap(([name, hop]) => {
    const found = judgeHop(hop, results.get(name)!, session.acceptanceDay);
    return hops.includes(name) ? found : found.filter((one) => !isKnown(session, name, one));
  });
  const heights = await session.readSpotsOf(design);
  const ofNetwork = session.judgeNetworkOf(results, { design, heights, interference });
  return { findings: [...findings, ...ofNetwork], interference };
}

function named(name: string, hop: Hop | undefined): readonly (readonly [string, Hop])[] {
  return hop === undefined ? [] : [[name, hop]];
}

async function evaluated(
  session: DesignSession,
  hop: Hop,
  interference: DesignSession["interference"],
): Promise<HopResult> {
  return evaluateHop(hop, await session.groundOf(hop), interference.atEndsOf(hop.name));
}

function isKnown(session: DesignSession, hop: string, { rule, at }: Finding): boolean {
  return session.result(hop)?.findings.some((one) => one.rule === rule && one.at === at) ?? false;
}

/** Hops whose declaration an edit touches. */
function hopsIn({ model }: DesignSession, edits: readonly TextEdit[]): string[] {
  return edits.flatMap(({ file, start, end }) =>
    (model.file(file)?.declarations ?? []).flatMap((one) =>
      one.kind === "hop" && one.fact.statement.start <= end && start <= one.fact.statement.end
        ? [one.name]
        : [],
    ),
  );
}
