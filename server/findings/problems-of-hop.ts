/** Problems of text in a hop. */
import type { TextProblem } from "../../language/facts/fact.js";
import { declarationAt } from "../../language/model/declaration-at.js";
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

/** The hop in whose text an offset lies. */
export function hopAround(file: SourceFile, offset: number): string | undefined {
  const around = declarationAt(file, offset);
  return around?.kind === "hop" ? around.name : undefined;
}
