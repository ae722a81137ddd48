/** Devices, pipes and objects of any size in the place of git's own files: told in one line, at once, in little memory. */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { mkdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { deflateSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { endlessIn } from "../../server/git/endless.js";
import { repositoryOf, revisionOf } from "../../server/git/repository.js";
import { git } from "../../server/git/run.js";
import { run } from "../cli/built.js";
import { files } from "../compare/network.js";
import { TestRepository, TODAY } from "../compare/repository.js";

const LONG = 300_000;
let repository: TestRepository;

beforeAll(() => {
  repository = TestRepository.create();
  repository.write(files());
  repository.commit("base");
});
afterAll(() => repository.remove());

const PLACES = [
  ".git/HEAD.lock",
  ".git/config.worktree",
  ".git/packed-refs",
  ".git/shallow",
  ".git/refs/heads/more",
  ".git/objects/info/alternates",
  ".git/objects/pack/pack-x.idx",
  ".git/objects/aa/aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa",
];

const WAYS: Readonly<Record<string, (path: string) => void>> = {
  "a pipe": (path) => void execFileSync("mkfifo", [path]),
  "a link to a device": (path) => symlinkSync("/dev/zero", path),
};

describe.each(Object.entries(WAYS))("%s stands for", (_way, make) => {
  test.each(PLACES)("%s", async (place) => {
    const path = join(repository.root, place);
    mkdirSync(dirname(path), { recursive: true });
    make(path);
    try {
      await expect(repositoryOf(repository.root)).rejects.toThrow(`${path}: a device or a pipe`);
    } finally {
      rmSync(path);
    }
  });

  test("what the configuration includes", () => {
    const path = join(repository.root, "included");
    make(path);
    repository.git("config", "include.path", "/dev/null");
    expect(endlessIn(repository.root)).toBeUndefined();
    writeFileSync(join(repository.root, ".git/more"), '[includeIf "gitdir:/"]\n\tpath = ../included\n');
    repository.git("config", "include.path", "more");
    try {
      const { status, stderr } = run(["diff", "HEAD", "--today", TODAY], { cwd: repository.root });
      expect([status, stderr]).toEqual([
        2,
        expect.stringMatching(/^error: \S+\/included: a device or a pipe[^\n]*\n$/),
      ]);
    } finally {
      rmSync(path);
      execFileSync("git", ["config", "--unset-all", "include.path"], { cwd: repository.root });
    }
  });
});

test("a folder and a plain file are neither", () => {
  expect(endlessIn(repository.root)).toBeUndefined();
});

/** A loose object whose content is `head` and then blanks, packed to a thousandth of its size. */
function storeLarge(type: string, head: string, bytes: number): string {
  const content = Buffer.alloc(bytes, " ");
  content.write(head);
  const whole = Buffer.concat([Buffer.from(`${type} ${bytes}\0`), content]);
  const name = createHash("sha1").update(whole).digest("hex");
  const path = join(repository.root, ".git/objects", name.slice(0, 2), name.slice(2));
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, deflateSync(whole));
  return name;
}

test(
  "a commit of any size is not unpacked",
  async () => {
    const top = repository.git("rev-parse", "HEAD^{tree}");
    const head = `tree ${top}\nauthor a <a@b> 1767225600 +0000\ncommitter a <a@b> 1767225600 +0000\n\nlarge`;
    const bytes = 256 * 2 ** 20;
    const [small, large] = [storeLarge("commit", head, 2 ** 20), storeLarge("commit", head, bytes)];
    const at = await repositoryOf(repository.root);
    expect((await git(at.root, ["rev-list", "--format=%s", small])).toString()).toContain("large");
    for (const asked of [
      () => git(at.root, ["rev-list", "--format=%s", large]),
      () => git(at.root, ["ls-tree", "-r", "-z", "--full-tree", large]),
    ])
      await expect(asked()).rejects.toThrow(
        /something of 256 MB that git would hold in memory, too much to be read$/,
      );
  },
  LONG,
);

test("damage is told as damage, not as a revision that is not there", async () => {
  const broken = TestRepository.create();
  broken.write(files());
  broken.commit("base");
  broken.git("gc", "-q");
  const folder = join(broken.root, ".git/objects/pack");
  for (const name of execFileSync("ls", [folder], { encoding: "utf8" }).trim().split("\n"))
    if (name.endsWith(".idx")) {
      rmSync(join(folder, name));
      writeFileSync(join(folder, name), "short");
    }
  try {
    const at = await repositoryOf(broken.root);
    await expect(revisionOf(at, "HEAD")).rejects.toThrow(/^HEAD: it cannot be read: [^\n]*too small/);
  } finally {
    broken.remove();
  }
});
