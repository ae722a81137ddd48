/**
 * Words for people. A message is made by the functions of this folder and opened by what shows it: a printer, a page,
 * a finding. Between the two it is no string, so that nothing can look for a word in it; who wants to know what it is
 * about asks the data that it was made of.
 */
declare const OPAQUE: unique symbol;

export interface Message {
  readonly [OPAQUE]: "only what shows it opens it";
}

/** For the word functions of this folder. */
export function message(text: string): Message {
  return text as unknown as Message;
}

/** A sentence as a part of another: without its full stop, and with a small letter. */
export function asClause(sentence: Message): string {
  return shown(sentence)
    .replace(/\.$/, "")
    .replace(/^[A-Z]/, (first) => first.toLowerCase());
}

/** The text, to be shown and not to be read. */
export function shown(one: Message): string {
  return one as unknown as string;
}
