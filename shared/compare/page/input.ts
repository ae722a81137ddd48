import type { Figure } from "../../report/document/document.js";
import type { ChangeSet, HopChange } from "../change-set.js";
import type { EarlierChanges } from "../earlier.js";
import type { FindingChange } from "../findings.js";

/** What a page of changes is made of. */
export interface ChangePageInput {
  readonly name: string;
  readonly title: string;
  readonly subtitle: string;
  readonly changes: ChangeSet;
  /** What changes only for a time before that, with where its findings stand then. */
  readonly earlier?: readonly (EarlierChanges & Pick<ChangePageInput, "where">)[];
  /** One sentence in place of key figures, for a printer that has no room for them. */
  readonly inWords?: boolean;
  /** What the comparison leaves out or takes as it is. */
  readonly notes: readonly string[];
  /** Where a finding stands in the text. */
  where?(change: FindingChange): string | undefined;
  /** Both profiles over each other, where the printer shows drawings. */
  drawing?(change: HopChange): Figure | undefined;
  readonly colophon: string;
}
