/** Names of a list, laid out: `route via KELD-TARN, RIDGE`, however commas and blanks parted them. */
import type { Fact } from "../facts/fact.js";
import { isComma, parted } from "../facts/listed.js";
import { parse } from "../syntax/parse.js";
import type { Atom, Statement } from "../syntax/tree.js";

/** By the atoms of statements with a list that is read whole. */
export type Lists = ReadonlyMap<readonly Atom[], List>;

interface List {
  readonly atoms: readonly Atom[];
  readonly names: ReadonlySet<number>;
}

/** The atoms with one comma behind each name of a list but the last. */
export function listed(lists: Lists, { atoms }: Statement): readonly Atom[] {
  const list = lists.get(atoms);
  if (!list) return atoms;
  return list.atoms.flatMap((atom, at): Atom[] => {
    if (isComma(atom)) return [];
    const next = list.atoms.slice(at + 1).find((one) => !isComma(one));
    const isFollowed = list.names.has(atom.start) && next !== undefined && list.names.has(next.start);
    return [isFollowed ? { ...atom, text: `${atom.text},` } : atom];
  });
}

export function listsIn(facts: readonly Fact[], into: Map<readonly Atom[], List> = new Map()): Lists {
  for (const { property, statement, args, facts: inner } of facts) {
    const names = args.filter(({ spec }) => spec.list);
    const atoms = parted(property, statement.atoms);
    const commas = atoms.filter(isComma).length;
    // A comma too many, or what is no name by itself, is a mistake that is told and stays for whoever wrote it.
    if (
      names.length > 0 &&
      commas < names.length &&
      !isComma(atoms.at(-1)!) &&
      isOneList(atoms, names) &&
      atoms.every(readsAlone)
    )
      into.set(statement.atoms, { atoms, names: new Set(names.map(({ start }) => start)) });
    listsIn(inner, into);
  }
  return into;
}

/** `/A` behind a comma is one word, and behind a blank two. */
function readsAlone({ text, kind }: Atom): boolean {
  if (kind !== "word") return true;
  const atoms = parse(text).statements.flatMap((statement) => statement.atoms);
  return atoms.length === 1 && (atoms[0]!.kind === "word" || atoms[0]!.kind === "number");
}

/** Whether nothing but names and single commas between two of them stand in it. */
function isOneList(atoms: readonly Atom[], names: Fact["args"]): boolean {
  const first = atoms.findIndex(({ start }) => start === names[0]!.start);
  return atoms.every((atom, at) => !isComma(atom) || (at > first && !isComma(atoms[at - 1]!)));
}
