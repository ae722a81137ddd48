import type { Declaration, SourceFile } from "./source-file.js";

/** The innermost declaration that holds an offset: what stands in a network may be one of its own. */
export function declarationAt({ declarations }: SourceFile, offset: number): Declaration | undefined {
  return declarations.findLast(
    ({ fact: { statement } }) => statement.start <= offset && offset <= statement.end,
  );
}
