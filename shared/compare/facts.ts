/**
 * Decisions as the design's text states them, in its own words. The language hands them in; comparing knows
 * nothing of statements and files.
 */

/** One statement. */
export interface DecidedFact {
  /** Site of the end that it stands at; undefined: the hop as a whole, or an entry. */
  readonly site?: string;
  /** The block within the hop or entry that it stands in, for example `climate`. */
  readonly within?: string;
  /** The word that begins it, for example `antenna`. */
  readonly word: string;
  /** As written, in the one layout, for example `antenna DISH60-18 at 24 m`. */
  readonly text: string;
  /** What it says, part by part: equal where a value is only written in another unit. Names carry their kind: `site KELD`. */
  readonly meaning: readonly string[];
  readonly repeatable: boolean;
  /** The declaration that states it when it is not the hop itself, for example `defaults hop`. */
  readonly from?: string;
}

export interface DecidedHop {
  readonly name: string;
  /** Sites of its ends in the order of the text; two, or fewer while it is being written. */
  readonly ends: readonly string[];
  /** Own facts and the defaults that hold where it states nothing. */
  readonly facts: readonly DecidedFact[];
  /** Declarations that count for it by name, by what it names, or for every hop: `radio R18`, `card MIST`, `climate`. */
  readonly uses: readonly string[];
  /** What it names itself, also where nothing of that name is declared. */
  readonly names: readonly string[];
}

/** Everything that one side of a comparison states. */
export interface Decisions {
  /** Names of the hops that stand, also of those that cannot be evaluated yet. */
  readonly hops: readonly string[];
  hop(name: string): DecidedHop | undefined;
  /**
   * Keys of all declarations other than hops: `site KELD`, `radio R18`, `defaults hop`, `climate`. Of a licence all that
   * says which it is: `licence "F-2031/14" of KELD-TARN from KELD`.
   */
  readonly entries: readonly string[];
  /** Facts of a declaration with what it inherits. */
  entry(key: string): readonly DecidedFact[] | undefined;
  /** The words behind the facts of a declaration (`hop KELD-TARN`, `site KELD`): equal, and so are the facts. */
  words(key: string): string;
}

/** Keys of declarations that count for every hop without being named in it. */
export const EVERYWHERE: readonly string[] = [
  "network",
  "terrain",
  "maps",
  "climate",
  "policy",
  "interference",
  "others",
  "licences",
];

/** Whether a key is that of one licence, which counts for the one hop that it names. */
export function isLicence(key: string): boolean {
  return key.startsWith("licence ");
}

/** Whether a key is that of the rows of a list of others: `others register.csv`. */
export function isOthersList(key: string): boolean {
  return key.startsWith("others ");
}
