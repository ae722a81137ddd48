/** What git is started with: nothing of the caller's environment steers it, and no program beside the design is it. */
import { chmodSync, existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { run } from "../cli/built.js";
import { files } from "../compare/network.js";
import { TestRepository, TODAY } from "../compare/repository.js";

const repository = TestRepository.create();
const folder = mkdtempSync(join(tmpdir(), "hopwright-environment-"));
const mark = join(folder, "started");

beforeAll(() => {
  repository.write(files());
  repository.commit("base");
  repository.edit("hops/south.hop", "at 40 m", "at 30 m");
});

afterAll(() => {
  repository.remove();
  rmSync(folder, { recursive: true, force: true });
});

/** A program of some name that leaves a mark. */
function program(path: string, then = ""): string {
  mkdirSync(join(path, ".."), { recursive: true });
  writeFileSync(path, `#!/bin/sh\necho "$0 $*" >> "${mark}"\n${then}\n`);
  chmodSync(path, 0o755);
  return path;
}

function diff(env: Record<string, string>, cwd = repository.root) {
  return run(["diff", "HEAD", "--dir", repository.root, "--today", TODAY], { cwd, env });
}

test("variables of git that the caller has set for something else start nothing, write nothing and turn nothing", () => {
  const other = TestRepository.create();
  other.write({ "other.txt": "other\n" });
  other.commit("other");
  const plain = diff({});
  expect(plain).toMatchObject({ status: 1, stderr: "" });
  const fire = program(join(folder, "fire"), "cat");
  const traces = ["GIT_TRACE", "GIT_TRACE_SETUP", "GIT_TRACE2", "GIT_TRACE2_EVENT", "GIT_TRACE2_PERF"];
  const traced = diff({
    ...Object.fromEntries(traces.map((name) => [name, join(folder, name)])),
    GIT_DIR: join(other.root, ".git"),
    GIT_WORK_TREE: other.root,
    GIT_INDEX_FILE: join(folder, "index"),
    GIT_OBJECT_DIRECTORY: join(other.root, ".git/objects"),
    GIT_CEILING_DIRECTORIES: repository.root,
    GIT_EXEC_PATH: folder,
    GIT_NAMESPACE: "x",
    GIT_CONFIG_COUNT: "1",
    GIT_CONFIG_KEY_0: "core.fsmonitor",
    GIT_CONFIG_VALUE_0: fire,
    GIT_CONFIG_PARAMETERS: `'core.fsmonitor'='${fire}'`,
    GIT_EXTERNAL_DIFF: fire,
    GIT_PAGER: fire,
    PAGER: fire,
    GIT_SSH_COMMAND: fire,
    GIT_PROXY_COMMAND: fire,
    GIT_ASKPASS: fire,
    GIT_EDITOR: fire,
    LD_PRELOAD_OF_NOBODY: "x",
  });
  other.remove();
  expect(traced).toEqual(plain);
  expect(existsSync(mark)).toBe(false);
  expect(traces.filter((name) => existsSync(join(folder, name)))).toEqual([]);
}, 120_000);

test("a program of git's name in the repository, in the working folder or in a folder named from there isn't started", () => {
  const inside = join(repository.root, "node_modules/.bin");
  const here = join(folder, "here");
  program(join(repository.root, "git"));
  program(join(inside, "git"));
  program(join(here, "git"));
  program(join(here, "bin/git"));
  const path = process.env.PATH!;
  const before = ["", ".", "bin", here, inside, repository.root].join(delimiter);
  const ran = diff({ PATH: `${before}${delimiter}${path}` }, here);
  expect(existsSync(mark)).toBe(false);
  expect(ran).toMatchObject({ status: 1, stderr: "" });
  // And with no other on the path it is missing.
  const none = diff({ PATH: before }, here);
  expect(none.stderr).toMatch(/^error: [^\n]*: git is not installed, or not on the path\n$/);
  expect(existsSync(mark)).toBe(false);
  rmSync(join(repository.root, "git"));
  rmSync(join(repository.root, "node_modules"), { recursive: true });
}, 120_000);

test("a git too old to know what holds programs back is not asked", () => {
  const bin = join(folder, "old");
  program(join(bin, "git"), 'echo "git version 2.38.9"');
  const ran = diff({ PATH: bin });
  expect(ran.status).toBe(2);
  expect(ran.stderr).toMatch(
    /^error: [^\n]*: git 2\.39 or later is needed to read it safely; \S+ is 2\.38\.9\n$/,
  );
}, 120_000);
