/** What has a new name and is the same thing: said as a renaming, not as one thing gone and another come. */
import type { Address } from "../design/address.js";
import { type DecidedFact, type DecidedHop, type Decisions, isLicence } from "./facts.js";

/** Old name to new name. */
export interface Renames {
  readonly hops: ReadonlyMap<string, string>;
  /** Keys of declarations: `site KELD` to `site KELD-N`. */
  readonly entries: ReadonlyMap<string, string>;
}

export function findRenames(was: Decisions, is: Decisions): Renames {
  const entries = renamedEntries(was, is);
  const hops = renamedHops(was, is, entries);
  const licences = movedLicences(was, is, { entries, hops });
  return { entries: licences.size === 0 ? entries : new Map([...entries, ...licences]), hops };
}

/** A licence of a hop or site that has another name now is the same licence, whatever else it says. */
function movedLicences(was: Decisions, is: Decisions, renames: Renames): Map<string, string> {
  const [before, after] = [was, is].map(({ entries }) => new Set(entries.filter(isLicence)));
  const gone = [...before!].filter((key) => !after!.has(key));
  const come = [...after!].filter((key) => !before!.has(key));
  if (gone.length === 0 || come.length === 0) return new Map();
  const head = ({ entry }: Decisions, key: string, now: (meaning: readonly string[]) => readonly string[]) =>
    (entry(key) ?? [])
      .filter(({ word }) => OF_LICENCE.has(word))
      .map(({ word, meaning }) => [word, ...now(meaning)].join("\t"))
      .join("\n");
  const known = new Map(come.map((key) => [head(is, key, (meaning) => meaning), key]));
  return new Map(
    gone.flatMap((key): [string, string][] => {
      const found = known.get(head(was, key, (meaning) => meaningNow(meaning, renames)));
      return found === undefined ? [] : [[key, found]];
    }),
  );
}

/** What says which licence it is. */
const OF_LICENCE: ReadonlySet<string> = new Set(["number", "of", "from"]);

/** The name that an old site has on the new side. */
export function siteNow(site: string, { entries }: Renames): string {
  return (entries.get(`site ${site}`) ?? `site ${site}`).slice("site ".length);
}

export function hopNow(hop: string, { hops }: Renames): string {
  return hops.get(hop) ?? hop;
}

/** An address of the old side, as the new side would write it. */
export function addressNow(address: Address, renames: Renames): Address {
  const [top = "", ...steps] = address.split(" / ");
  const newTop = top.startsWith("hop ")
    ? `hop ${hopNow(top.slice("hop ".length), renames)}`
    : (renames.entries.get(top) ?? top);
  return [newTop, ...steps.map((step) => siteNow(step, renames))].join(" / ");
}

/** What a finding of the old side is about, with the new names: an address, or names of hops and sites among words. */
export function aboutNow(about: string, renames: Renames): string {
  const address = addressNow(about, renames);
  if (address !== about || (renames.hops.size === 0 && renames.entries.size === 0)) return address;
  const now = (word: string) => renames.hops.get(word) ?? siteNow(word, renames);
  return about.split(" ").map(now).join(" ");
}

/** What an old fact means, told with the new names. */
export function meaningNow(meaning: readonly string[], { entries, hops }: Renames): readonly string[] {
  if (entries.size === 0 && hops.size === 0) return meaning;
  const hop = (part: string) => (part.startsWith("hop ") ? hops.get(part.slice("hop ".length)) : undefined);
  return meaning.map((part) => {
    const now = hop(part);
    return now === undefined ? (entries.get(part) ?? part) : `hop ${now}`;
  });
}

/** An entry whose name is gone, and one of its kind that is new and states the same; a site is known by its position. */
function renamedEntries(was: Decisions, is: Decisions): Map<string, string> {
  const before = new Set(was.entries);
  const after = new Set(is.entries);
  const gone = was.entries.filter((key) => !after.has(key) && !isLicence(key));
  const come = is.entries.filter((key) => !before.has(key) && !isLicence(key));
  const renames = new Map<string, string>();
  if (gone.length === 0 || come.length === 0) return renames;
  const known = Map.groupBy(come, (key) => signOf(key, is.entry(key) ?? []) ?? "");
  for (const key of gone) {
    const sign = signOf(key, was.entry(key) ?? []);
    const [found] = sign === undefined ? [] : (known.get(sign) ?? []);
    if (found === undefined) continue;
    renames.set(key, found);
    known.set(sign!, known.get(sign!)!.slice(1));
  }
  return renames;
}

/** Undefined when the entry says too little to be known again. */
function signOf(key: string, facts: readonly DecidedFact[]): string | undefined {
  const kind = key.split(" ")[0]!;
  const telling = kind === "site" ? facts.filter(({ word }) => word === "at") : facts;
  const said = telling.filter(({ word }) => word !== "title").map(factSign);
  return said.length === 0 ? undefined : `${kind}\n${said.sort().join("\n")}`;
}

function factSign({ within = "", word, meaning }: DecidedFact): string {
  return [within, word, ...meaning].join("\t");
}

/** Hops between the same two sites; of several parallel ones those that state most in common. */
function renamedHops(
  was: Decisions,
  is: Decisions,
  entries: ReadonlyMap<string, string>,
): Map<string, string> {
  const before = new Set(was.hops);
  const after = new Set(is.hops);
  const partial: Renames = { entries, hops: new Map() };
  const ends = (hop: DecidedHop, now: boolean) =>
    hop.ends
      .map((site) => (now ? site : siteNow(site, partial)))
      .sort()
      .join("\t");
  const come = is.hops.filter((name) => !before.has(name)).map((name) => is.hop(name)!);
  const free = Map.groupBy(
    come.filter((hop) => hop.ends.length === 2),
    (hop) => ends(hop, true),
  );
  const renames = new Map<string, string>();
  for (const name of was.hops) {
    const hop = after.has(name) ? undefined : was.hop(name);
    if (hop?.ends.length !== 2) continue;
    const key = ends(hop, false);
    const candidates = free.get(key) ?? [];
    const said = new Set(
      hop.facts.map((fact) => factSign({ ...fact, meaning: meaningNow(fact.meaning, partial) })),
    );
    const inCommon = (other: DecidedHop) => other.facts.filter((fact) => said.has(factSign(fact))).length;
    const best = candidates.toSorted((a, b) => inCommon(b) - inCommon(a))[0];
    if (!best) continue;
    renames.set(name, best.name);
    free.set(
      key,
      candidates.filter((one) => one !== best),
    );
  }
  return renames;
}
