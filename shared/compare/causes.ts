/** Why a hop changed that nobody edited. */
import type { Hop } from "../design/design.js";
import { RULES } from "../rules/index.js";
import type { Cause } from "./change-set.js";
import type { DecisionChange } from "./decisions.js";
import type { FindingChange } from "./findings.js";
import { contentComparison } from "./same.js";

export interface CauseInput {
  readonly name: string;
  readonly decisions: readonly DecisionChange[];
  readonly findings: readonly FindingChange[];
  /** Keys of shared declarations that changed and count for this hop on the new side. */
  readonly sharedChanges: readonly string[];
  /** Both states of the hop as it was evaluated, where it was. */
  readonly hops?: readonly [Hop, Hop];
  readonly ground?: "terrain" | "survey";
  /** Hops that were added, removed or edited. */
  readonly edited: ReadonlySet<string>;
  /** Those of them that end at a site of this hop. */
  beside(): readonly string[];
}

export function causesOf(input: CauseInput): Cause[] {
  const deciding = new Set(input.decisions.flatMap(({ from }) => from ?? []));
  const entries = new Set([...input.sharedChanges.filter((entry) => reaches(entry, input)), ...deciding]);
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

/**
 * Whether a shared declaration that changed may have changed anything for this hop. A climate may have a figure that
 * the hop states itself, a site a power supply that no result of the hop rests on; defaults hold fact by fact.
 */
function reaches(entry: string, { hops, findings }: CauseInput): boolean {
  // The ground under the hop tells what the terrain did to it.
  if (entry.startsWith("defaults ") || entry === "terrain") return false;
  // What hops share is judged from more than stands in the hop.
  const shared = findings.some(
    ({ status, rule }) => status !== "still there" && RULES.get(rule)?.scope !== "hop",
  );
  if (hops === undefined || shared) return true;
  const [was, is] = hops;
  const same = contentComparison();
  if (entry === "policy") return !same(was.policy, is.policy);
  if (entry === "climate") return !same(was.climate, is.climate);
  if (entry.startsWith("site ")) {
    const at = ({ ends }: Hop) => ends.map(({ site }) => site);
    return !same(at(was), at(is));
  }
  return true;
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
    case "maps":
      return "climate";
    default:
      return "catalogue";
  }
}
