import type { List } from "../../../shared/lists/subjects/list.js";
import { csvText } from "../../lists/csv-text.js";
import type { ListFormat } from "./format.js";

export const listCsv: ListFormat = {
  name: "csv",
  what: "a list with a line of heads",
  single: true,
  print: ({ lists: [list] }) => rows(list!),
};

function rows({ columns, rows: all }: List): Iterable<string> {
  return [csvText([columns.map(({ head }) => head)]), csvText(all.map(({ values }) => values))];
}
