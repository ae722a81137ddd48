/** Which facts hold without being stated: from defaults, and from what an entry is made like. */
import { type Fact, factNamed, wordOf } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import { folderOf } from "../model/path.js";
import type { Declaration, SourceFile } from "../model/source-file.js";
import { lineNumber } from "./text-range.js";

export interface InheritedFact {
  readonly fact: Fact;
  /** As written where it stands, a block left out. */
  readonly text: string;
  /** For people: `defaults hop, network.hop line 12`. */
  readonly from: string;
}

/** Facts of `defaults hop`, `end`, `site` or `demand` that a block does not state itself. */
export function fromDefaults(
  stated: readonly Fact[],
  of: "hop" | "end" | "site" | "demand",
  model: DesignModel,
): readonly InheritedFact[] {
  const entry = model.declarations(`defaults ${of}`)[0];
  return entry ? notStated(stated, entry, model) : [];
}

/** Facts that a catalogue entry takes over by `like`, nearest first. */
export function fromLike(entry: Declaration, model: DesignModel): readonly InheritedFact[] {
  const inherited: InheritedFact[] = [];
  const stated: Fact[] = [...entry.fact.facts];
  const visited = new Set([entry.name]);
  for (let name = wordOf(entry.fact, "like"); name !== undefined && !visited.has(name); ) {
    visited.add(name);
    const next: Declaration | undefined = model.declarations(`${entry.kind} ${name}`)[0];
    if (!next) break;
    inherited.push(...notStated(stated, next, model));
    stated.push(...next.fact.facts);
    name = wordOf(next.fact, "like");
  }
  return inherited;
}

export function inheritedText(inherited: readonly InheritedFact[]): string | undefined {
  if (inherited.length === 0) return undefined;
  return `Not stated here:\n\n${inherited.map(({ text, from }) => `- \`${text}\` from ${from}`).join("\n")}`;
}

function notStated(
  stated: readonly Fact[],
  entry: Declaration,
  model: DesignModel,
): readonly InheritedFact[] {
  const file = model.file(entry.file);
  if (!file) return [];
  return entry.fact.facts
    .filter(({ property }) => !answers(stated, property.name))
    .map((fact) => ({
      fact,
      text: lineOf(fact, file),
      from: `${entry.key}, ${placeText(file, fact, model)}`,
    }));
}

/** A fixed mode answers the question of an adaptive range as well, and a height that of the antenna's. */
function answers(stated: readonly Fact[], name: string): boolean {
  const same = name === "mode" || name === "modes" ? ["mode", "modes"] : [name];
  return same.some((one) => factNamed(stated, one) !== undefined);
}

function lineOf({ statement }: Fact, file: SourceFile): string {
  const line = file.text.slice(statement.start, statement.atoms.at(-1)!.end);
  return statement.block ? `${line} { ... }` : line;
}

function placeText(file: SourceFile, fact: Fact, model: DesignModel): string {
  const relative = file.path.startsWith(`${model.root}/`)
    ? file.path.slice(model.root.length + 1)
    : file.path.slice(folderOf(file.path).length + 1);
  return `${relative} line ${lineNumber(file.text, fact.statement.start)}`;
}
