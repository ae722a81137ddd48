/** File names for pages: whatever a hop is called, its page has a name that every file system and URL can bear. */

/** Names that Windows keeps for itself. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/i;

/** One file name for each word, all different also where upper and lower case are the same. */
export function fileNames(words: readonly string[]): Map<string, string> {
  const names = new Map<string, string>();
  const taken = new Set<string>();
  for (const word of words) {
    const plain =
      word
        .replace(/[^\p{L}\p{N}_+.-]+/gu, "_")
        .replace(/^\.+|\.+$/g, "_")
        .slice(0, 100) || "_";
    const base = RESERVED.test(plain) ? `${plain}_` : plain;
    let name = base;
    for (let number = 2; taken.has(name.toLowerCase()); number++) name = `${base}-${number}`;
    taken.add(name.toLowerCase());
    names.set(word, name);
  }
  return names;
}
