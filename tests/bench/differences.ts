/** `hopwright diff` on a large network of which few hops changed: a repository of its own, the built program, cold. */
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type NetworkText, writeNetwork } from "./network/network.js";
import { startNode } from "./process.js";

export interface DiffRun {
  readonly what: string;
  readonly wallMs: number;
  readonly peakRssMb: number;
}

/** Commits the network, raises one antenna in each of 20 files, and compares: with the work tree, then two commits. */
export async function diffRuns(
  command: string,
  folder: string,
  files: NetworkText,
): Promise<readonly DiffRun[]> {
  writeNetwork(folder, files);
  git(folder, "init", "-q", "-b", "main");
  git(folder, "add", "-A");
  git(folder, "commit", "-q", "-m", "before");
  const edited = [...files.keys()].filter((path) => path.startsWith("hops/")).slice(0, CHANGED);
  for (const path of edited) raiseFirstAntenna(join(folder, path));
  const unsaved = await timed(command, folder, `${edited.length} hops, work tree`, ["HEAD"]);
  git(folder, "commit", "-q", "-a", "-m", "after");
  return [unsaved, await timed(command, folder, `${edited.length} hops, two commits`, ["HEAD~1", "HEAD"])];
}

const CHANGED = 20;

async function timed(
  command: string,
  folder: string,
  what: string,
  revisions: readonly string[],
): Promise<DiffRun> {
  const args = [command, "diff", ...revisions, "--dir", folder, "--fail-on", "never", "--format", "json"];
  const { process: child, ended } = startNode(args, ["ignore", "pipe", "inherit"]);
  let out = "";
  child.stdout!.on("data", (data) => {
    out += String(data);
  });
  const { exitCode, wallMs, peakRssMb } = await ended;
  if (exitCode !== 0) throw new Error(`diff ended with ${exitCode}`);
  // A comparison that missed a change would be quick.
  const { edited } = JSON.parse(out).designs[0].counts;
  if (edited !== Math.min(CHANGED, Number.parseInt(what, 10))) throw new Error(`${edited} hops were found`);
  return { what, wallMs, peakRssMb };
}

function raiseFirstAntenna(path: string): void {
  const text = readFileSync(path, "utf8");
  const raised = text.replace(/(antenna \S+ at )(\d+)( m)/, (_all, before, height, after) => {
    return `${before}${Number(height) + 3}${after}`;
  });
  writeFileSync(path, raised);
}

function git(folder: string, ...args: string[]): void {
  const identity = ["-c", "user.name=Author", "-c", "user.email=author@example.org"];
  execFileSync("git", [...identity, ...args], { cwd: folder, stdio: ["ignore", "ignore", "inherit"] });
}
