/** What git keeps beside its objects, to be fast, says something else than the objects: they are what counts. */
import { execFileSync } from "node:child_process";
import {
  chmodSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { afterEach, expect, test } from "vitest";
import { endlessIn } from "../../server/git/endless.js";
import { repositoryOf } from "../../server/git/repository.js";
import { isEmpty } from "../../shared/compare/change-set.js";
import { run } from "../cli/built.js";
import { files, terrain } from "../compare/network.js";
import { TestRepository, TODAY } from "../compare/repository.js";

const LONG = 300_000;
const made: TestRepository[] = [];
afterEach(() => {
  for (const repository of made.splice(0)) repository.remove();
});

function repositoryWith(): TestRepository {
  const repository = TestRepository.create();
  made.push(repository);
  repository.write(files());
  repository.commit("base");
  repository.edit("hops/south.hop", "DISH60-18", "DISH120-18");
  repository.write(terrain(38));
  repository.commit("second");
  return repository;
}

test(
  "a graph of commits that gives one the files of another",
  async () => {
    const repository = repositoryWith();
    repository.git("commit-graph", "write", "--reachable");
    const path = join(repository.root, ".git/objects/info/commit-graph");
    const graph = readFileSync(path);
    const tree = (of: string) => Buffer.from(repository.git("rev-parse", `${of}^{tree}`), "hex");
    const [was, is] = [tree("HEAD~1"), tree("HEAD")];
    chmodSync(path, 0o644);
    writeFileSync(
      path,
      Buffer.from(graph.toString("latin1").replace(is.toString("latin1"), was.toString("latin1")), "latin1"),
    );
    // Plain git is deceived by it.
    expect(repository.git("rev-list", "--count", "HEAD", "--", "hops")).toBe("1");
    expect(isEmpty(await repository.changes("HEAD~1", "HEAD"))).toBe(false);
    const history = run(["history", "FELL-TARN", "--today", TODAY], { cwd: repository.root });
    expect(history.stdout).toMatch(/second[\s\S]*base/);
  },
  LONG,
);

/** Where two objects lie in a pack is exchanged in its index. */
function exchange(repository: TestRepository, a: string, b: string): void {
  repository.git("gc", "-q");
  const folder = join(repository.root, ".git/objects/pack");
  const name = readdirSync(folder).find((one) => one.endsWith(".idx"))!;
  const index = readFileSync(join(folder, name));
  const count = index.readUInt32BE(8 + 255 * 4);
  const names = 8 + 256 * 4;
  const offsets = names + 20 * count + 4 * count;
  const placeOf = (object: string) => {
    for (let i = 0; i < count; i++)
      if (index.toString("hex", names + 20 * i, names + 20 * (i + 1)) === object) return offsets + 4 * i;
    throw new Error("not in the pack");
  };
  const [one, other] = [placeOf(a), placeOf(b)];
  const [first, second] = [index.readUInt32BE(one), index.readUInt32BE(other)];
  index.writeUInt32BE(second, one);
  index.writeUInt32BE(first, other);
  chmodSync(join(folder, name), 0o644);
  writeFileSync(join(folder, name), index);
}

test.each([
  ["a design", "hops/south.hop"],
  ["terrain", "terrain/land.asc"],
])(
  "an index of packed objects that gives %s the content of another",
  (_what, path) => {
    const repository = repositoryWith();
    const [was, is] = ["HEAD~1", "HEAD"].map((of) => repository.git("rev-parse", `${of}:${path}`));
    exchange(repository, was!, is!);
    // Plain git is deceived by it.
    expect(repository.git("cat-file", "blob", was!)).toContain(path.endsWith(".hop") ? "DISH120-18" : "");
    const { status, stderr } = run(["diff", "HEAD~1", "HEAD", "--today", TODAY], { cwd: repository.root });
    expect([status, stderr]).toEqual([
      2,
      expect.stringMatching(
        /^error: [^\n]+: object [0-9a-f]{40} is not what its name says; git fsck tells more\n$/,
      ),
    ]);
  },
  LONG,
);

test(
  "a file of 4 TB without content, in the work tree and where git keeps it, is not read through for a pointer to it",
  async () => {
    const repository = repositoryWith();
    const [sha256, bytes] = ["0".repeat(64), 4 * 2 ** 40];
    const pointer = `version https://git-lfs.github.com/spec/v1\noid sha256:${sha256}\nsize ${bytes}\n`;
    repository.write({ "terrain/land.asc": pointer });
    repository.commit("a pointer");
    const kept = join(repository.root, ".git/lfs/objects/00/00");
    mkdirSync(kept, { recursive: true });
    for (const path of [join(repository.root, "terrain/land.asc"), join(kept, sha256)]) {
      writeFileSync(path, "");
      truncateSync(path, bytes);
    }
    const start = performance.now();
    const { notes } = await repository.compare("HEAD", undefined);
    expect(notes.join()).toMatch(/land\.asc is a pointer of large-file storage in HEAD/);
    expect(performance.now() - start).toBeLessThan(60_000);
  },
  LONG,
);

test("a pipe behind a linked folder is found, also where folders lead in a circle", async () => {
  const repository = repositoryWith();
  const elsewhere = join(repository.root, "elsewhere");
  mkdirSync(join(elsewhere, "deeper"), { recursive: true });
  symlinkSync(elsewhere, join(repository.root, ".git/refs/heads/more"));
  symlinkSync(join(repository.root, ".git"), join(elsewhere, "circle"));
  expect(endlessIn(repository.root)).toBeUndefined();
  execFileSync("mkfifo", [join(elsewhere, "deeper/pipe")]);
  await expect(repositoryOf(repository.root)).rejects.toThrow(/more\/deeper\/pipe: a device or a pipe/);
});

test(
  "a file outside the repository that neither side can read is told once",
  () => {
    const repository = repositoryWith();
    const outside = `${repository.root}-shared`;
    mkdirSync(outside);
    made.push(new TestRepository(outside));
    writeFileSync(join(outside, "broken.hop"), Buffer.of(0xff, 0xfe, 0xfd));
    repository.edit("network.hop", "climate", `catalogue "../${outside.split("/").at(-1)}"\n  climate`);
    repository.commit("with a catalogue");
    repository.edit("hops/south.hop", "at 40 m", "at 30 m");
    const { status, stderr } = run(["diff", "HEAD", "--today", TODAY], { cwd: repository.root });
    expect([status, stderr]).toEqual([2, expect.stringMatching(/^error: [^\n]*broken\.hop: [^\n]+\n$/)]);
  },
  LONG,
);
