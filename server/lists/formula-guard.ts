/** A text of a list that a spreadsheet would take for a formula travels behind an apostrophe. */

/** How such a text begins: blanks before the sign help nobody, since some programs trim them. */
const STEERING = String.raw`(?:\s*[=+\-@']|[\t\r])`;
const BEGINS = new RegExp(`^${STEERING}`);
const GUARDED = new RegExp(`^'${STEERING}`);

/** The text as it goes into a list; one that begins with an apostrophe gets a second. */
export function guarded(text: string): string {
  return BEGINS.test(text) ? `'${text}` : text;
}

/** The text that `guarded` was given. */
export function unguarded(cell: string): string {
  return GUARDED.test(cell) ? cell.slice(1) : cell;
}
