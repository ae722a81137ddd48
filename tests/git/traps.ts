/** Repositories that have git start programs: each of these leaves a mark when it is started. */
import { execFileSync, spawnSync } from "node:child_process";
import { chmodSync, cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { files, terrain } from "../compare/network.js";
import { TestRepository } from "../compare/repository.js";

/** A program that a repository names. */
class Trap {
  readonly program: string;

  constructor(
    folder: string,
    readonly name: string,
    /** What a person would do with git that starts it; undefined where this machine cannot. */
    private readonly spring: (() => void) | undefined,
    /** A filter gives back what it gets; one that speaks a protocol would wait for ever. */
    then: "cat" | "exit 1" = "cat",
  ) {
    mkdirSync(folder, { recursive: true });
    this.program = join(folder, name);
    writeFileSync(this.program, `#!/bin/sh\necho started >> "${this.mark}"\n${then}\n`);
    chmodSync(this.program, 0o755);
  }

  private get mark(): string {
    return `${this.program}.started`;
  }

  get started(): boolean {
    return existsSync(this.mark);
  }

  forget(): void {
    rmSync(this.mark, { force: true });
  }

  /** Whether plain git starts it: a trap that never closes would prove nothing. */
  springs(): boolean {
    if (!this.spring) return true;
    // What git looks at depends on what it remembers of a file's age: it may look only the second time.
    for (let tries = 0; tries < 3; tries++) {
      this.forget();
      this.spring();
      if (this.started) return true;
    }
    return false;
  }
}

/** What is asked about a repository, and what lies in wait in it. */
export interface Scene {
  readonly name: string;
  /** Of the design. */
  readonly folder: string;
  readonly traps: readonly Trap[];
  /** Why there is no comparison with `before`; undefined: there is one. */
  readonly told?: RegExp;
}

/** Plain git, as a person runs it; whether it succeeds is no matter. */
function plainGit(folder: string, args: readonly string[], input = ""): void {
  const own = Object.entries(process.env).filter(([name]) => !name.startsWith("GIT_"));
  spawnSync("git", args, {
    cwd: folder,
    input,
    env: { ...Object.fromEntries(own), ...PERSON },
    timeout: 60_000,
  });
}

const PERSON = {
  GIT_CONFIG_GLOBAL: "/dev/null",
  GIT_CONFIG_NOSYSTEM: "1",
  GIT_TERMINAL_PROMPT: "0",
  GIT_AUTHOR_NAME: "Author",
  GIT_AUTHOR_EMAIL: "author@example.org",
  GIT_COMMITTER_NAME: "Author",
  GIT_COMMITTER_EMAIL: "author@example.org",
  // What a person may have allowed himself.
  GIT_ALLOW_PROTOCOL: "file:ext:ssh:git",
};

/** Two commits (tags `before` and `after`) and a work tree that differs from both, in text and terrain. */
function designRepository(folder: string, prefix = ""): TestRepository {
  mkdirSync(folder, { recursive: true });
  const repository = new TestRepository(folder);
  repository.git("init", "-q", "-b", "main");
  const below = (content: Readonly<Record<string, string>>) =>
    Object.fromEntries(Object.entries(content).map(([path, text]) => [`${prefix}${path}`, text]));
  repository.write(below(files()));
  repository.commit("base");
  repository.git("tag", "before");
  repository.edit(`${prefix}hops/south.hop`, "DISH60-18", "DISH120-18");
  repository.write(below(terrain(38)));
  repository.commit("second");
  repository.git("tag", "after");
  change(repository, prefix);
  return repository;
}

function change(repository: TestRepository, prefix = ""): void {
  repository.edit(`${prefix}hops/south.hop`, "at 40 m", "at 30 m");
  repository.edit(`${prefix}catalogue.hop`, "gain 44 dBi", "gain 45 dBi");
  repository.edit(`${prefix}sites.hop`, "mast 60 m", "mast 61 m");
  for (const [path, text] of Object.entries(terrain(5))) repository.write({ [`${prefix}${path}`]: text });
}

/** Settings whose programs speak a protocol. */
const TALKS = /\.process$|^core\.(sshCommand|gitProxy)$/;

/** Everything that a configuration can name for the commands that people run, in one repository. */
export function configured(folder: string, traps: string): Scene {
  const repository = designRepository(folder);
  const all: Trap[] = [];
  const trap = (
    name: string,
    key: string,
    spring: (() => void) | undefined,
    value?: (one: Trap) => string,
  ) => {
    const made = new Trap(traps, name, spring, TALKS.test(key) ? "exit 1" : "cat");
    all.push(made);
    repository.git("config", key, value?.(made) ?? made.program);
    return made;
  };
  const git =
    (...args: string[]) =>
    () =>
      plainGit(folder, args);
  signHead(repository);
  const attributes = [
    "*.hop filter=a diff=a",
    "*.asc filter=b",
    "*.prj filter=c",
    "catalogue.hop filter=d",
    "sites.hop filter=e diff=d",
  ];
  repository.write({ ".gitattributes": `${attributes.join("\n")}\n` });

  trap("fsmonitor", "core.fsmonitor", git("status"));
  trap("clean", "filter.a.clean", git("diff", "HEAD", "--", "hops"));
  trap("smudge", "filter.b.smudge", git("cat-file", "--filters", "HEAD:terrain/land.asc"));
  trap("process", "filter.c.process", git("cat-file", "--filters", "HEAD:terrain/land.prj"));
  // Whether a look at changes reads a file through its filter hangs on times; this always does.
  trap(
    "process-of-changes",
    "filter.d.process",
    git("hash-object", "--path", "catalogue.hop", "catalogue.hop"),
  );
  trap("textconv", "diff.a.textconv", git("diff", "--no-ext-diff", "HEAD", "--", "hops"));
  trap("external-diff", "diff.external", git("diff", "HEAD", "--", "hops"));
  trap("external-diff-of-a-kind", "diff.d.command", git("diff", "HEAD", "--", "sites.hop"));
  const hooked = trap("hooks", "core.hooksPath", git("update-ref", "refs/heads/more", "HEAD"), (one) =>
    dirname(one.program),
  );
  for (const hook of ["pre-commit", "post-index-change", "reference-transaction", "post-checkout"])
    cpSync(hooked.program, join(dirname(hooked.program), hook));
  // Git shows page by page in a terminal alone; `script` is one.
  const terminal = spawnSync("script", ["--version"]).status === 0;
  const log = `git -C '${folder}' -p log`;
  const show = () => spawnSync("script", ["-qec", log, "/dev/null"], { stdio: "ignore", env: process.env });
  trap("pager", "core.pager", terminal ? () => void show() : undefined);
  repository.git("config", "log.showSignature", "true");
  trap("signature", "gpg.program", git("log"));
  trap("ssh", "core.sshCommand", git("fetch", "ssh://example.invalid/x"));
  trap("proxy", "core.gitProxy", git("fetch", "git://example.invalid/x"));
  const asked = () => plainGit(folder, ["credential", "fill"], "protocol=https\nhost=example.invalid\n\n");
  trap("credential-helper", "credential.helper", asked);
  trap("password-program", "core.askPass", asked);
  trap("alias", "alias.trap", git("trap"), ({ program }) => `!${program}`);
  const included = trap(
    "included-file",
    "include.path",
    git("diff", "HEAD", "--", "sites.hop"),
    () => "../included",
  );
  repository.write({ included: `[filter "e"]\n\tclean = ${included.program}\n` });
  return { name: "configuration", folder, traps: all };
}

/** A commit that git, without asking the program for it, takes to be signed. */
function signHead(repository: TestRepository): void {
  const plain = repository.git("cat-file", "commit", "HEAD");
  const signature = "gpgsig -----BEGIN PGP SIGNATURE-----\n \n iQ==\n -----END PGP SIGNATURE-----";
  const commit = execFileSync("git", ["hash-object", "-t", "commit", "-w", "--stdin"], {
    cwd: repository.root,
    input: `${plain.replace("\n\n", `\n${signature}\n\n`)}\n`,
    encoding: "utf8",
  });
  repository.git("update-ref", "refs/heads/main", commit.trim());
  repository.git("tag", "-f", "after");
}

/** A clone without the contents of older commits: git fetches what it lacks when it is asked for. */
export function partialClone(folder: string, traps: string): Scene {
  const origin = designRepository(`${folder}-origin`);
  origin.git("config", "uploadpack.allowFilter", "true");
  origin.git("clone", "-q", "--filter=blob:none", `file://${origin.root}`, folder);
  const repository = new TestRepository(folder);
  const old = repository.git("rev-parse", "before:hops/south.hop");
  const wanted = () => plainGit(folder, ["cat-file", "-p", old]);
  const all: Trap[] = [];
  const remote = (name: string, url: (one: Trap) => string, key?: string) => {
    const trap = new Trap(traps, name, wanted, "exit 1");
    all.push(trap);
    repository.git("config", `remote.${name}.url`, url(trap));
    repository.git("config", `remote.${name}.promisor`, "true");
    repository.git("config", `remote.${name}.partialclonefilter`, "blob:none");
    if (key !== undefined) repository.git("config", key, trap.program);
  };
  repository.git("config", "--remove-section", "remote.origin");
  repository.git("config", "extensions.partialClone", "helper-command");
  repository.git("config", "protocol.allow", "always");
  remote("helper-command", ({ program }) => `ext::${program}`);
  remote("upload-command", () => origin.root, "remote.upload-command.uploadpack");
  remote("ssh-command", () => "ssh://example.invalid/x", "core.sshCommand");
  remote("proxy-command", () => "git://example.invalid/x", "core.gitProxy");
  return { name: "partial clone", folder, traps: all, told: /this clone is partial.*git fetch --refetch/ };
}

/** A repository that borrows objects of another. */
export function borrowing(folder: string, traps: string): Scene {
  const origin = designRepository(`${folder}-origin`);
  origin.git("clone", "-q", "--shared", origin.root, folder);
  const repository = new TestRepository(folder);
  change(repository);
  origin.commit("third");
  const trap = new Trap(traps, "alternates-command", () =>
    plainGit(folder, ["fetch", `file://${origin.root}`]),
  );
  repository.git("config", "core.alternateRefsCommand", trap.program);
  return { name: "borrowed objects", folder, traps: [trap] };
}

/** The folder of the design has all that makes a bare repository: a plain clone brings it. */
export function bareAmongFiles(folder: string, traps: string): Scene {
  const repository = designRepository(folder, "net/");
  const net = join(folder, "net");
  const trap = new Trap(traps, "bare-among-files", () =>
    plainGit(net, ["-c", "safe.bareRepository=all", "status"]),
  );
  repository.write({
    "net/HEAD": "ref: refs/heads/main\n",
    "net/config": `[core]\n\trepositoryformatversion = 0\n\tbare = false\n\tworktree = .\n\tfsmonitor = ${trap.program}\n`,
    "net/objects/keep": "",
    "net/refs/keep": "",
  });
  repository.git("add", "net/HEAD", "net/config", "net/objects", "net/refs");
  repository.git("commit", "-q", "-m", "a bare repository among the files");
  repository.git("tag", "-f", "after");
  return { name: "bare repository among the files", folder: net, traps: [trap] };
}

/** Repositories below the one that is asked about: one that it knows of, one that merely lies there. */
export function withInner(folder: string, traps: string): Scene {
  const repository = designRepository(folder);
  const other = designRepository(`${folder}-other`);
  repository.git("-c", "protocol.file.allow=always", "submodule", "--quiet", "add", other.root, "known");
  repository.git("commit", "-q", "-m", "with a submodule");
  repository.git("tag", "-f", "after");
  cpSync(other.root, join(folder, "lying"), { recursive: true });
  const known = new Trap(traps, "submodule", () => plainGit(folder, ["status"]));
  const lying = new Trap(traps, "embedded", () => plainGit(join(folder, "lying"), ["status"]));
  new TestRepository(join(folder, "known")).git("config", "core.fsmonitor", known.program);
  new TestRepository(join(folder, "lying")).git("config", "core.fsmonitor", lying.program);
  rmSync(join(folder, "lying", "network.hop"));
  return { name: "repositories below", folder, traps: [known, lying] };
}

/** The design lies in the submodule itself. */
export function submodule(folder: string, traps: string): Scene {
  const inner = withInner(folder, `${traps}-outer`);
  const known = join(folder, "known");
  const repository = new TestRepository(known);
  change(repository);
  const trap = new Trap(traps, "in-a-submodule", () => plainGit(known, ["status"]));
  repository.git("config", "core.fsmonitor", trap.program);
  return { name: "submodule", folder: known, traps: [trap, ...inner.traps.slice(1)] };
}

/** A second work tree with a configuration of its own. */
export function secondWorkTree(folder: string, traps: string): Scene {
  const main = designRepository(`${folder}-main`);
  main.git("worktree", "add", "-q", "-b", "second", folder);
  const repository = new TestRepository(folder);
  change(repository);
  const trap = new Trap(traps, "work-tree-configuration", () => plainGit(folder, ["status"]));
  repository.git("config", "extensions.worktreeConfig", "true");
  repository.git("config", "--worktree", "core.fsmonitor", trap.program);
  const config = readFileSync(
    join(`${folder}-main`, ".git/worktrees", folder.split("/").at(-1)!, "config.worktree"),
  );
  if (!config.includes(trap.program)) throw new Error("the configuration is not the work tree's own");
  return { name: "second work tree", folder, traps: [trap] };
}
