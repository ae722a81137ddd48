/**
 * The form of the property table: one row a statement, one entry an argument. Reading, checking,
 * completion, hover, colouring, formatting and the reference pages all work from these rows.
 */
import type { Position } from "../../shared/design/design.js";
import type { Dimension } from "../../shared/units/units.js";
import type { Into, Things, WordPlaces } from "./into.js";
import type { NamedKind } from "./kinds.js";

/** Kinds of which a hop or an end gets the thing itself, not the name. */
type Resolved = Pick<Things, "antenna" | "coupler" | "feeder" | "radio" | "cable" | "objective">;

/** Where statements stand: the file itself, or the block of a statement that opens this context. */
export type Context =
  | "file"
  | "network"
  | "climate"
  | "interference"
  | "others"
  | "licence"
  | "sheets"
  | "spectrum"
  | "defaults hop"
  | "defaults end"
  | "defaults site"
  | "defaults demand"
  | "traffic"
  | "site chassis"
  | "service"
  | "as-built"
  | "end"
  | NamedKind;

/** A number with a unit. Limits are written with their unit; `above` and `below` exclude the limit itself. */
export interface QuantitySpec {
  readonly type: "quantity";
  readonly dimension: Dimension;
  readonly min?: string;
  readonly max?: string;
  readonly above?: string;
  readonly below?: string;
  /** Why there are these limits, where a figure that breaks them is a usual mistake; ends the message. */
  readonly because?: string;
  /**
   * What it usually is, in each unit that it is written in, the commonest first: `-15 to 36 dBm`. A figure whose unit
   * or sign is wrong is read by them, and nothing outside of them is offered. Common practice. Without them the limits.
   */
  readonly usual?: readonly string[];
}

export interface NumberSpec {
  readonly type: "number";
  readonly min?: number;
  readonly max?: number;
  readonly integer?: boolean;
}

/** One of these words (or phrases of several words), each with its meaning. */
export interface WordSpec<Word extends string = string> {
  readonly type: "word";
  readonly words: Readonly<Record<Word, string>>;
  /** Words that are no choice any more, each with what is to be done instead. */
  readonly left?: Readonly<Record<string, LeftWord>>;
}

export interface ReferenceSpec<Kind extends NamedKind = NamedKind> {
  readonly type: "reference";
  readonly kind: Kind;
  /** It may be the name of one of these as well; what is declared tells which. */
  readonly orKind?: NamedKind;
  /** Words that stand here in place of a name, each with its meaning. */
  readonly words?: Readonly<Record<string, string>>;
}

/** Latitude and longitude: two atoms, decimal or degrees-minutes-seconds. */
interface PositionSpec {
  readonly type: "position";
}

export interface TextSpec {
  readonly type: "text";
  /** Words in braces that stand for something; undefined: braces are letters like others. */
  readonly stands?: Readonly<Record<string, string>>;
  /** Of those, the words of which one is wanted, and why. */
  readonly oneOf?: { readonly words: readonly string[]; readonly why: string };
}

/** A day of the calendar. */
interface DateSpec {
  readonly type: "date";
}

/** Any one word, for example a modulation; `example` shows one. */
interface FreeSpec {
  readonly type: "free";
  readonly example: string;
}

export type ValueSpec =
  | QuantitySpec
  | NumberSpec
  | WordSpec
  | FreeSpec
  | ReferenceSpec
  | PositionSpec
  /** The name being declared. */
  | { readonly type: "name" }
  | TextSpec
  /** A quoted file or folder, relative to the file that names it. */
  | { readonly type: "path" }
  | DateSpec
  /** The identifier of a rule. */
  | { readonly type: "rule" };

/** A word that left the language: what replaces it, or a sentence where nothing does. */
export type LeftWord = { readonly write: string } | { readonly instead: string };

interface ArgWords {
  readonly name: string;
  /** Words that announce it (`at`, `at k`); without one it is found by its place. */
  readonly label?: string;
  readonly optional?: boolean;
  readonly meaning: string;
  /** What holds when it is left out. */
  readonly fallback?: string;
  /** Written behind a slash: `F.595 / 55 MHz / 4`. */
  readonly slash?: boolean;
  /** Several, parted by commas; it is the last of its line, or a label follows. */
  readonly list?: true;
}

/**
 * What an argument may be, the first that fits is taken; and where resolving puts it, one place for each thing that is
 * filled from such a statement. Without a place, what is made of it stands in `language/resolve/`.
 */
type Taken =
  | { readonly value: QuantitySpec | NumberSpec; readonly into: SomeOf<Into<number>> }
  /** Words that the field does not know, or lacks, do not compile. */
  | { [P in keyof WordPlaces]: WordInto<P> }[keyof WordPlaces]
  | { readonly value: WordSpec<"yes" | "no">; readonly into: SomeOf<Into<true>> }
  | {
      readonly value: WordSpec | FreeSpec | TextSpec | DateSpec | ReferenceSpec<"hop">;
      readonly into: SomeOf<Into<string>>;
    }
  | { readonly value: PositionSpec; readonly into: SomeOf<Into<Position>> }
  | { [Kind in keyof Resolved]: ReferenceInto<Kind> }[keyof Resolved]
  | { readonly value: ValueSpec | readonly ValueSpec[]; readonly into?: undefined };

interface WordInto<P extends keyof WordPlaces> {
  readonly value: WordSpec<WordPlaces[P]>;
  readonly into: P;
}

interface ReferenceInto<Kind extends keyof Resolved> {
  readonly value: ReferenceSpec<Kind>;
  readonly into: Into<Resolved[Kind]>;
}

type SomeOf<P> = P | readonly P[];

export type ArgSpec = ArgWords & Taken;

export interface Property {
  readonly name: string;
  readonly in: readonly Context[];
  readonly args: readonly ArgSpec[];
  /** The context its block opens; a statement without it must not have a block. */
  readonly block?: Context;
  readonly repeatable?: boolean;
  /** Words that colleagues use for it; the message about an unknown word leads from them to the name. */
  readonly alsoCalled?: readonly string[];
  readonly meaning: string;
  /** What holds when the statement is missing. */
  readonly fallback?: string;
  /** Document or practice it follows. */
  readonly source: string;
  /** A line as it may stand in a file. */
  readonly example: string;
}
