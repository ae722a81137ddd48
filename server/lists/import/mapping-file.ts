/** What a person has decided about columns, in a file: heads to what they hold. */
import type { ListKind, Mapping } from "../../../shared/lists/columns.js";
import { readHead } from "../../../shared/lists/heads.js";
import { CommandError } from "../../command-error.js";
import { reasonOf } from "../../files/hop-files.js";
import { readBoundedSync } from "../../files/read-bounded.js";

const MOST_BYTES = 2 ** 20;
const LIST_KINDS: readonly ListKind[] = ["sites", "hops", "transmissions", "ends"];
const EXAMPLE = `{ "rows": "hops", "columns": { "Standort": "site a", "Bemerkung": "" } }`;

/** @throws CommandError with an example of what such a file looks like */
export function readMapping(path: string): Mapping {
  const fail = (reason: string) => new CommandError(`${path}: ${reason}; a mapping looks like ${EXAMPLE}`);
  let json: unknown;
  try {
    json = JSON.parse(new TextDecoder().decode(readBoundedSync(path, MOST_BYTES)));
  } catch (error) {
    throw fail(error instanceof SyntaxError ? `it is no JSON (${error.message})` : reasonOf(error));
  }
  const { rows, columns = {}, ...others } = (json ?? {}) as Record<string, unknown>;
  const [other] = Object.keys(others);
  if (typeof json !== "object" || other !== undefined)
    throw fail(`it may state rows and columns, not ${other}`);
  if (rows !== undefined && !LIST_KINDS.includes(rows as ListKind))
    throw fail(`rows are one of ${LIST_KINDS.join(", ")}`);
  const decided = new Map<string, string>();
  for (const [head, meant] of Object.entries(columns as object)) {
    if (meant !== null && meant !== "" && (typeof meant !== "string" || !readHead(meant)))
      throw fail(`"${head}": "${meant}" is nothing that a column can hold`);
    decided.set(head, (meant as string) ?? "");
  }
  return { columns: decided, kind: rows as ListKind | undefined };
}
