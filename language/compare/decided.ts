/** The decisions of a design, fact by fact in the words of its text, with the place that each one comes from. */
import { type DecidedFact, type DecidedHop, type Decisions, EVERYWHERE } from "../../shared/compare/facts.js";
import { isDated } from "../../shared/design/state.js";
import { type Argument, type Fact, wordOf } from "../facts/fact.js";
import { stateOf } from "../facts/states.js";
import type { DesignModel } from "../model/design-model.js";
import type { Declaration } from "../model/source-file.js";
import { spansIn } from "../model/standing.js";
import { inheritedFacts } from "../resolve/inherit.js";
import { END } from "../schema/index.js";

export function decisionsOf(model: DesignModel): Decisions {
  const hops = new Map<string, DecidedHop | undefined>();
  const behind = new Map<string, readonly string[]>();
  const entries = new Map<string, readonly DecidedFact[] | undefined>();
  const licences = Map.groupBy(model.declarations("licence"), ({ fact }) => textOf(fact));
  const licencesOf = Map.groupBy(licences.keys(), (key) => wordOf(licences.get(key)![0]!.fact, "of"));
  const factsOf = (key: string) => {
    const declared = licences.get(key);
    return declared ? licenceFacts(declared) : entryFacts(model, key);
  };
  return {
    hops: model.names("hop").filter((name) => model.standsHop(name)),
    hop: (name) => remembered(hops, name, () => decidedHop(model, name, behind, licencesOf.get(name) ?? [])),
    entries: [...entryKeys(model), ...licences.keys()],
    entry: (key) => remembered(entries, key, () => factsOf(key)),
    words: (key) =>
      licences
        .get(key)
        ?.map(({ content }) => content)
        .join("\n\n") ?? wordsOf(model, key),
  };
}

/** A licence is for one hop, and goes by all that its first line says. Of one line there may be several. */
function licenceFacts(declared: readonly Declaration[]): readonly DecidedFact[] {
  return [
    ...headFacts(declared[0]!.fact),
    ...declared.flatMap(({ fact }) => fact.facts.flatMap((one) => decided(one, {}))),
  ];
}

/** Statement of a hop that holds for a time. */
export interface TimedPart {
  /** Of the end that it stands at; undefined: the hop as a whole. */
  readonly site?: string;
  /** As written, in the one layout. */
  readonly text: string;
}

/** What of a hop has a state of its own, in the order of the text, whatever stands now. */
export function partsInTime(model: DesignModel, hop: string): readonly TimedPart[] {
  const entry = model.declarations(`hop ${hop}`)[0];
  if (!entry?.states) return [];
  return entry.fact.facts.flatMap((fact): TimedPart[] => {
    const site = fact.property === END ? wordOf(fact, "site") : undefined;
    const all = fact.property === END ? fact.facts : [fact];
    return all
      .filter((one) => one.property.name === "state" || stateOf(one) !== undefined)
      .map((one) => ({ site, text: textOf(one) }));
  });
}

/** Days on which parts of a hop are exchanged, come or go; not those of the hop itself. */
export function changesOf(model: DesignModel, hop: string): readonly string[] {
  const entry = model.declarations(`hop ${hop}`)[0];
  if (!entry?.states) return [];
  const days = new Set<string>();
  for (const fact of entry.fact.facts.filter(({ property }) => property.name !== "state"))
    for (const { from, until } of spansIn(fact))
      for (const day of [from, until]) if (isDated(day)) days.add(day);
  return [...days].sort();
}

function remembered<T>(known: Map<string, T>, key: string, make: () => T): T {
  if (!known.has(key)) known.set(key, make());
  return known.get(key)!;
}

const DEFAULTS = ["hop", "end"] as const;

/** The declaration, what it is like, and the defaults behind it. */
function wordsOf(model: DesignModel, key: string): string {
  const kind = key.split(" ")[0]!;
  const keys = [key, ...(DEFAULTS_BEHIND[kind] ?? [])];
  const seen = new Set<string>();
  for (let next = keys.pop(); next !== undefined; next = keys.pop()) {
    if (seen.has(next)) continue;
    seen.add(next);
    const like = wordOf(model.declarations(next)[0]?.fact, "like");
    if (like !== undefined) keys.push(`${kind} ${like}`);
  }
  return [...seen].flatMap((one) => model.declarations(one).map(({ content }) => content)).join("\n\n");
}

const DEFAULTS_BEHIND: Readonly<Record<string, readonly string[]>> = {
  hop: DEFAULTS.map((of) => `defaults ${of}`),
  site: ["defaults site"],
  demand: ["defaults demand"],
};

function decidedHop(
  model: DesignModel,
  name: string,
  behind: Map<string, readonly string[]>,
  licences: readonly string[],
): DecidedHop | undefined {
  const entry = model.declarations(`hop ${name}`)[0];
  if (!entry) return undefined;
  const ends = entry.fact.facts.filter(({ property }) => property === END);
  const own = entry.fact.facts.filter(({ property }) => property !== END);
  const facts: DecidedFact[] = [
    ...headFacts(entry.fact),
    ...withDefaults(own, model, "hop", {}),
    ...ends.flatMap((end): DecidedFact[] => {
      const site = wordOf(end, "site");
      if (site === undefined) return [];
      return [
        { site, word: "end", text: `end ${site}`, meaning: [`site ${site}`], repeatable: false },
        ...withDefaults(end.facts, model, "end", { site }),
      ];
    }),
  ];
  return {
    name,
    ends: ends.flatMap((end) => wordOf(end, "site") ?? []),
    facts,
    uses: [...usedBy(model, facts, name, behind), ...licences],
    names: [...new Set(facts.flatMap(({ meaning }) => meaning))],
  };
}

/** Everything that is looked up by name, with what stands behind it, defaults that hold, and what counts for every hop. */
function usedBy(
  model: DesignModel,
  facts: readonly DecidedFact[],
  name: string,
  behind: Map<string, readonly string[]>,
): Set<string> {
  const uses = new Set(EVERYWHERE);
  for (const { meaning, from } of facts) {
    for (const part of meaning) uses.add(part);
    if (from !== undefined) uses.add(from);
  }
  uses.delete(`hop ${name}`);
  const declared = new Set<string>();
  const open = [...uses];
  for (let key = open.pop(); key !== undefined; key = open.pop()) {
    if (declared.has(key) || key.startsWith("hop ") || model.declarations(key).length === 0) continue;
    declared.add(key);
    // What every hop has in common names much that no result of this one rests on.
    if (!EVERYWHERE.includes(key)) open.push(...remembered(behind, key, () => namedIn(model, key)));
  }
  return declared;
}

/** Declarations that another names: the cards and chassis of a site, what an entry is like. */
function namedIn(model: DesignModel, key: string): string[] {
  const named = new Set((entryFacts(model, key) ?? []).flatMap(({ meaning }) => meaning));
  return [...named].filter((part) => part !== key && model.declarations(part).length > 0);
}

/** Own facts first; a default holds where nothing of its word is stated. */
function withDefaults(
  own: readonly Fact[],
  model: DesignModel,
  of: "hop" | "end",
  place: Place,
): DecidedFact[] {
  const stated = new Set(own.map(({ property }) => property.name));
  // A fixed mode and a range of modes answer one question.
  if (stated.has("mode") || stated.has("modes")) stated.add("mode").add("modes");
  const defaults = model.declarations(`defaults ${of}`)[0]?.fact.facts ?? [];
  return [
    ...own.flatMap((fact) => decided(fact, place)),
    ...defaults
      .filter(({ property }) => !stated.has(property.name))
      .flatMap((fact) => decided(fact, { ...place, from: `defaults ${of}` })),
  ];
}

/** Hops, and what is an entry each. */
const OTHER_THAN_ENTRIES = new Set(["hop", "licence"]);

function entryKeys(model: DesignModel): string[] {
  const keys = new Set<string>();
  const files = model.files();
  // Whichever file was put in first.
  for (const path of [...files.keys()].sort())
    for (const { key, kind } of files.get(path)!.declarations)
      if (!OTHER_THAN_ENTRIES.has(kind)) keys.add(key);
  return [...keys];
}

/** Stated in several lines without a name of their own, which all count. */
const LISTED: ReadonlySet<string> = new Set(["others", "sheets"]);

function entryFacts(model: DesignModel, key: string): readonly DecidedFact[] | undefined {
  const declared = model.declarations(key);
  const [entry] = declared;
  if (!entry) return undefined;
  // Folders and lists may be named in several lines, which all count.
  if ((entry.fact.facts.length === 0 && !entry.name) || LISTED.has(entry.kind))
    return declared.flatMap(({ fact }) => decided(fact, {}));
  const facts =
    entry.kind === "network"
      ? entry.fact.facts.filter((fact) => !isDeclared(fact, entry, model))
      : inheritedFacts(entry, model.lookup);
  const stated = new Set(facts.map(({ property }) => property.name));
  const { kind } = entry;
  const defaults = kind === "site" || kind === "demand" ? model.lookup.defaults(kind) : [];
  return [
    ...headFacts(entry.fact),
    ...facts.flatMap((fact) => decided(fact, {})),
    ...defaults
      .filter(({ property }) => !stated.has(property.name))
      .flatMap((fact) => decided(fact, { from: `defaults ${kind}` })),
  ];
}

/** Whether a statement of the network is a declaration of its own, and compared as such. */
function isDeclared(fact: Fact, { file }: Declaration, model: DesignModel): boolean {
  return model.file(file)?.declarations.some((other) => other.fact === fact) ?? false;
}

/** What stands beside the name: the title, and for an entry what it is like. */
function headFacts(fact: Fact): DecidedFact[] {
  return fact.args
    .filter(({ spec, value }) => spec.name !== "name" && value !== undefined)
    .map((arg) => {
      const label = arg.spec.label ?? arg.spec.name;
      const text = `${label} ${argumentText(fact, arg)}`;
      return { word: label, text, meaning: [meaningOf(arg)], repeatable: false };
    });
}

interface Place {
  readonly site?: string;
  readonly within?: string;
  readonly from?: string;
}

/** A statement, and those of its block as facts of their own. */
function decided(fact: Fact, place: Place): DecidedFact[] {
  const { property, statement, facts } = fact;
  const word = property.name;
  const inner = facts.flatMap((one) => decided(one, { ...place, within: withinOf(fact, place) }));
  if (statement.block && fact.args.length === 0) return inner;
  const own: DecidedFact = {
    ...place,
    word,
    text: textOf(fact),
    meaning: meaningsOf(fact),
    repeatable: property.repeatable ?? false,
  };
  return [own, ...inner];
}

function withinOf(fact: Fact, { within }: Place): string {
  const here = textOf(fact);
  return within === undefined ? here : `${within} / ${here}`;
}

/**
 * Arguments by name, so that their order in the line says nothing, but that of the names in a list; what cannot be read
 * counts as written.
 */
function meaningsOf(fact: Fact): string[] {
  if (fact.args.length === 0 || !fact.args.every(({ value }) => value)) return [textOf(fact)];
  const meaning = (arg: Argument) =>
    isReference(arg) ? meaningOf(arg) : `${arg.spec.name} ${meaningOf(arg)}`;
  const { listed = [], single = [] } = Object.groupBy(fact.args, ({ spec }) =>
    spec.list ? "listed" : "single",
  );
  return [...single.map(meaning).sort(), ...listed.map(meaning)];
}

function isReference({ value }: Argument): boolean {
  return value?.type === "reference";
}

/** Twelve digits: 24 m and 2400 cm differ in the last bit only. */
function meaningOf({ value }: Argument): string {
  if (!value) return "";
  switch (value.type) {
    case "quantity":
      return `${Number(value.base.toPrecision(12))} ${value.dimension}`;
    case "reference":
      return `${value.kind} ${value.name}`;
    case "number":
      return String(value.number);
    case "position":
      return `${value.position.latitudeDeg.toFixed(9)} ${value.position.longitudeDeg.toFixed(9)}`;
    case "text":
    case "path":
      return value.text;
    case "date":
      return value.date;
    default:
      return value.word;
  }
}

/** The line as the one layout has it, its block left out. */
function textOf(fact: Fact): string {
  return atomsText(fact, fact.statement.start, Number.POSITIVE_INFINITY);
}

function argumentText(fact: Fact, { start, end }: Argument): string {
  return atomsText(fact, start, end);
}

function atomsText({ statement, args }: Fact, from: number, to: number): string {
  const quantities = new Set(args.flatMap(({ value, start }) => (value?.type === "quantity" ? [start] : [])));
  return statement.atoms
    .filter(({ start, end }) => start >= from && end <= to)
    .map(({ text, start, kind }) =>
      kind === "word" && quantities.has(start)
        ? text.replace(/^([+\-−]?[\d.]+(?:[eE][+-]?\d+)?)(?=\D)/, "$1 ")
        : text,
    )
    .join(" ");
}
