/** Problems of text in a hop. */
import type { TextProblem } from "../../language/facts/fact.js";
import type { DesignModel } from "../../language/model/design-model.js";
import type { SourceFile } from "../../language/model/source-file.js";

export interface ProblemOfHop {
  readonly file: string;
  readonly problem: TextProblem;
}

/** In each of its declarations: a second one is a mistake of its own. */
export function problemsOfHop(model: DesignModel, name: string): readonly ProblemOfHop[] {
  const files = new Set(model.declarations(`hop ${name}`).map(({ file }) => file));
  return [...files].flatMap((path) => {
    const file = model.file(path);
    if (file === undefined) return [];
    const own = model.problemsOf(path).filter(({ start }) => hopAround(file, start) === name);
    return own.map((problem) => ({ file: path, problem }));
  });
}

/** The hop in whose text an offset lies. Declarations stand in the order of the text. */
export function hopAround({ declarations }: SourceFile, offset: number): string | undefined {
  let low = 0;
  let high = declarations.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (declarations[middle]!.fact.statement.start <= offset) low = middle + 1;
    else high = middle;
  }
  const before = declarations[low - 1];
  return before?.kind === "hop" && offset < before.fact.statement.end ? before.name : undefined;
}
