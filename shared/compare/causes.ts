/** Why a hop changed that nobody edited, and what was decided there. */
import type { Hop } from "../design/design.js";
import { RULES } from "../rules/index.js";
import type { Cause, SharedChange } from "./change-set.js";
import type { DecisionChange } from "./decisions.js";
import { isLicence, isOthersList } from "./facts.js";
import type { FindingChange } from "./findings.js";
import { contentComparison } from "./same.js";

/** A hop that was added, removed or decided anew, or that can be judged on one side only. */
export interface EditedHop {
  readonly status: Exclude<Cause["status"], "renamed">;
  readonly decisions: readonly DecisionChange[];
}

export interface CauseInput {
  readonly name: string;
  readonly decisions: readonly DecisionChange[];
  readonly findings: readonly FindingChange[];
  /** Shared declarations that changed and count for this hop on the new side. */
  readonly sharedChanges: readonly SharedChange[];
  /** Whether what interference takes of a threshold changed, or a finding on it came or went. */
  readonly degraded: boolean;
  /** Both states of the hop as it was evaluated, where it was. */
  readonly hops?: readonly [Hop, Hop];
  readonly ground?: Pick<Cause, "ground"> & { readonly kind: "terrain" | "survey" };
  readonly movers: ReadonlyMap<string, EditedHop>;
  /** Hops whose transmissions come in, where what they take of the threshold changed. */
  readonly heard: readonly string[];
  /** Those of them that end at a site of this hop. */
  beside(): readonly string[];
}

export function causesOf(input: CauseInput): Cause[] {
  const shared = input.sharedChanges.filter(({ entry }) => reaches(entry, input));
  const causes = [
    ...shared.map(({ entry, status, renamedFrom, decisions }): Cause => {
      const kind = kindOf(entry);
      if (status !== "renamed") return { kind, text: entry, status, decisions };
      const [word, ...name] = entry.split(" ");
      return { kind, text: `${word} ${renamedFrom}`, status, renamedTo: name.join(" "), decisions: [] };
    }),
    ...byDefaults(input.decisions),
  ];
  if (input.ground) {
    const { kind, ground } = input.ground;
    causes.push({ kind, text: kind, status: "changed", decisions: [], ground });
  }
  const moved = input.findings.filter(({ status }) => status !== "still there");
  const others = new Set(
    moved
      .flatMap(({ is, was }) => [is, was].flatMap((finding) => finding?.related ?? []))
      .flatMap(({ at }) => /^hop (.*?)(?: \/ .*)?$/.exec(at ?? "")?.[1] ?? [])
      .filter((name) => input.movers.has(name)),
  );
  for (const name of input.heard) if (input.movers.has(name)) others.add(name);
  // A finding that names no hop is about what the hops of a site share; a licence is of its hop alone.
  const isOfSite = moved.some(({ rule }) => !rule.startsWith("licence-"));
  if (causes.length === 0 && others.size === 0 && isOfSite && !input.movers.has(input.name))
    for (const other of input.beside()) others.add(other);
  others.delete(input.name);
  for (const other of others)
    causes.push({ kind: "neighbour", text: `hop ${other}`, ...input.movers.get(other)! });
  return causes;
}

/** Defaults hold fact by fact: what they decide of this hop stands among its own decisions. */
function byDefaults(decisions: readonly DecisionChange[]): Cause[] {
  const entries = Map.groupBy(decisions, ({ from }) => from);
  return [...entries].flatMap(([from, those]): Cause[] =>
    from === undefined ? [] : [{ kind: kindOf(from), text: from, status: "changed", decisions: those }],
  );
}

/**
 * Whether a shared declaration that changed may have changed anything for this hop. A climate may have a figure that
 * the hop states itself, a site a power supply that no result of the hop rests on; defaults are told by what they
 * decide.
 */
function reaches(entry: string, { hops, findings, degraded }: CauseInput): boolean {
  // Of interference the thresholds tell whether it reaches the hop.
  if (entry === "interference" || entry === "others") return degraded;
  if (isOthersList(entry)) return true;
  // A licence decides nothing of a hop but what is told of it.
  if (isLicence(entry) || entry === "licences")
    return findings.some(({ status, rule }) => status !== "still there" && rule.startsWith("licence-"));
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
    case "interference":
    case "others":
    case "licence":
    case "licences":
    case "demand":
      return "network";
    case "maps":
      return "climate";
    default:
      return "catalogue";
  }
}
