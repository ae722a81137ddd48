/** What changed beside hops and sites: what the network must carry, and what hops share. */
import type { Section, TableRow } from "../../report/document/document.js";
import type { SharedChange } from "../change-set.js";
import { entryWords } from "../words.js";
import { findingItems } from "./finding-items.js";
import type { TimeInput } from "./input.js";
import { rowsOfDecisions } from "./tables.js";

/** No hop rests on these: they rest on hops. */
const OF_DEMANDS = /^(demand |traffic$|defaults demand$)/;

const DECIDED = [{ title: "What" }, { title: "Was" }, { title: "Is" }];

export function sharedSections(input: TimeInput): Section[] {
  const { demands = [], others = [] } = Object.groupBy(input.changes.shared, ({ entry }) =>
    OF_DEMANDS.test(entry) ? "demands" : "others",
  );
  return [
    ...sectionOf("demands", "What is carried", demands, input),
    ...sectionOf("shared", "What hops share", others, input, true),
  ];
}

/** @param withHops with a column of the hops for which each counts */
function sectionOf(
  id: string,
  title: string,
  changes: readonly SharedChange[],
  input: TimeInput,
  withHops = false,
): Section[] {
  if (changes.length === 0) return [];
  const rows = changes.flatMap((change): TableRow[] => {
    const { entry, status, renamedFrom, decisions, usedBy, affects } = change;
    const named = nowAndBefore(entryWords(entry), renamedFrom);
    const hops = withHops ? [`${usedBy}, ${affects} of them with consequences`] : [];
    if (decisions.length === 0) return [{ cells: [named, "", status === "changed" ? "" : status, ...hops] }];
    return rowsOfDecisions(decisions).map(({ cells }, index) => ({
      cells: [
        whichOf(entry, decisions, index) ?? (index === 0 ? named : ""),
        cells[1]!,
        cells[2]!,
        ...(index === 0 ? hops : hops.map(() => "")),
      ],
    }));
  });
  const items = changes.flatMap(({ findings, entry }) => findingItems(findings, input, entryWords(entry)));
  const columns = withHops ? [...DECIDED, { title: "Hops" }] : DECIDED;
  const blocks: Section["blocks"] = [
    { type: "table", columns, rows },
    ...(items.length > 0 ? [{ type: "list", items } as const] : []),
  ];
  return [{ id, title, blocks }];
}

/** Of licences, which have one entry together: the one that a row is about, where it is another than above. */
function whichOf(entry: string, decisions: SharedChange["decisions"], index: number): string | undefined {
  const within = entry === "licence" ? decisions[index]!.within : undefined;
  return within === decisions[index - 1]?.within ? undefined : within;
}

export function nowAndBefore(name: string, renamedFrom: string | undefined): string {
  return renamedFrom === undefined ? name : `${name} (was ${renamedFrom})`;
}
