import { nearest } from "../../../shared/format/nearest.js";
import { explainHop } from "../../../shared/report/explain.js";
import { CommandError } from "../../command-error.js";
import { knownRules } from "../../findings/known-rules.js";
import { findHop } from "../../findings/one-hop.js";
import { explanationText, ruleList, ruleText } from "../print/explanation.js";
import { paintStdout, print } from "../streams.js";

/** All rules when none is named. */
export async function explainRule(id: string | undefined): Promise<void> {
  const rules = knownRules();
  if (id === undefined) return print(ruleList([...rules.values()], paintStdout));
  const rule = rules.get(id);
  if (rule) return print(ruleText(rule, paintStdout));
  const near = nearest(id, rules.keys());
  const remedy = near === undefined ? "hopwright explain lists them" : `did you mean ${near}?`;
  throw new CommandError(`${id}: there is no such rule; ${remedy}`);
}

export async function explainHopFigures(name: string, folder: string, today: string): Promise<void> {
  const { hop, result } = await findHop(folder, name, today);
  await print(explanationText(explainHop(hop, result), paintStdout));
}
