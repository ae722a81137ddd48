/** What the files that a design names for interference were read as. Whoever hosts the core reads them. */
import type { OthersList } from "../design/interference.js";
import type { PatternFile } from "../radio/pattern-table.js";
import type { Picture } from "../report/document/document.js";
import type { OthersRead } from "./reading.js";

/** One clause says why a file cannot be used. */
export type OthersFile = OthersRead | { readonly unusable: string };

export type LogoFile = Omit<Picture, "alt"> | { readonly unusable: string };

export interface ListedFiles {
  /** By the list itself; one that is not in it was not read yet. */
  readonly others: ReadonlyMap<OthersList, OthersFile>;
  /** By path, absolute. */
  readonly patterns: ReadonlyMap<string, PatternFile>;
  /** Of templates of sheets, by path, absolute. */
  readonly logos: ReadonlyMap<string, LogoFile>;
}

export const NO_FILES: ListedFiles = { others: new Map(), patterns: new Map(), logos: new Map() };
