/**
 * Names that read as something else than they are: letters of two scripts in one word, signs that nobody sees, and
 * two names that only a machine can tell apart.
 *
 * Which letters look alike is from memory, after Unicode Technical Standard #39; a few pairs of Latin, Greek and
 * Cyrillic are enough to tell slips of a keyboard layout and deceit.
 */

/** Greek and Cyrillic letters with the Latin ones that they look like. */
export const LATIN_LIKE_LETTERS: Readonly<Record<string, string>> = Object.fromEntries(
  [
    // Cyrillic
    ..."АA ВB ЕE КK МM НH ОO РP СC ТT УY ХX ЅS ІI ЈJ аa еe оo рp сc уy хx ѕs іi јj".split(" "),
    // Greek
    ..."ΑA ΒB ΕE ΖZ ΗH ΙI ΚK ΜM ΝN ΟO ΡP ΤT ΥY ΧX οo νv".split(" "),
  ].map((pair) => [pair[0]!, pair[1]!]),
);

/** Format characters, soft hyphens, joiners, marks of direction: all that stands in a word and is not seen. */
const UNSEEN = /\p{Cf}|\p{Zs}|\u034f|[\u115f\u1160\u17b4\u17b5\u3164]|[\ufe00-\ufe0f]/u;

const PLAIN = /^[\x21-\x7e]*$/;

/** What two names that look alike have in common. */
export function skeleton(name: string): string {
  if (PLAIN.test(name)) return name;
  return [...name.normalize("NFC")]
    .filter((letter) => !UNSEEN.test(letter))
    .map((letter) => LATIN_LIKE_LETTERS[letter] ?? letter)
    .join("");
}

/** What in a name is not what it looks like, one clause; undefined for a name that is. */
export function oddLetter(name: string): string | undefined {
  if (PLAIN.test(name)) return undefined;
  const unseen = UNSEEN.exec(name);
  if (unseen) return `${codeOf(unseen[0])} stands in it, which is not seen`;
  if (!/\p{Script=Latin}/u.test(name)) return undefined;
  const other = /[\p{Script=Cyrillic}\p{Script=Greek}]/u.exec(name)?.[0];
  if (other === undefined) return undefined;
  const script = /\p{Script=Cyrillic}/u.test(other) ? "Cyrillic" : "Greek";
  const like =
    LATIN_LIKE_LETTERS[other] === undefined ? "" : `, which looks like ${LATIN_LIKE_LETTERS[other]}`;
  return `${other} in it is ${script} ${codeOf(other)}${like}`;
}

function codeOf(letter: string): string {
  return `U+${letter.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`;
}
