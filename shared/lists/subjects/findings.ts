import { type List, type ListColumn, listOf, number, shownOnColumn, text } from "./list.js";
import type { ListedDesign, ListedFinding } from "./listed-design.js";

const COLUMNS: readonly ListColumn<ListedFinding>[] = [
  text("severity", ({ severity }) => severity),
  text("rule", ({ rule }) => rule),
  text("hop", ({ hop }) => hop),
  text("message", ({ message }) => message),
  { head: "holds_from", type: "date", of: ({ time }) => time?.from },
  { head: "holds_until", type: "date", of: ({ time }) => time?.until },
  text("help", ({ help }) => help),
  text("file", ({ file }) => file),
  number("line", 0, ({ line }) => line),
  number("column", 0, ({ column }) => column),
  text("accepted", ({ accepted }) => (accepted ? "yes" : undefined)),
  text("because", ({ accepted }) => accepted?.reason),
  { head: "accepted_until", type: "date", of: ({ accepted }) => accepted?.until },
];

export function findingList({ findings, shownOn }: ListedDesign): List {
  return listOf("findings", [...COLUMNS, ...shownOnColumn(shownOn)], findings);
}
