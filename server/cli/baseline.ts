/** Findings that were there before: with a baseline only new ones count. */
import { CommandError } from "../command-error.js";
import { reasonOf } from "../files/hop-files.js";
import { readBoundedSync } from "../files/read-bounded.js";
import type { JudgedFolder } from "../findings/judged-folder.js";
import { shownFrom } from "../findings/paths.js";
import { atLeast, type PlacedFinding } from "../findings/placed.js";
import type { CheckOutput, FindingOutput } from "./print/check-output.js";

/** Whether a finding is in the baseline. */
export type Baseline = (finding: PlacedFinding) => boolean;

export const NO_BASELINE: Baseline = () => false;

/**
 * @param path output of an earlier `check --format json`
 * @throws CommandError when it cannot be read or is something else
 */
export function readBaseline(path: string, judged: JudgedFolder): Baseline {
  const left = new Map<string, Known[]>();
  for (const { folder, findings } of baselineIn(path).designs) {
    for (const finding of findings) {
      // An acceptance that has ended since is no old finding.
      if (finding.accepted) continue;
      const key = `${folder}\n${baseKey(finding)}`;
      const alike = left.get(key);
      if (alike) alike.push(finding);
      else left.set(key, [finding]);
    }
  }
  const old = new Set<PlacedFinding>();
  for (const { root, findings } of judged.designs) {
    for (const finding of findings) {
      if (finding.accepted) continue;
      const alike = left.get(`${shownFrom(judged.root, root)}\n${finding.key}`) ?? [];
      // Of several alike as many are old as there were; what lasts longer than it did is none of them.
      const index = alike.findIndex(
        (known) => isNoWorse(finding, known) && (known.until ?? EVER) >= (finding.time?.until ?? EVER),
      );
      if (index < 0) continue;
      alike.splice(index, 1);
      old.add(finding);
    }
  }
  return (finding) => old.has(finding);
}

/** Of a network of 100,000 hops. */
const LARGEST_BYTES = 2 ** 30;

type Known = Pick<FindingOutput, "severity" | "notJudged" | "until">;

/** After every date. */
const EVER = "~";

/** The key without the day on which it ends. */
function baseKey({ key, until }: Pick<FindingOutput, "key" | "until">): string {
  const end = ` until ${until}`;
  return until !== undefined && key.endsWith(end) ? key.slice(0, -end.length) : key;
}

/** What has become graver since, or leaves more unjudged, is new. */
function isNoWorse(now: Omit<Known, "until">, known: Known): boolean {
  return (
    atLeast(known.severity, now.severity) &&
    (now.notJudged ?? []).every((rule) => known.notJudged?.includes(rule))
  );
}

function baselineIn(path: string): CheckOutput {
  let read: unknown;
  try {
    read = JSON.parse(new TextDecoder().decode(readBoundedSync(path, LARGEST_BYTES)));
  } catch (error) {
    const reason = error instanceof SyntaxError ? "is no JSON" : `cannot be read: ${reasonOf(error)}`;
    throw new CommandError(`${path}: ${reason}; a baseline is the output of hopwright check --format json`);
  }
  const schema = (read as { schema?: unknown } | null)?.schema;
  if (schema !== "hopwright-check/3") {
    const what =
      schema === "hopwright-check/1" || schema === "hopwright-check/2"
        ? "is of an earlier version"
        : "is no output of hopwright check --format json";
    throw new CommandError(`${path}: ${what}; write it anew with hopwright check --format json`);
  }
  return read as CheckOutput;
}
