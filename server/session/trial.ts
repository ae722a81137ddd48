/** What an edit would do, found out beside the design: the design itself stays as it is. */
import type { TextEdit } from "../../language/editor/text-range.js";
import { withEdits } from "../../language/model/twin.js";
import type { Finding } from "../../shared/design/finding.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { judgeHop } from "../../shared/rules/judge.js";
import type { DesignSession } from "./design-session.js";

/**
 * Findings on some hops, and those of the network, after the edits. Other hops keep the results they have.
 * @param hops those to evaluate again; none: network findings alone
 */
export async function tryEdits(
  session: DesignSession,
  edits: readonly TextEdit[],
  hops: readonly string[],
): Promise<readonly Finding[]> {
  const { design, resolved } = withEdits(session.model, edits, (edited) => ({
    design: edited.design(),
    resolved: hops.flatMap((name) => edited.hop(name)?.hop ?? []),
  }));
  const results = new Map<string, HopResult>(
    [...session.results()].map(([name, judged]) => [name, judged.result]),
  );
  const findings: Finding[] = [];
  for (const hop of resolved) {
    // What the others do to it stays as it is: an edit is tried on the hop's own figures.
    const atEnds = session.interference.atEndsOf(hop.name);
    const result = evaluateHop(hop, await session.groundOf(hop), atEnds);
    results.set(hop.name, result);
    findings.push(...judgeHop(hop, result, session.acceptanceDay));
  }
  const heights = await session.readSpotsOf(design);
  return [...findings, ...session.judgeNetworkOf(results, { design, heights })];
}
