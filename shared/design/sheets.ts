/** What a design says of its sheets: which are made, what stands on them, and who hands them out. No figure rests on it. */
import type { Address } from "./address.js";

/** A section by its identifier, of one kind of sheets or of all that have it. */
export interface SheetSection {
  /** Address of its statement. */
  readonly at: Address;
  readonly section: string;
  readonly of?: string;
}

/** A label with what stands there. */
export interface OwnField {
  readonly label: string;
  /** Undefined: an empty box, to be filled in. */
  readonly value?: string;
  /** Site that states it, on sheets of a hop. */
  readonly at?: string;
}

export interface SheetTemplate {
  readonly at: Address;
  readonly name: string;
  /** Kinds that are made; undefined: all. */
  readonly kinds?: readonly string[];
  readonly leftOut: readonly SheetSection[];
  /** In this order, before all others. */
  readonly first: readonly SheetSection[];
  readonly company?: string;
  /** Path of the picture, absolute. */
  readonly logo?: { readonly file: string; readonly alt?: string };
  readonly head: readonly string[];
  readonly foot: readonly string[];
  readonly instructions: readonly { readonly text: string; readonly of?: string }[];
  readonly fields: readonly (OwnField & { readonly of?: string })[];
  readonly language?: "en" | "de";
  readonly paper?: "A4" | "Letter";
}
