/** Commits: a design mutated from one to the next, through diff and history, against check of each of its states. */
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { CommandError } from "../../server/command-error.js";
import { compareFolder } from "../../server/compare/compare-folders.js";
import { hopHistory } from "../../server/compare/hop-history.js";
import { type JudgedFolder, judgeFolder } from "../../server/findings/judged-folder.js";
import { keyOf, type PlacedFinding } from "../../server/findings/placed.js";
import { repositoryOf, revisionOf } from "../../server/git/repository.js";
import { type ChangeSet, isEmpty } from "../../shared/compare/change-set.js";
import type { FindingChange } from "../../shared/compare/findings.js";
import type { Finding } from "../../shared/design/finding.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { TestRepository, TODAY } from "../compare/repository.js";
import { Chance } from "./chance.js";
import { type Fuzzer, thrown, Watch } from "./fuzzer.js";
import { GENTLE, MUTATIONS, mutated } from "./mutate.js";

const EXAMPLES = [...RULES.values()].flatMap(({ good, bad }) => [good, bad]);
const PATHS = ["network.hop", "hops/a.hop", "hops/b.hop"];

interface Step {
  readonly path: string;
  readonly seed: number;
  readonly how: "mutate" | "mutate" | "mutate" | "more" | "empty" | "back";
}

let base: string | undefined;

export const commits: Fuzzer = {
  name: "commits",
  what: "commits through diff and history, against check of each",
  begin(chance) {
    const kinds = chance.likely(0.7)
      ? GENTLE
      : Object.keys(MUTATIONS).filter((name) => !/deep|long/.test(name));
    const first = new Map([
      ["network.hop", EXAMPLE_PREAMBLE],
      ["hops/a.hop", chance.of(EXAMPLES)],
      ["hops/b.hop", chance.likely(0.5) ? chance.of(EXAMPLES) : ""],
    ]);
    const steps = Array.from(
      { length: 1 + chance.below(4) },
      (): Step => ({
        path: chance.of(PATHS),
        seed: chance.seed(),
        how: chance.of(["mutate", "mutate", "mutate", "more", "empty", "back"]),
      }),
    );
    const statesOf = (kept: readonly number[]) => {
      const states = [first];
      for (const at of kept) states.push(after(states, steps[at]!, kinds));
      return states;
    };
    return {
      parts: steps.length,
      counts: 1,
      run: (kept, watch) => faultsOf(statesOf(kept), watch),
      tell: (kept) =>
        statesOf(kept)
          .map((state, i) =>
            [...state].map(([path, text]) => `--- ${i}: ${path}\n${text.slice(0, 3000)}`).join("\n"),
          )
          .join("\n"),
    };
  },
  end() {
    if (base) rmSync(base, { recursive: true, force: true });
    base = undefined;
  },
};

type Texts = Map<string, string>;

function after(states: readonly Texts[], { path, seed, how }: Step, kinds: readonly string[]): Texts {
  const chance = new Chance(seed);
  const now = new Map(states.at(-1)!);
  const text = now.get(path) ?? "";
  if (how === "empty") now.set(path, "");
  else if (how === "back") now.set(path, chance.of(states).get(path) ?? "");
  else if (how === "more" || text === "") now.set(path, `${text}\n${chance.of(EXAMPLES)}`);
  else now.set(path, mutated(text, kinds, 1 + chance.below(3), chance).toWellFormed());
  return now;
}

async function faultsOf(states: readonly Texts[], watch: Watch): Promise<string[]> {
  const timed = async <T>(name: string, run: () => Promise<T>): Promise<T> => {
    const { value, ms } = await Watch.time(run);
    watch.command(name, ms);
    return value;
  };
  base ??= mkdtempSync(join(tmpdir(), "hopwright-commits-"));
  const root = join(base, "case");
  rmSync(root, { recursive: true, force: true });
  mkdirSync(root);
  const repository = new TestRepository(root);
  repository.git("init", "-q", "-b", "main");
  const judged: JudgedFolder[] = [];
  const names: string[] = [];
  for (const state of states) {
    repository.write(Object.fromEntries(state));
    names.push(repository.commit("x"));
    judged.push(await timed("check", () => judgeFolder(root, { today: TODAY })));
  }
  const wrong: string[] = [];
  const last = states.length - 1;
  const pairs = [...names.keys()].slice(1).map((now) => [now - 1, now] as const);
  for (const [was, is] of [...pairs, [0, last], [last, 0]] as const)
    try {
      wrong.push(
        ...(await timed("diff", () =>
          faultsOfDiff(root, [names[was]!, judged[was]!], [names[is]!, judged[is]!]),
        )),
      );
    } catch (error) {
      if (!(error instanceof CommandError)) wrong.push(thrown("diff", error));
    }
  const hops = judged.at(-1)!.designs.flatMap(({ model }) => model.names("hop"));
  for (const hop of hops.slice(0, 2))
    try {
      wrong.push(...(await timed("history", () => faultsOfHistory(root, hop, names, judged))));
    } catch (error) {
      if (!(error instanceof CommandError)) wrong.push(thrown("history", error));
    }
  return [...new Set(wrong)];
}

type Side = readonly [commit: string, judged: JudgedFolder];

/** What check finds on the new side alone the comparison tells of, and what it tells of check finds. */
async function faultsOfDiff(root: string, was: Side, is: Side): Promise<string[]> {
  const at = await repositoryOf(root);
  const [before, now] = [await revisionOf(at, was[0]), await revisionOf(at, is[0])];
  const compared = await compareFolder(at, root, before, now, { today: TODAY });
  compared.dispose();
  const wrong: string[] = [];
  const told = compared.designs.flatMap(({ changes }) => findingsOf(changes));
  const found = [was, is].map(([, judged]) => new Set(foundIn(judged)));
  for (const change of told)
    for (const [side, finding] of [change.was, change.is].entries())
      if (finding && !found[side]!.has(said(finding)))
        wrong.push(
          `diff tells of ${finding.rule} (${change.status}), which check does not find: ${finding.message}`,
        );
  // What is gone with its hop is told by the hop alone; what was renamed has its findings as before, in other words.
  const renamed = compared.designs.some(({ changes: { hops, sites, shared } }) =>
    [...hops, ...sites, ...shared].some(({ renamedFrom }) => renamedFrom !== undefined),
  );
  if (renamed) return wrong;
  // A finding stays the same in other words, and at another place.
  const names = (one: Finding | PlacedFinding) => [
    said(one),
    `${one.severity} ${"key" in one ? one.key : keyOf(one)}`,
  ];
  const known = new Set(told.flatMap((one) => one.is ?? []).flatMap(names));
  const all = ({ designs }: JudgedFolder) => designs.flatMap(({ findings }) => findings);
  const earlier = new Set(all(was[1]).flatMap(names));
  for (const one of all(is[1]))
    if (one.severity !== "info" && !names(one).some((name) => known.has(name) || earlier.has(name)))
      wrong.push(`check finds what diff does not tell as new: ${said(one)}`);
  if (compared.designs.every(({ changes }) => isEmpty(changes)) && wrong.length > 0)
    wrong.push("diff is empty");
  return wrong;
}

function findingsOf({ hops, sites, shared, findings }: ChangeSet): FindingChange[] {
  return [...hops, ...sites, ...shared].flatMap((one) => one.findings).concat(findings);
}

/** Errors and warnings: of remarks that hold of a network, one stands for all. */
function foundIn({ designs }: JudgedFolder): string[] {
  return designs.flatMap(({ findings }) => findings.map(said));
}

function said({ rule, severity, message }: Pick<Finding, "rule" | "severity" | "message">): string {
  return `${severity} ${rule}: ${message}`;
}

/** Each entry of a commit has what check finds on the hop there. */
async function faultsOfHistory(
  root: string,
  name: string,
  names: readonly string[],
  judged: readonly JudgedFolder[],
): Promise<string[]> {
  const at = await repositoryOf(root);
  const entries = await hopHistory(at, root, name, await revisionOf(at, "HEAD"), { today: TODAY, limit: 10 });
  return entries.flatMap(({ commit, hop, judged: then }) => {
    const folder = judged[commit ? names.indexOf(commit.commit) : names.length - 1];
    const checked = folder?.designs
      .map(({ session }) => session.result(hop))
      .find((one) => one !== undefined);
    const [told, found] = [then, checked].map((one) => one?.findings.map(said).toSorted().join("\n"));
    return told === found ? [] : [`history of ${name} tells ${told}\nwhere check finds ${found}`];
  });
}
