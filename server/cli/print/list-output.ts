/**
 * Shape of `list --format json`. `hopwright schema list` prints its JSON Schema, which is generated from these types. A
 * change that a script could notice raises the number in `schema`.
 */
import type { ListSubject } from "../../../shared/lists/subjects/list.js";

export interface ListOutput {
  readonly schema: "hopwright-list/1";
  readonly version: string;
  /** Title of the design. */
  readonly title?: string;
  /** The time that figures are of, in words; left out where nothing in the design has a state. */
  readonly shows?: string;
  readonly lists: readonly SubjectOutput[];
}

export interface SubjectOutput {
  readonly subject: ListSubject;
  /** Units stand at the end of a column's name. */
  readonly columns: readonly { readonly name: string; readonly type: "text" | "number" | "date" }[];
  /** Values by the names of columns; what is not known or not stated is left out. */
  readonly rows: readonly { readonly [column: string]: string | number }[];
}
