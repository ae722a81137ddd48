/**
 * File names for pages: whatever a hop is called, its page has a name that every file system and URL can bear, and the
 * same in every run: it follows from the hop's own name, not from the order in which hops stand.
 */
import { createHash } from "node:crypto";

/** Names that Windows keeps for itself. */
/** Windows takes what stands before the first dot for a device. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;
const LONGEST = 100;
/** So many hexadecimal digits part what else would read the same. */
const MARK_DIGITS = 6;

/** One file name for each word, all different also where upper and lower case are the same. */
export function fileNames(words: readonly string[]): Map<string, string> {
  const alike = Map.groupBy(new Set(words), (word) => plainOf(word).toLowerCase());
  const names = new Map<string, string>();
  for (const word of words) {
    const plain = plainOf(word);
    // A name that is its own stays it, unless another differs from it by case alone.
    const others = alike
      .get(plain.toLowerCase())!
      .filter((other) => other !== word && plainOf(other) === other);
    names.set(word, plain === word && others.length === 0 ? word : `${plain}-${markOf(word)}`);
  }
  return names;
}

function plainOf(word: string): string {
  const plain =
    word
      .normalize("NFC")
      .replace(/[^\p{L}\p{M}\p{N}_+.-]+/gu, "_")
      .replace(/^\.+|\.+$/g, "_")
      .slice(0, LONGEST) || "_";
  return RESERVED.test(plain) ? `${plain}_` : plain;
}

function markOf(word: string): string {
  return createHash("sha256").update(word).digest("hex").slice(0, MARK_DIGITS);
}
