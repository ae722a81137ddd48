/**
 * Whatever setting of git a repository has, whether it is one that names a program or not: comparing starts no program.
 * The settings are those that the git of this machine knows; a run takes some of them, and all of them (some minutes)
 * with HOPWRIGHT_EVERY_SETTING=1.
 */
import { execFileSync } from "node:child_process";
import {
  appendFileSync,
  chmodSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, expect, test } from "vitest";
import { CommandError } from "../../server/command-error.js";
import { compareFolder } from "../../server/compare/compare-folders.js";
import { hopHistory } from "../../server/compare/hop-history.js";
import { repositoryOf, revisionOf } from "../../server/git/repository.js";
import { files, terrain } from "../compare/network.js";
import { TestRepository, TODAY } from "../compare/repository.js";

const folder = mkdtempSync(join(tmpdir(), "hopwright-settings-"));
const program = join(folder, "program");
const mark = join(folder, "started");
const repository = TestRepository.create();
let config: string;

beforeAll(() => {
  writeFileSync(program, `#!/bin/sh\necho "$*" >> "${mark}"\n`);
  chmodSync(program, 0o755);
  repository.write({ ...files(), ".gitattributes": "* filter=a diff=a merge=a\n" });
  repository.commit("base");
  repository.edit("hops/south.hop", "DISH60-18", "DISH120-18");
  repository.write(terrain(38));
  repository.commit("second");
  repository.edit("hops/south.hop", "at 40 m", "at 30 m");
  repository.write(terrain(5));
  config = join(repository.root, ".git/config");
});

afterAll(() => {
  repository.remove();
  rmSync(folder, { recursive: true, force: true });
});

/** `filter.<driver>.clean`, `alias.*`: of the things that this repository has. */
function settings(): string[] {
  return execFileSync("git", ["help", "--config"], { encoding: "utf8" })
    .split("\n")
    .filter((line) => /^[a-z][\w-]*\./i.test(line))
    .map((line) => line.replaceAll(/<(?:remote|name)>/g, "origin").replaceAll(/<[^>]*>|\*/g, "a"));
}

async function ask(): Promise<void> {
  const at = await repositoryOf(repository.root);
  const before = await revisionOf(at, "HEAD~1");
  const compared = await compareFolder(at, repository.root, before, undefined, { today: TODAY });
  compared.dispose();
  await hopHistory(at, repository.root, "FELL-TARN", await revisionOf(at, "HEAD"), {
    today: TODAY,
    limit: 2,
  });
}

test("no setting has comparing start a program", async () => {
  const plain = readFileSync(config, "utf8");
  const all = settings();
  expect(all.length).toBeGreaterThan(400);
  const one = async (name: string) => {
    const key = /^([^.]+)\.(?:(.*)\.)?([^.]+)$/.exec(name)!;
    const section = key[2] === undefined ? `[${key[1]}]` : `[${key[1]} "${key[2]}"]`;
    writeFileSync(config, plain);
    appendFileSync(config, `${section}\n\t${key[3]} = ${program}\n`);
    // What cannot be read with such a setting is told.
    const failed = await ask().then(
      () => undefined,
      (error: unknown) => error,
    );
    if (failed !== undefined) expect(failed, name).toBeInstanceOf(CommandError);
    expect(existsSync(mark), name).toBe(false);
  };
  if (process.env.HOPWRIGHT_EVERY_SETTING === "1") for (const name of all) await one(name);
  else await fc.assert(fc.asyncProperty(fc.constantFrom(...all), one), { numRuns: 15 });
  writeFileSync(config, plain);
}, 3_000_000);
