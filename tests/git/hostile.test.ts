/** Names, trees and objects that nobody makes by accident. */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterEach, describe, expect, test } from "vitest";
import { treeOf } from "../../server/git/objects.js";
import { findRevision, repositoryOf, revisionOf } from "../../server/git/repository.js";
import { git } from "../../server/git/run.js";
import { isEmpty } from "../../shared/compare/change-set.js";
import { run } from "../cli/built.js";
import { files, hop, terrain } from "../compare/network.js";
import { TestRepository, TODAY } from "../compare/repository.js";

const LONG = 120_000;
const made: TestRepository[] = [];

afterEach(() => {
  for (const repository of made.splice(0)) repository.remove();
});

function repositoryWith(content: Readonly<Record<string, string>> = files()): TestRepository {
  const repository = TestRepository.create();
  made.push(repository);
  repository.write(content);
  repository.commit("base");
  return repository;
}

/** Stores an object as it is, whatever git would say of it. */
function store({ root }: TestRepository, type: "tree" | "commit" | "blob", content: Buffer): string {
  const args = ["hash-object", "-t", type, "--literally", "-w", "--stdin"];
  return execFileSync("git", args, { cwd: root, input: content, encoding: "utf8" }).trim();
}

function tree(
  repository: TestRepository,
  entries: readonly (readonly [mode: string, name: string, object: string])[],
) {
  return store(
    repository,
    "tree",
    Buffer.concat(
      entries.flatMap(([mode, name, object]) => [
        Buffer.from(`${mode} ${name}\0`),
        Buffer.from(object, "hex"),
      ]),
    ),
  );
}

function commitOf(
  repository: TestRepository,
  top: string,
  more = "Author <a@b> 1767225600 +0000",
  title = "crafted",
) {
  return store(
    repository,
    "commit",
    Buffer.from(`tree ${top}\nauthor ${more}\ncommitter ${more}\n\n${title}\n`),
  );
}

describe("a revision", () => {
  const NAMES = [
    ...[
      "-x",
      "--output=marked",
      "--exec=touch marked",
      "-",
      "--",
      "",
      " ",
      "\n",
      "HEAD\nHEAD",
      "HEAD\0",
      "\x1b[31mHEAD",
    ],
    ...[
      "@{-1}",
      "@{upstream}",
      "@{u}",
      "@{push}",
      "HEAD@{99}",
      "HEAD@{yesterday}",
      "HEAD^{tree}",
      "HEAD^{blob}",
    ],
    ...[
      "HEAD:network.hop",
      ":0:network.hop",
      ":network.hop",
      ":/no such",
      "HEAD^{/no such}",
      "HEAD^99",
      "HEAD~99999999999",
    ],
    ...[
      "a..b",
      "a...b",
      "^HEAD",
      "HEAD^@",
      "HEAD^!",
      "HEAD^-",
      "--all",
      "--stdin",
      "refs/heads/../../config",
      "../x",
      "main.lock",
    ],
    ...[
      "0000000000000000000000000000000000000000",
      "x".repeat(5000),
      "$(touch marked)",
      "`touch marked`",
      "; touch marked",
    ],
  ];

  test(
    "of whatever name is found or told in one line; nothing else comes of it",
    async () => {
      const repository = repositoryWith();
      const at = await repositoryOf(repository.root);
      const before = readdirSync(repository.root).sort();
      for (const name of NAMES) {
        const found = await revisionOf(at, name).then(
          ({ commit }) => commit,
          (error: Error) => error.message,
        );
        if (!/^[0-9a-f]{40}$/.test(found)) {
          expect(found, JSON.stringify(name)).toMatch(
            /: (there is no such revision; |this is a (tree|blob), no commit; )/,
          );
          expect(found, JSON.stringify(name)).not.toMatch(/\p{Cc}/u);
          expect(found.length).toBeLessThan(300);
        }
      }
      expect(readdirSync(repository.root).sort()).toEqual(before);
      expect(existsSync("marked")).toBe(false);
    },
    LONG,
  );

  test(
    "of the command line, in every place that takes one",
    () => {
      const repository = repositoryWith();
      for (const name of [
        "@{-1}",
        "HEAD^{tree}",
        "HEAD:network.hop",
        "a\nb",
        "\x1b[31m",
        "x..--output=marked",
        "refs/heads/x...y",
      ])
        for (const args of [
          ["diff", name],
          ["diff", "HEAD", name],
          ["history", "KELD-TARN", "--rev", name],
        ]) {
          const { status, stderr } = run([...args, "--today", TODAY], { cwd: repository.root });
          expect([status, stderr], args.join(" ")).toEqual([2, expect.stringMatching(/^error: [^\n]*\n$/)]);
          expect(stderr).not.toMatch(/fault of hopwright|\x1b/);
        }
      expect(existsSync(join(repository.root, "marked"))).toBe(false);
    },
    LONG,
  );

  test(
    "made of any pieces is found by git too, or not found",
    async () => {
      const repository = repositoryWith();
      const at = await repositoryOf(repository.root);
      const piece = fc.constantFrom(
        "HEAD",
        "main",
        "@",
        "{",
        "}",
        "^",
        "~",
        ":",
        "/",
        "-",
        "..",
        "\\",
        "*",
        "é",
        " ",
        "1",
        "\n",
      );
      await fc.assert(
        fc.asyncProperty(fc.array(piece, { maxLength: 5 }), async (pieces) => {
          const found = await findRevision(at, pieces.join(""));
          if (found)
            expect(found.commit).toBe(repository.git("rev-parse", "--verify", `${pieces.join("")}^{commit}`));
        }),
        { numRuns: 60 },
      );
    },
    LONG,
  );

  test(
    "of a branch that is called like an option or like a file",
    () => {
      const repository = repositoryWith();
      for (const name of ["--output=x", "-p", "HEAD"])
        repository.git("update-ref", `refs/heads/${name}`, "HEAD");
      repository.git("branch", "hops");
      repository.edit("hops/south.hop", "at 40 m", "at 30 m");
      const told = (...args: string[]) => run(["diff", ...args, "--today", TODAY], { cwd: repository.root });
      expect(told("refs/heads/--output=x").stdout).toContain("FELL-TARN");
      expect(run(["diff", "--", "--output=x"], { cwd: repository.root }).stderr).toMatch(
        /^error: --output=x: there is no such revision/,
      );
      expect(told("hops").stderr).toBe("");
      expect(existsSync(join(repository.root, "x"))).toBe(false);
    },
    LONG,
  );
});

describe("a tree", () => {
  test(
    "with names that lead out of the repository is read without them, and nothing is written outside",
    async () => {
      const repository = repositoryWith();
      const blob = (text: string) => store(repository, "blob", Buffer.from(text));
      const object = (path: string) => repository.git("rev-parse", `HEAD:${path}`);
      const land = blob(terrain(40)["terrain/land.asc"]!);
      const flat = blob(terrain(0)["terrain/land.asc"]!);
      const up = (...names: string[]) =>
        names.reduceRight(
          (below, name) => tree(repository, [["40000", name, below]]),
          tree(repository, [["100644", "escaped.asc", land]]),
        );
      const top = tree(repository, [
        ["40000", "..", up("..", "..", "..", "..", "tmp")],
        ["40000", ".git", tree(repository, [["100644", "x.hop", blob(hop("GIT", "KELD", "FELL", 1))]])],
        ["100644", "..\\escaped.hop", blob(hop("BACK", "KELD", "FELL", 2))],
        ["100644", "catalogue.hop", object("catalogue.hop")],
        ["40000", "hops", object("hops")],
        ["120000", "link.hop", blob("/etc/passwd")],
        ["100644", "network.hop", object("network.hop")],
        ["100644", "sites.hop", object("sites.hop")],
        [
          "40000",
          "terrain",
          tree(repository, [
            ["100644", "../../../../../../tmp/escaped.asc", land],
            ["100644", "land.asc", flat],
            ["100644", "land.prj", object("terrain/land.prj")],
          ]),
        ],
      ]);
      const commit = commitOf(repository, top);
      const read = await treeOf(await repositoryOf(repository.root), commit);
      expect([...read.refused].sort()).toEqual([
        "../../../../../tmp/escaped.asc",
        "..\\escaped.hop",
        ".git/x.hop",
        "terrain/../../../../../../tmp/escaped.asc",
      ]);
      const { designs, notes } = await repository.compare(commit, undefined);
      expect(designs[0]!.changes.counts).toMatchObject({ added: 0, removed: 0 });
      expect(notes).toEqual([
        `link.hop is a link in ${commit}, and left out of the comparison.`,
        expect.stringMatching(/ and 1 more are no names of files in .*, and left out of the comparison\.$/),
      ]);
      expect(readdirSync(tmpdir()).filter((name) => name.startsWith("escaped"))).toEqual([]);
    },
    LONG,
  );

  test(
    "with twins that differ in case has both",
    async () => {
      const repository = repositoryWith();
      const object = (path: string) => repository.git("rev-parse", `HEAD:${path}`);
      const twins = (a: string, b: string) =>
        commitOf(
          repository,
          tree(repository, [
            [
              "100644",
              "A.hop",
              store(repository, "blob", Buffer.from(hop("BIG", "KELD", "FELL", a === "" ? 1 : 2))),
            ],
            [
              "100644",
              "a.hop",
              store(repository, "blob", Buffer.from(hop("SMALL", "KELD", "FELL", b === "" ? 1 : 3))),
            ],
            ...["catalogue.hop", "network.hop", "sites.hop"].map(
              (path) => ["100644", path, object(path)] as const,
            ),
          ]),
        );
      const changes = await repository.changes(twins("", ""), twins("x", ""));
      expect(changes.hops.map((change) => change.hop)).toEqual(["BIG"]);
    },
    LONG,
  );

  test(
    "whose entries are not what they are said to be is told",
    () => {
      const repository = repositoryWith();
      const object = (path: string) => repository.git("rev-parse", `HEAD:${path}`);
      const missing = "1".repeat(40);
      const cases: Readonly<Record<string, string>> = {
        "a file that is a folder": tree(repository, [["100644", "a.hop", object("hops")]]),
        "a folder that is a file": tree(repository, [["40000", "hops", object("network.hop")]]),
        "a file that is not there": tree(repository, [["100644", "a.hop", missing]]),
        "a folder that is not there": tree(repository, [["40000", "hops", missing]]),
        "no tree": missing,
        "bytes that are no tree": store(repository, "tree", Buffer.from("nonsense")),
      };
      for (const [name, top] of Object.entries(cases)) {
        const { status, stderr } = run(["diff", commitOf(repository, top), "--today", TODAY], {
          cwd: repository.root,
        });
        expect(stderr, name).not.toContain("fault of hopwright");
        expect([status, stderr], name).toEqual([2, expect.stringMatching(/^error: [^\n]+\n$/)]);
      }
    },
    LONG,
  );

  test(
    "that unpacks without end is given up",
    () => {
      const repository = repositoryWith();
      // Ten folders of ten folders of ...: ten thousand million names out of a kilobyte.
      let below = tree(repository, [
        ["100644", "a.hop", store(repository, "blob", Buffer.from(hop("X", "KELD", "FELL", 1)))],
      ]);
      for (let depth = 0; depth < 10; depth++)
        below = tree(
          repository,
          Array.from("abcdefghij", (name) => ["40000", name, below] as const),
        );
      const start = performance.now();
      const { status, stderr } = run(["diff", commitOf(repository, below), "--today", TODAY], {
        cwd: repository.root,
      });
      expect([status, stderr]).toEqual([
        2,
        expect.stringMatching(/^error: [^\n]*: git has more than 64 MB to say/),
      ]);
      expect(performance.now() - start).toBeLessThan(60_000);
    },
    LONG,
  );

  test(
    "with text that unpacks without end is given up",
    () => {
      const repository = repositoryWith();
      const megabytes = 19;
      const many = Array.from(
        { length: 14 },
        (_, index) =>
          [
            "100644",
            `${index}.hop`,
            store(repository, "blob", Buffer.alloc(megabytes * 2 ** 20, `// ${index} \n`)),
          ] as const,
      );
      const { status, stderr } = run(
        [
          "diff",
          commitOf(
            repository,
            tree(
              repository,
              [...many].sort(([, a], [, b]) => (a < b ? -1 : 1)),
            ),
          ),
          "--today",
          TODAY,
        ],
        {
          cwd: repository.root,
        },
      );
      expect([status, stderr]).toEqual([
        2,
        expect.stringMatching(/^error: [^\n]*: its \.hop files hold 266 MB; up to 256 MB are read\n$/),
      ]);
    },
    LONG,
  );

  test(
    "with one file too large for a design says so, and the rest is compared",
    () => {
      const repository = repositoryWith();
      const object = (path: string) => repository.git("rev-parse", `HEAD:${path}`);
      const large = store(repository, "blob", Buffer.alloc(21 * 2 ** 20, "// x\n"));
      const commit = commitOf(
        repository,
        tree(repository, [
          ["100644", "catalogue.hop", object("catalogue.hop")],
          ["40000", "hops", object("hops")],
          ["100644", "large.hop", large],
          ["100644", "network.hop", object("network.hop")],
          ["100644", "sites.hop", object("sites.hop")],
          ["40000", "terrain", object("terrain")],
        ]),
      );
      const { status, stdout, stderr } = run(["diff", commit, "--today", TODAY], { cwd: repository.root });
      expect([status, stderr]).toEqual([
        2,
        expect.stringMatching(/^error: large\.hop: not readable in \w+: too large for a design file\n$/),
      ]);
      expect(stdout).toContain("No change");
    },
    LONG,
  );
});

describe("a commit", () => {
  test(
    "is what its name says, whatever the repository would have in its place",
    async () => {
      const repository = repositoryWith();
      const first = repository.git("rev-parse", "HEAD");
      repository.edit("hops/south.hop", "DISH60-18", "DISH120-18");
      const second = repository.commit("second");
      expect(isEmpty(await repository.changes(first, second))).toBe(false);
      repository.git("replace", first, second);
      writeFileSync(join(repository.root, ".git/info/grafts"), `${second} ${second}\n`);
      expect(isEmpty(await repository.changes(first, second))).toBe(false);
      const history = run(["history", "FELL-TARN", "--today", TODAY], { cwd: repository.root });
      expect(history.stderr).toBe("");
      expect(history.stdout).toMatch(/second[\s\S]*base/);
    },
    LONG,
  );

  test(
    "with control characters in author and title is told without them",
    () => {
      const repository = repositoryWith();
      const top = repository.git("rev-parse", "HEAD^{tree}");
      const author = "\x1b[31mAuthor\x07 <a@b> 99999999999999 +9999";
      const commit = commitOf(repository, top, author, "\x1b]0;title\x07 \r over");
      repository.git("update-ref", "refs/heads/main", commit);
      const { stdout, stderr } = run(["history", "FELL-TARN", "--today", TODAY], { cwd: repository.root });
      expect(stderr).toBe("");
      expect(stdout.replaceAll("\n", "")).not.toMatch(/\p{Cc}/u);
    },
    LONG,
  );
});

describe("a repository that never answers", () => {
  test(
    "is given up, by silence and by length",
    async () => {
      const { root } = repositoryWith();
      await expect(git(root, ["cat-file", "blob", "HEAD:network.hop"], { mostBytes: 100 })).rejects.toThrow(
        /: git has more than 0\.0000\d+ MB to say, too much to be read$/,
      );
      rmSync(join(root, ".git/refs"), { recursive: true });
      mkdirSync(join(root, ".git/refs/heads"), { recursive: true });
      execFileSync("mkfifo", [join(root, ".git/refs/heads/main")]);
      const start = performance.now();
      await expect(git(root, ["rev-parse", "HEAD"], { longestSilenceMs: 500 })).rejects.toThrow(
        /: git did not answer for 0\.5 s$/,
      );
      expect(performance.now() - start).toBeLessThan(60_000);
    },
    LONG,
  );
});

describe("line ends", () => {
  const windows = (text: string) => text.replaceAll("\n", "\r\n");
  const all = (content: Readonly<Record<string, string>>) =>
    Object.fromEntries(Object.entries(content).map(([path, text]) => [path, windows(text)]));
  const surveyed = () => {
    const content = files();
    content["hops/north.hop"] = content["hops/north.hop"]!.replace(
      "channel P18 / 55 MHz / 6\n",
      'channel P18 / 55 MHz / 6\n  survey "moss.csv" from KELD by field\n',
    );
    content["hops/moss.csv"] = "distance_m,height_m\n0,200\n4000,205\n8233,200\n";
    return content;
  };

  test(
    "are no difference, whichever side has which, whatever git is told of them",
    async () => {
      for (const [attributes, autocrlf] of [
        ["", "false"],
        ["", "true"],
        ["", "input"],
        ["* text eol=crlf\n", "false"],
        ["* -text\n", "true"],
        ["* text=auto eol=lf\n", "true"],
      ] as const)
        for (const [kept, laid] of [
          [surveyed(), all(surveyed())],
          [all(surveyed()), surveyed()],
          [all(surveyed()), all(surveyed())],
        ] as const) {
          const repository = TestRepository.create();
          made.push(repository);
          repository.git("config", "core.autocrlf", autocrlf);
          repository.write({ ".gitattributes": attributes, ...kept });
          repository.commit("base");
          repository.write(laid);
          const what = `${JSON.stringify(attributes)} autocrlf=${autocrlf}`;
          const { designs, notes } = await repository.compare("HEAD", undefined);
          expect([isEmpty(designs[0]!.changes), notes], what).toEqual([true, []]);
          // A change is one all the same, and only that.
          repository.write({ "hops/moss.csv": laid["hops/moss.csv"]!.replace("4000,205", "4000,225") });
          expect(
            (await repository.changes("HEAD")).hops.map((change) => change.hop),
            what,
          ).toEqual(["KELD-MOSS"]);
        }
    },
    LONG,
  );
});

describe("a pointer of large-file storage", () => {
  const pointerTo = (content: string) =>
    `version https://git-lfs.github.com/spec/v1\noid sha256:${sha256(content)}\nsize ${Buffer.byteLength(content)}\n`;
  const sha256 = (content: string) => createHash("sha256").update(content).digest("hex");

  /** A repository whose terrain is kept elsewhere: first the low ridge, then the high one, which lies in the work tree. */
  function kept(): { repository: TestRepository; low: string; high: string } {
    const [low, high] = [terrain(10)["terrain/land.asc"]!, terrain(38)["terrain/land.asc"]!];
    const repository = repositoryWith({ ...files(), "terrain/land.asc": pointerTo(low) });
    repository.write({ "terrain/land.asc": pointerTo(high) });
    repository.commit("high");
    repository.write({ "terrain/land.asc": high });
    return { repository, low, high };
  }

  function keep(repository: TestRepository, content: string, as = content): void {
    const name = sha256(content);
    const at = join(repository.root, ".git/lfs/objects", name.slice(0, 2), name.slice(2, 4));
    mkdirSync(at, { recursive: true });
    writeFileSync(join(at, name), as);
  }

  test(
    "is what lies in the work tree, as long as that is what it says",
    async () => {
      const { repository } = kept();
      const { designs, notes } = await repository.compare("HEAD", undefined);
      expect([isEmpty(designs[0]!.changes), notes]).toEqual([true, []]);
      repository.write({ "terrain/land.asc": terrain(39)["terrain/land.asc"]! });
      const changed = await repository.compare("HEAD", undefined);
      expect(changed.notes).toEqual([
        expect.stringMatching(
          /^terrain\/land\.asc is a pointer of large-file storage in HEAD, and what it points to is not here; fetch it with git lfs fetch origin \w+\.$/,
        ),
      ]);
    },
    LONG,
  );

  test(
    "is followed to where git keeps it on this machine, by nothing but reading, and only if it is what it says",
    async () => {
      const { repository, low } = kept();
      keep(repository, low);
      const { designs, notes } = await repository.compare("HEAD~1", undefined);
      expect(notes).toEqual([]);
      expect(designs[0]!.changes.hops.map(({ hop, causes }) => [hop, causes[0]!.kind])).toEqual([
        ["KELD-MOSS", "terrain"],
      ]);
      keep(repository, low, low.replace("200", "201"));
      expect((await repository.compare("HEAD~1", undefined)).notes).toHaveLength(1);
    },
    LONG,
  );

  test(
    "in place of a design is called what it is",
    () => {
      const repository = repositoryWith();
      repository.write({ "hops/south.hop": pointerTo("x") });
      repository.commit("pointer");
      repository.write({ "hops/south.hop": files()["hops/south.hop"]! });
      const { status, stderr } = run(["diff", "HEAD", "--today", TODAY], { cwd: repository.root });
      expect([status, stderr]).toEqual([
        2,
        expect.stringMatching(
          /^error: hops\/south\.hop: in \w+ a pointer of large-file storage: no design is kept there\n$/,
        ),
      ]);
      expect(readFileSync(join(repository.root, "hops/south.hop"), "utf8")).toBe(files()["hops/south.hop"]);
    },
    LONG,
  );
});
