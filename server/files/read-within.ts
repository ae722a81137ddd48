/** Reads design files as long as they are together no more than memory holds; the rest is told, and not read. */
import type { SourceFile } from "../../language/model/source-file.js";
import type { HopText, UnreadableFile } from "./hop-files.js";

/** Of all that is read at once; ours: three times a network of 100,000 hops, and 4 KB of memory each. */
export const MOST_DECLARATIONS = 300_000;
/** Characters; ours: up to 75 bytes of memory each. */
const MOST_CHARACTERS = 48 * 2 ** 20;

/** @param known files that were read before */
export function readWithin(
  texts: readonly HopText[],
  read: (path: string, text: string) => SourceFile,
  known: Iterable<SourceFile>,
): { readonly files: readonly SourceFile[]; readonly unread: readonly UnreadableFile[] } {
  let [declarations, characters] = [0, 0];
  const count = (file: SourceFile) => {
    declarations += file.declarations.length;
    characters += file.text.length;
  };
  for (const file of known) count(file);
  const files: SourceFile[] = [];
  const unread: UnreadableFile[] = [];
  for (const { path, text } of texts) {
    if (declarations >= MOST_DECLARATIONS || characters + text.length > MOST_CHARACTERS) {
      const reached =
        declarations >= MOST_DECLARATIONS
          ? `the files before it declare ${declarations} things (limit ${MOST_DECLARATIONS})`
          : `with the files before it that is more than ${MOST_CHARACTERS / 2 ** 20} MB of text`;
      unread.push({
        path,
        message: `not read: ${reached}; part it into designs, each in a folder of its own that is opened by itself`,
      });
      continue;
    }
    const file = read(path, text);
    count(file);
    files.push(file);
  }
  return { files, unread };
}
