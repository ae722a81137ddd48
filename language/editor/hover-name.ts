/** Hover on names: what the thing is, how many hops use it, what it inherits. */

import { plansNamed } from "../../shared/spectrum/channel-plan.js";
import type { DesignModel } from "../model/design-model.js";
import { declaredName } from "../model/source-file.js";
import { END } from "../schema/index.js";
import { escapeMarkdown, hopReport } from "./hover-hop.js";
import { fromDefaults, fromLike, inheritedText } from "./inherited.js";
import { hopsUsing, type Name } from "./occurrences.js";
import type { Results } from "./results.js";
import { summary, titleOf } from "./summary.js";
import type { FactAt } from "./walk.js";

export function nameText(name: Name, at: FactAt, model: DesignModel, results: Results): string {
  const parts: (string | undefined)[] = [heading(name, model), ...bullets(name, model)];
  if (at.fact.property === END) parts.push(...endParts(at, model, results));
  else if (name.kind === "hop") parts.push(...hopParts(name, model, results));
  else parts.push(...entryParts(name, model));
  return parts.filter((part) => part !== undefined).join("\n\n");
}

function heading({ kind, name }: Name, model: DesignModel): string {
  const title = titleOf(model, kind, name);
  const entry = model.declarations(`${kind} ${name}`)[0];
  const sort = entry?.template ? `template ${kind}` : kind;
  const known = entry !== undefined || (kind === "plan" && plansNamed(name, model.lookup.plans()).length > 0);
  return `**${name}** (${sort})${title ? ` ${escapeMarkdown(title)}` : ""}${known ? "" : `\n\nThe design declares no ${kind} of this name.`}`;
}

function bullets({ kind, name }: Name, model: DesignModel): string[] {
  const lines = summary(model, kind, name);
  return lines.length > 0 && kind !== "hop"
    ? [lines.map((line) => `- ${escapeMarkdown(line)}`).join("\n")]
    : [];
}

function hopParts({ name }: Name, model: DesignModel, results: Results): (string | undefined)[] {
  const entry = model.declarations(`hop ${name}`)[0];
  const judged = results(name);
  return [
    judged ? hopReport(judged) : "Not evaluated yet.",
    entry && inheritedText(fromDefaults(entry.fact.facts, "hop", model)),
  ];
}

function endParts({ fact, path }: FactAt, model: DesignModel, results: Results): (string | undefined)[] {
  const hop = path.find((one) => one.context === "hop");
  const name = hop && declaredName(hop);
  const judged = name === undefined ? undefined : results(name);
  return [inheritedText(fromDefaults(fact.facts, "end", model)), judged && hopReport(judged)];
}

function entryParts(name: Name, model: DesignModel): (string | undefined)[] {
  const entry = model.declarations(`${name.kind} ${name.name}`)[0];
  if (!entry) return [];
  const hops = new Set(hopsUsing(name, model)).size;
  const inherited =
    name.kind === "site" ? fromDefaults(entry.fact.facts, "site", model) : fromLike(entry, model);
  return [usedBy(hops), inheritedText(inherited)];
}

function usedBy(hops: number): string {
  if (hops === 0) return "No hop uses it by name.";
  return hops === 1 ? "Used by 1 hop." : `Used by ${hops} hops.`;
}
