/** Lists of others that a design names on both sides, and what a row that changed may have done to a hop. */
import { type ListChange, type RowChanges, rowChanges } from "../../shared/compare/other-lists.js";
import type { OthersList } from "../../shared/design/interference.js";
import { isOwn, type Owner } from "../../shared/interference/station.js";
import type { OthersFile } from "../../shared/others/listed.js";
import { shownFrom } from "../findings/paths.js";
import type { DesignSession } from "../session/design-session.js";

/** Of lists that are read in the same way: where a column means something else that is told, and every row is another. */
export async function listChanges(was: DesignSession, is: DesignSession): Promise<ListChange[]> {
  const [before, now] = [[...(await was.readListed()).others], [...(await is.readListed()).others]];
  return now.flatMap(([list, file], number): ListChange[] => {
    const other = before.findIndex(([one]) => isSameList(one, list));
    const changes = other < 0 ? undefined : changesOf(before[other]![1], file);
    if (changes === undefined) return [];
    const touched = [
      touchedBy(was, other, changes.lines[0]),
      touchedBy(is, number, changes.lines[1]),
    ] as const;
    return [
      {
        ...changes,
        entry: `others ${shownFrom(is.model.root, list.file)}`,
        touches: (then, after) => touched[0]().has(then ?? "") || touched[1]().has(after ?? ""),
      },
    ];
  });
}

function isSameList({ at: _, ...one }: OthersList, { at: __, ...other }: OthersList): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

function changesOf(was: OthersFile, is: OthersFile): RowChanges | undefined {
  if ("table" in was && "table" in is) return rowChanges(was.table, is.table);
  const words = (file: OthersFile) =>
    "table" in file ? `${file.table.count} rows` : `not usable: ${file.unusable}`;
  if (words(was) === words(is)) return undefined;
  return { decision: { word: "rows", was: words(was), is: words(is) }, lines: [new Set(), new Set()] };
}

/** Hops that hear one of these lines, or that it hears; worked out when it is asked for. */
function touchedBy(
  { interference, model }: DesignSession,
  list: number,
  lines: ReadonlySet<number>,
): () => ReadonlySet<string> {
  let found: ReadonlySet<string> | undefined;
  const isOne = (of: Owner) => !isOwn(of) && of.list === list && lines.has(of.line);
  return () => {
    if (found !== undefined) return found;
    const hops = new Set<string>();
    if (lines.size > 0) {
      for (const hop of model.names("hop"))
        for (const { entries, coLocated } of interference.of(hop))
          if ([...entries, ...coLocated].some(({ sender }) => isOne(sender.of))) hops.add(hop);
      for (const { receiver, entries, coLocated } of interference.ofOthers())
        if (isOne(receiver.of))
          for (const { sender } of [...entries, ...coLocated]) if (isOwn(sender.of)) hops.add(sender.of.hop);
    }
    return (found = hops);
  };
}
