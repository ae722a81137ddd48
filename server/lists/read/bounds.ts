/** How much of a list is read. Nobody keeps more of a network in one; what is larger is something else, or a trap. */

export const MOST_FILE_BYTES = 256 * 2 ** 20;
/** Of an archive, all that is read of it together. */
export const MOST_UNPACKED_BYTES = 256 * 2 ** 20;
export const MOST_ROWS = 400_000;
export const MOST_COLUMNS = 500;
export const LONGEST_LINE = 1_000_000;
/** Texts that a workbook holds once for all its cells. */
export const MOST_TEXTS = 4_000_000;
/** Of one cell; longer ones are cut, and are no name and no figure. */
export const LONGEST_CELL = 10_000;
/** Of the thread that unpacks and parses. */
export const MOST_HEAP_MB = 1_024;

/** A list that is not read, with one clause that says why. */
export class UnfitList extends Error {}
