/** What kinds of sheets have in common: each family makes its own from one judged design. */

import type { DesignRevision } from "../../shared/design/revision.js";
import type { SheetTemplate } from "../../shared/design/sheets.js";
import type { Page, Picture } from "../../shared/report/document/document.js";
import type { SheetWords } from "../../shared/report/sheets/words/sheet-words.js";
import type { JudgedDesign } from "../findings/judged-folder.js";

export interface SheetOptions {
  /** Of the family's kinds those that are asked for. */
  readonly kinds: readonly string[];
  /** Of this hop alone: families that are not about hops have none then. */
  readonly hop?: string;
  /** Of this site alone: families that are not about sites have none then. */
  readonly site?: string;
  readonly revision: DesignRevision;
  /** Undefined: the design states none, or none was chosen. */
  readonly template?: SheetTemplate;
  /** Of the template; undefined: it names none that can be shown. */
  readonly logo?: Omit<Picture, "alt">;
  readonly words: SheetWords;
  /** Of the design's sheets, empty or ending in `/`. */
  readonly folder: string;
}

export interface SheetFamily {
  /** What its sheets are about, one each; undefined: the whole design. */
  readonly about?: "hop" | "site";
  /** As typed behind `--sheet`; each is a folder of its sheets. */
  readonly kinds: readonly string[];
  pages(design: JudgedDesign, options: SheetOptions): Iterable<Page>;
}
