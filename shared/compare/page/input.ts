import type { Figure } from "../../report/document/document.js";
import type { ChangeSet, HopChange } from "../change-set.js";
import type { TimedChanges } from "../times.js";
import type { Placing } from "./finding-items.js";

/** What a page of changes is made of. */
export interface ChangePageInput {
  readonly name: string;
  readonly title: string;
  readonly subtitle: string;
  /** What changes and when, with where findings stand then. */
  readonly times: readonly (TimedChanges & Placing)[];
  /** One sentence in place of key figures, for a printer that has no room for them. */
  readonly inWords?: boolean;
  /** What the comparison leaves out or takes as it is. */
  readonly notes: readonly string[];
  /** Both profiles over each other, where the printer shows drawings. */
  drawing?(change: HopChange): Figure | undefined;
  readonly colophon: string;
}

/** What the sections of one time are made from. */
export interface TimeInput extends Placing, Pick<ChangePageInput, "drawing"> {
  readonly changes: ChangeSet;
}
