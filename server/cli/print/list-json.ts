import type { List } from "../../../shared/lists/subjects/list.js";
import { VERSION } from "../../version.js";
import type { Listed, ListFormat } from "./format.js";
import { jsonText } from "./json-text.js";
import type { ListOutput, SubjectOutput } from "./list-output.js";

export const listJson: ListFormat = {
  name: "json",
  what: "lists for programs",
  print: printJson,
};

function printJson({ lists, title, shows }: Listed): Iterable<string> {
  const output: ListOutput = {
    schema: "hopwright-list/1",
    version: VERSION,
    title,
    shows,
    lists: lists.map(subjectOutput),
  };
  return [`${jsonText(output, 1)}\n`];
}

function subjectOutput({ subject, columns, rows }: List): SubjectOutput {
  return {
    subject,
    columns: columns.map(({ head: name, type }) => ({ name, type })),
    rows: rows.map(({ values }) =>
      Object.fromEntries(
        columns.flatMap(({ head }, i) => (values[i] === undefined ? [] : [[head, values[i]!]])),
      ),
    ),
  };
}
