/** Hover on names: what the thing is, how many hops use it, what it inherits. */

import { stateWords } from "../../shared/design/state.js";
import { fixed, kilometres, metres } from "../../shared/format/numbers.js";
import { plansNamed } from "../../shared/spectrum/channel-plan.js";
import { stateOf } from "../facts/states.js";
import type { DesignModel } from "../model/design-model.js";
import { declaredName } from "../model/source-file.js";
import { END } from "../schema/index.js";
import { carriedText, hopCarriesText } from "./hover-demand.js";
import { hopReport } from "./hover-hop.js";
import { fromDefaults, fromLike, inheritedText } from "./inherited.js";
import { KINDS_SHOWN, titleOf } from "./kinds-shown.js";
import { escapeMarkdown } from "./markdown.js";
import { hopsUsing, type Name } from "./occurrences.js";
import type { Carried, Results } from "./results.js";
import type { FactAt } from "./walk.js";

export function nameText(
  name: Name,
  at: FactAt,
  model: DesignModel,
  results: Results,
  carried: Carried,
): string {
  const parts: (string | undefined)[] = [heading(name, model), ...bullets(name, model)];
  if (at.fact.property === END) parts.push(...endParts(at, model, results));
  else if (name.kind === "demand") parts.push(carriedText(name.name, carried), demandParts(name, model));
  else if (name.kind === "hop")
    parts.push(hopCarriesText(name.name, carried), ...hopParts(name, model, results));
  else parts.push(...entryParts(name, model, results));
  return parts.filter((part) => part !== undefined).join("\n\n");
}

function heading({ kind, name }: Name, model: DesignModel): string {
  const title = titleOf(model, kind, name);
  const entry = model.declarations(`${kind} ${name}`)[0];
  const sort = entry?.template ? `template ${kind}` : kind;
  const known = entry !== undefined || (kind === "plan" && plansNamed(name, model.lookup.plans()).length > 0);
  const state = entry && stateOf(entry.fact);
  const stands = state === undefined ? "" : `, ${stateWords(state)}`;
  return `**${name}** (${sort}${stands})${title ? ` ${escapeMarkdown(title)}` : ""}${known ? "" : `\n\nThe design declares no ${kind} of this name.`}`;
}

function bullets({ kind, name }: Name, model: DesignModel): string[] {
  const lines = KINDS_SHOWN[kind].lines(model, name);
  return lines.length > 0 && kind !== "hop"
    ? [lines.map((line) => `- ${escapeMarkdown(line)}`).join("\n")]
    : [];
}

function hopParts({ name }: Name, model: DesignModel, results: Results): (string | undefined)[] {
  const entry = model.declarations(`hop ${name}`)[0];
  const judged = results(name);
  return [
    judged ? hopReport(judged) : entry && !model.standsHop(name) ? TAKEN_DOWN : "Not evaluated yet.",
    entry && inheritedText(fromDefaults(entry.fact.facts, "hop", model)),
  ];
}

function demandParts({ name }: Name, model: DesignModel): string | undefined {
  const entry = model.declarations(`demand ${name}`)[0];
  return entry && inheritedText(fromDefaults(entry.fact.facts, "demand", model));
}

const TAKEN_DOWN =
  "It is taken down before all that is planned stands: its findings until then stand at its lines, `hopwright explain` with `--on` has its figures.";

function endParts({ fact, path }: FactAt, model: DesignModel, results: Results): (string | undefined)[] {
  const hop = path.find((one) => one.context === "hop");
  const name = hop && declaredName(hop);
  const judged = name === undefined ? undefined : results(name);
  return [inheritedText(fromDefaults(fact.facts, "end", model)), judged && hopReport(judged)];
}

function entryParts(name: Name, model: DesignModel, results: Results): (string | undefined)[] {
  const entry = model.declarations(`${name.kind} ${name.name}`)[0];
  if (!entry) return [];
  const hops = [...new Set(hopsUsing(name, model))];
  const isSite = name.kind === "site";
  const inherited = isSite ? fromDefaults(entry.fact.facts, "site", model) : fromLike(entry, model);
  return [
    isSite ? hopsOfSite(name.name, hops, results) : undefined,
    usedBy(hops.length),
    inheritedText(inherited),
  ];
}

/** More hops than this are only counted. */
const MOST_HOPS = 24;

/** Where they lead: azimuth, far end and length, and the ground that they were computed with. */
function hopsOfSite(site: string, hops: readonly string[], results: Results): string | undefined {
  const lines: string[] = [];
  let ground: string | undefined;
  for (const name of hops.slice(0, MOST_HOPS)) {
    const judged = results(name);
    const here = judged?.result.geometry?.find((end) => end.site === site);
    const far = judged?.result.ends.find((end) => end !== site);
    if (!judged || !here || far === undefined) continue;
    ground ??= `ground ${metres(here.groundM)} above sea level (${here.groundFrom})`;
    const length = judged.result.distanceM === undefined ? "" : `, ${kilometres(judged.result.distanceM)}`;
    lines.push(`- ${name}: azimuth ${fixed(here.azimuthDeg, 1)}° to ${far}${length}`);
  }
  return lines.length === 0 ? undefined : [`- ${ground}`, ...lines].join("\n");
}

function usedBy(hops: number): string {
  if (hops === 0) return "No hop uses it by name.";
  return hops === 1 ? "Used by 1 hop." : `Used by ${hops} hops.`;
}
