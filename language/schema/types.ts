/**
 * The form of the property table: one row a statement, one entry an argument. Reading, checking,
 * completion, hover, colouring, formatting and the reference pages all work from these rows.
 */
import type { Dimension } from "../../shared/units/units.js";
import type { NamedKind } from "./kinds.js";

/** Where statements stand: the file itself, or the block of a statement that opens this context. */
export type Context =
  | "file"
  | "network"
  | "climate"
  | "defaults hop"
  | "defaults end"
  | "defaults site"
  | "site chassis"
  | "end"
  | NamedKind;

export type ValueSpec =
  /** A number with a unit. Limits are written with their unit; `above` and `below` exclude the limit itself. */
  | {
      readonly type: "quantity";
      readonly dimension: Dimension;
      readonly min?: string;
      readonly max?: string;
      readonly above?: string;
      /**
       * What it usually is, in each unit that it is written in, the commonest first: `-15 to 36 dBm`. A figure whose unit
       * or sign is wrong is read by them, and nothing outside of them is offered. Common practice. Without them the limits.
       */
      readonly usual?: readonly string[];
    }
  | { readonly type: "number"; readonly min?: number; readonly max?: number; readonly integer?: boolean }
  /** One of these words (or phrases of several words), each with its meaning. */
  | {
      readonly type: "word";
      readonly words: Readonly<Record<string, string>>;
      /** Words that are no choice any more, each with what is to be done instead. */
      readonly left?: Readonly<Record<string, LeftWord>>;
    }
  /** Any one word, for example a modulation; `example` shows one. */
  | { readonly type: "free"; readonly example: string }
  | { readonly type: "reference"; readonly kind: NamedKind }
  /** The name being declared. */
  | { readonly type: "name" }
  | { readonly type: "text" }
  /** A quoted file or folder, relative to the file that names it. */
  | { readonly type: "path" }
  | { readonly type: "date" }
  /** Latitude and longitude: two atoms, decimal or degrees-minutes-seconds. */
  | { readonly type: "position" }
  /** The identifier of a rule. */
  | { readonly type: "rule" };

/** A word that left the language: what replaces it, or a sentence where nothing does. */
export type LeftWord = { readonly write: string } | { readonly instead: string };

export interface ArgSpec {
  readonly name: string;
  /** Words that announce it (`at`, `at k`); without one it is found by its place. */
  readonly label?: string;
  readonly optional?: boolean;
  /** What it may be; the first that fits is taken. */
  readonly value: ValueSpec | readonly ValueSpec[];
  readonly meaning: string;
  /** What holds when it is left out. */
  readonly fallback?: string;
  /** Written behind a slash: `F.595 / 55 MHz / 4`. */
  readonly slash?: boolean;
}

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
