/** Repositories in every state that people meet: each is compared, or told in one line with what to do. */
import { execFileSync } from "node:child_process";
import { chmodSync, mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Ran, run } from "../cli/built.js";
import { files } from "../compare/network.js";
import { TestRepository, TODAY } from "../compare/repository.js";

const LONG = 120_000;
const top = realpathSync(mkdtempSync(join(tmpdir(), "hopwright-states-")));
const origin = new TestRepository(join(top, "origin"));

beforeAll(() => {
  mkdirSync(origin.root);
  origin.git("init", "-q", "-b", "main");
  origin.write(files());
  origin.commit("base");
  origin.edit("hops/south.hop", "at 40 m", "at 30 m");
  origin.commit("lower");
  origin.git("config", "uploadpack.allowFilter", "true");
});

afterAll(() => rmSync(top, { recursive: true, force: true }));

function clone(name: string, ...args: string[]): TestRepository {
  const at = join(top, name);
  execFileSync("git", ["clone", "-q", ...args, `file://${origin.root}`, at]);
  return new TestRepository(at);
}

function diff(folder: string, args: readonly string[] = ["HEAD~1"], env: Record<string, string> = {}): Ran {
  return run(["diff", ...args, "--today", TODAY], { cwd: folder, env });
}

function told({ status, stdout, stderr }: Ran): string {
  expect([status, stdout]).toEqual([2, ""]);
  expect(stderr).toMatch(/^error: [^\n]+\n$/);
  return stderr.slice("error: ".length, -1);
}

function compares({ status, stdout, stderr }: Ran): void {
  expect([status, stderr]).toEqual([1, ""]);
  expect(stdout).toContain("FELL-TARN");
}

describe("a clone", () => {
  test(
    "that is shallow has no older commits, and says how to bring them",
    () => {
      const { root } = clone("shallow", "--depth", "1");
      expect(told(diff(root))).toMatch(
        /^HEAD~1: there is no such revision; this clone is shallow: .*git fetch --deepen/,
      );
      expect(diff(root, ["HEAD"]).status).toBe(0);
    },
    LONG,
  );

  test(
    "that is partial fetches nothing, and says how to; then it compares",
    () => {
      for (const filter of ["blob:none", "tree:0", "tree:1", "blob:limit=100"]) {
        const { root } = clone(filter.replace(/\W/, "-"), `--filter=${filter}`);
        const line = told(diff(root));
        expect(line).toMatch(
          /this clone is partial, lacks what was asked for, and nothing is fetched unasked; git fetch/,
        );
        // What the line says is tried.
        const [, command = ""] = /; git (.*) brings/.exec(line)!;
        execFileSync("git", command.split(" "), { cwd: root, stdio: "ignore" });
        compares(diff(root));
      }
    },
    LONG,
  );

  test(
    "that is bare has no files beside it",
    () => {
      const { root } = clone("bare.git", "--bare");
      expect(told(diff(root))).toMatch(/no git work tree; name a folder in a repository$/);
    },
    LONG,
  );
});

describe("a second work tree", () => {
  test(
    "compares as the first does",
    () => {
      const main = clone("first");
      main.git("worktree", "add", "-q", "-b", "second", join(top, "second"));
      compares(diff(join(top, "second")));
      rmSync(main.root, { recursive: true });
      expect(told(diff(join(top, "second")))).toMatch(/second: not a git repository: /);
    },
    LONG,
  );

  test(
    "that the configuration has elsewhere is told",
    () => {
      const repository = clone("elsewhere");
      repository.git("config", "core.worktree", origin.root);
      expect(told(diff(repository.root))).toMatch(
        /elsewhere: its repository has its work tree elsewhere, in .*origin/,
      );
      repository.git("config", "core.worktree", "/nowhere/at/all");
      expect(told(diff(repository.root))).toMatch(/elsewhere: /);
    },
    LONG,
  );
});

test(
  "a repository of another user is told with what has git read it",
  () => {
    // As git sees it when the owner of the files is not the one who asks.
    const bin = join(top, "bin");
    mkdirSync(bin);
    const git = `#!/bin/sh\nGIT_TEST_ASSUME_DIFFERENT_OWNER=1 PATH="${process.env.PATH}" exec git "$@"\n`;
    writeFileSync(join(bin, "git"), git);
    chmodSync(join(bin, "git"), 0o755);
    const { root } = clone("another's");
    const home = join(top, "home");
    mkdirSync(home);
    const env = { PATH: bin, HOME: home, GIT_CONFIG_GLOBAL: join(home, ".gitconfig") };
    const line = told(diff(root, ["HEAD~1"], env));
    expect(line).toMatch(
      /belongs to another user, and git reads it only after git config --global --add safe\.directory /,
    );
    // What the line says is tried, as the user's shell has it.
    const [, command = ""] = / only after (.*)$/.exec(line)!;
    execFileSync("sh", ["-c", command], { env: { ...process.env, ...env, PATH: process.env.PATH } });
    compares(diff(root, ["HEAD~1"], env));
  },
  LONG,
);

test(
  "a repository that is broken is told, in whatever way it is",
  () => {
    const breaks: Readonly<Record<string, (git: string) => void>> = {
      "no objects": (git) => rmSync(join(git, "objects"), { recursive: true }),
      "no index that can be read": (git) => writeFileSync(join(git, "index"), "no index"),
      "a configuration that cannot be read": (git) => writeFileSync(join(git, "config"), "[core\nx"),
      "a format of the future": (git) =>
        writeFileSync(join(git, "config"), "[core]\nrepositoryformatversion = 99\n"),
      "an extension of nobody": (git) =>
        writeFileSync(join(git, "config"), "[core]\nrepositoryformatversion = 1\n[extensions]\nnobody = 1\n"),
      "an abbreviation longer than names": (git) =>
        writeFileSync(join(git, "config"), "[core]\nabbrev = 9999\n"),
      "a head that leads nowhere": (git) => writeFileSync(join(git, "HEAD"), "ref: ../../../etc/passwd\n"),
      "a control sequence in its head": (git) =>
        writeFileSync(join(git, "HEAD"), "ref: refs/heads/\x1b[31mx\n"),
    };
    for (const [name, breakIt] of Object.entries(breaks)) {
      const { root } = clone(name);
      breakIt(join(root, ".git"));
      const ran = diff(root, ["HEAD"]);
      // Later versions of git forgive it.
      if (name.startsWith("an abbreviation") && ran.status === 0) continue;
      expect(told(ran), name).not.toMatch(/\p{Cc}|fault of hopwright/u);
    }
  },
  LONG,
);

test(
  "a link into the middle of a repository is told, one to its top is a way in",
  () => {
    const folder = join(top, "way");
    symlinkSync(origin.root, folder);
    compares(diff(folder));
    const inner = join(top, "inner");
    symlinkSync(join(origin.root, "hops"), inner);
    expect(told(run(["diff", "HEAD~1", "--dir", inner], { cwd: top }))).toMatch(
      /inner: a link into the repository .*origin; name the folder there$/,
    );
  },
  LONG,
);

test(
  "an empty .git, or one that is no repository, is no repository",
  () => {
    const folder = join(origin.root, "below");
    mkdirSync(join(folder, ".git"), { recursive: true });
    writeFileSync(join(folder, "network.hop"), files()["network.hop"]!);
    // The one around it counts, as with git.
    expect(diff(folder, ["HEAD"]).stderr).toBe("");
    rmSync(folder, { recursive: true });
  },
  LONG,
);
