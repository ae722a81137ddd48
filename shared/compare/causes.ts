/** Why a hop changed that nobody edited. */
import type { Cause } from "./change-set.js";
import type { DecisionChange } from "./decisions.js";
import type { FindingChange } from "./findings.js";

export interface CauseInput {
  readonly name: string;
  readonly decisions: readonly DecisionChange[];
  readonly findings: readonly FindingChange[];
  /** Keys of shared declarations that changed and count for this hop on the new side. */
  readonly sharedChanges: readonly string[];
  readonly ground?: "terrain" | "survey";
  /** Hops that were added, removed or edited. */
  readonly edited: ReadonlySet<string>;
  /** Those of them that end at a site of this hop. */
  beside(): readonly string[];
}

export function causesOf(input: CauseInput): Cause[] {
  const entries = new Set([...input.sharedChanges, ...input.decisions.flatMap(({ from }) => from ?? [])]);
  const causes: Cause[] = [...entries].map((entry) => ({ kind: kindOf(entry), text: entry }));
  if (input.ground) causes.push({ kind: input.ground, text: input.ground });
  const others = new Set(
    input.findings
      .filter(({ status }) => status !== "still there")
      .flatMap(({ is, was }) => [is, was].flatMap((finding) => finding?.related ?? []))
      .flatMap(({ at }) => /^hop (.*?)(?: \/ .*)?$/.exec(at ?? "")?.[1] ?? [])
      .filter((name) => name !== input.name && input.edited.has(name)),
  );
  // A finding that names no hop is about what the hops of a site share.
  if (
    causes.length === 0 &&
    others.size === 0 &&
    input.findings.some(({ status }) => status !== "still there")
  )
    for (const other of input.beside()) others.add(other);
  others.delete(input.name);
  for (const other of others) causes.push({ kind: "neighbour", text: `hop ${other}` });
  return causes;
}

function kindOf(entry: string): Cause["kind"] {
  const [word] = entry.split(" ");
  switch (word) {
    case "site":
    case "climate":
    case "objective":
    case "defaults":
    case "network":
      return word;
    case "policy":
      return "network";
    case "terrain":
    case "maps":
      return "terrain";
    default:
      return "catalogue";
  }
}
