/** What a file declares, as an outline, and search over the names of a design. */
import { type Fact, wordOf } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import { declaredName, type SourceFile } from "../model/source-file.js";
import { END } from "../schema/index.js";
import { isNamedKind, type NamedKind } from "../schema/kinds.js";
import { fuzzyRank } from "./fuzzy.js";
import { KINDS_SHOWN, type Sign } from "./kinds-shown.js";
import type { FileRange, TextRange } from "./text-range.js";
import { wordAtom } from "./walk.js";

type OwnSymbol = "network" | "climate" | "defaults" | "end";
export type SymbolKind = NamedKind | OwnSymbol;

const OWN_SIGNS: Readonly<Record<OwnSymbol, Sign>> = {
  network: "Package",
  climate: "Namespace",
  defaults: "Namespace",
  end: "Field",
};

export function signOf(kind: SymbolKind): Sign {
  return isNamedKind(kind) ? KINDS_SHOWN[kind].sign : OWN_SIGNS[kind];
}

export interface DocumentSymbol extends TextRange {
  readonly name: string;
  /** Title or what else tells it apart. */
  readonly detail?: string;
  readonly kind: SymbolKind;
  /** What to select when the symbol is chosen; inside the symbol. */
  readonly nameRange: TextRange;
  readonly children: readonly DocumentSymbol[];
}

export interface WorkspaceSymbol extends FileRange {
  readonly name: string;
  readonly kind: NamedKind;
  readonly detail?: string;
}

/** A search shows no more than this; the editor asks again with more letters. */
export const MOST_SYMBOLS = 300;

export function documentSymbols(file: SourceFile): readonly DocumentSymbol[] {
  return symbolsOf(file.facts);
}

/** Names of the design that match, best first. An empty query matches all. */
export function workspaceSymbols(model: DesignModel, query: string): readonly WorkspaceSymbol[] {
  const found: { readonly rank: number; readonly symbol: WorkspaceSymbol }[] = [];
  for (const file of model.allFiles()) {
    for (const { kind, name, fact } of file.declarations) {
      if (!isNamedKind(kind)) continue;
      const title = wordOf(fact, "title");
      const byTitle = title === undefined ? undefined : fuzzyRank(query, title);
      const rank = fuzzyRank(query, name) ?? (byTitle === undefined ? undefined : byTitle + 100);
      if (rank === undefined) continue;
      found.push({
        rank,
        symbol: { name, kind, detail: joined(kind, title), file: file.path, ...nameRangeOf(fact) },
      });
    }
  }
  return found
    .sort((a, b) => a.rank - b.rank || (a.symbol.name < b.symbol.name ? -1 : 1))
    .slice(0, MOST_SYMBOLS)
    .map(({ symbol }) => symbol);
}

function symbolsOf(facts: readonly Fact[]): readonly DocumentSymbol[] {
  return facts.flatMap((fact) => {
    const kind = symbolKind(fact);
    if (!kind) return [];
    const { start, end } = fact.statement;
    return [
      {
        ...label(fact, kind),
        kind,
        start,
        end,
        nameRange: nameRangeOf(fact),
        children: symbolsOf(fact.facts),
      },
    ];
  });
}

function symbolKind(fact: Fact): SymbolKind | undefined {
  const word = fact.property.name;
  if (fact.property === END) return "end";
  if (word === "network" || word === "climate" || word === "defaults") return word;
  // `antenna` in an end names one, at the left margin it declares one.
  return isNamedKind(word) && fact.args.some(({ spec }) => spec.name === "name") ? word : undefined;
}

function label(fact: Fact, kind: SymbolKind): { readonly name: string; readonly detail?: string } {
  const title = wordOf(fact, "title");
  switch (kind) {
    case "network":
      return { name: title || "network", detail: "network" };
    case "climate":
      return { name: "climate" };
    case "defaults":
      return { name: `defaults ${wordOf(fact, "of") ?? ""}`.trim() };
    case "end":
      return { name: wordOf(fact, "site") || "(site)", detail: joined("end", endDetail(fact)) };
    default:
      return {
        name: declaredName(fact) || kind,
        detail: joined(fact.template ? `template ${kind}` : kind, title),
      };
  }
}

/** In the words of the language: what an editor calls the kinds of its outline says nothing of a network. */
function joined(word: string, more: string | undefined): string {
  return more ? `${word}, ${more}` : word;
}

/** `DISH60-18, high` */
function endDetail(end: Fact): string | undefined {
  const words = end.facts.flatMap((fact) => {
    if (fact.property.name === "antenna") return wordOf(fact, "antenna") ?? [];
    if (fact.property.name === "transmits") return wordOf(fact, "value") ?? [];
    return [];
  });
  return words.length > 0 ? words.join(", ") : undefined;
}

function nameRangeOf(fact: Fact): TextRange {
  const arg = fact.args.find(
    ({ spec }) => spec.name === "name" || spec.name === "title" || spec.name === "of",
  );
  const { start, end } = arg ?? wordAtom(fact);
  return { start, end };
}
