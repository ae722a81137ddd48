/** What is wrong with the catalogue entries of one file, from one hop that uses each. */
import type { DesignModel } from "../../language/model/design-model.js";
import { fileOf } from "../../language/model/locate.js";
import { isInstalled, isNamedKind } from "../../language/schema/kinds.js";
import type { Hop } from "../../shared/design/design.js";
import type { Finding } from "../../shared/design/finding.js";
import { entriesUsed, judgeEntries } from "../../shared/rules/judge-entries.js";

/**
 * @param judged hops as they were when they were judged last: they tell which uses what without being resolved anew
 * @returns undefined where the file declares none
 */
export function findingsOnEntries(
  path: string,
  model: DesignModel,
  judged: Iterable<{ readonly hop: Hop }>,
): readonly Finding[] | undefined {
  const entries = (model.file(path)?.declarations ?? []).filter(
    ({ kind }) => isNamedKind(kind) && isInstalled(kind),
  );
  const missing = new Set(entries.map(({ name }) => name));
  if (missing.size === 0) return undefined;
  const users: Hop[] = [];
  for (const { hop: before } of judged) {
    const used = [...entriesUsed(before)].filter((entry) => missing.has(entry));
    const hop = used.length > 0 ? model.hop(before.name)?.hop : undefined;
    if (hop === undefined) continue;
    for (const entry of used) missing.delete(entry);
    users.push(hop);
    if (missing.size === 0) break;
  }
  return judgeEntries(users, model.lookup.policy()).filter(({ at }) => fileOf(at, model) === path);
}
