import type { Declaration, SourceFile } from "./source-file.js";

/** The innermost declaration that holds an offset: what stands in a network may be one of its own. */
export function declarationAt({ declarations }: SourceFile, offset: number): Declaration | undefined {
  const reach = reachOf(declarations);
  // Declarations stand in the order of the text. A large file is asked as often as it has problems.
  let low = 0;
  let high = declarations.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (declarations[middle]!.fact.statement.start <= offset) low = middle + 1;
    else high = middle;
  }
  for (let at = low - 1; at >= 0 && reach[at]! >= offset; at--) {
    const one = declarations[at]!;
    if (offset <= one.fact.statement.end) return one;
  }
  return undefined;
}

const reaches = new WeakMap<readonly Declaration[], readonly number[]>();

/** How far in the text each declaration or one before it reaches. */
function reachOf(declarations: readonly Declaration[]): readonly number[] {
  let reach = reaches.get(declarations);
  if (!reach) {
    let furthest = 0;
    reach = declarations.map(({ fact }) => (furthest = Math.max(furthest, fact.statement.end)));
    reaches.set(declarations, reach);
  }
  return reach;
}
