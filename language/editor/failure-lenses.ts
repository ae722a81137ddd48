/** Over each hop and each site that something is carried over: what remains of the demands when it is gone. */
import type { DemandsResult, FailureResult } from "../../shared/demands/result.js";
import type { SourceFile } from "../model/source-file.js";
import { withoutWords } from "./hover-demand.js";
import type { Carried } from "./results.js";

export interface FailureLens {
  readonly offset: number;
  readonly text: string;
}

const KINDS = ["hop", "site"] as const;

/** Nothing is told of what costs no demand anything. */
export function failureLenses(file: SourceFile, carried: Carried): FailureLens[] {
  const result = carried();
  if (result === undefined) return [];
  const failures = byElement(result);
  return file.declarations.flatMap(({ key, fact }) => {
    const failure = failures.get(key);
    if (failure === undefined || failure.lost.length + failure.moved.length === 0) return [];
    return [{ offset: fact.statement.start, text: `without it: ${withoutWords(failure)}` }];
  });
}

/** By the key of its declaration; made once for each result. */
const known = new WeakMap<DemandsResult, ReadonlyMap<string, FailureResult>>();

function byElement(result: DemandsResult): ReadonlyMap<string, FailureResult> {
  let by = known.get(result);
  if (by === undefined) {
    by = new Map(
      result.failures
        .filter(({ element }) => KINDS.some((kind) => element.kind === kind))
        .map((failure) => [`${failure.element.kind} ${failure.element.name}`, failure]),
    );
    known.set(result, by);
  }
  return by;
}
