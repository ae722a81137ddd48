/** Git repositories in a folder of their own, for tests: commits are written step by step and compared in process. */
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { compareFolder, type FolderComparison } from "../../server/compare/compare-folders.js";
import { repositoryOf, revisionOf } from "../../server/git/repository.js";
import type { ChangeSet, HopChange } from "../../shared/compare/change-set.js";

export const TODAY = "2026-06-01";

const IDENTITY = {
  GIT_AUTHOR_NAME: "Author",
  GIT_AUTHOR_EMAIL: "author@example.org",
  GIT_COMMITTER_NAME: "Author",
  GIT_COMMITTER_EMAIL: "author@example.org",
  GIT_CONFIG_GLOBAL: "/dev/null",
  GIT_CONFIG_NOSYSTEM: "1",
};

export class TestRepository {
  readonly root: string;
  private clock = Date.parse("2026-01-01T12:00:00Z");

  constructor(folder = mkdtempSync(join(tmpdir(), "hopwright-repository-"))) {
    this.root = folder;
  }

  static create(): TestRepository {
    const repository = new TestRepository();
    repository.git("init", "-q", "-b", "main");
    return repository;
  }

  git(...args: string[]): string {
    this.clock += 60_000;
    const date = new Date(this.clock).toISOString();
    return execFileSync("git", args, {
      cwd: this.root,
      encoding: "utf8",
      env: { ...process.env, ...IDENTITY, GIT_AUTHOR_DATE: date, GIT_COMMITTER_DATE: date },
      stdio: ["ignore", "pipe", "pipe"],
    }).trim();
  }

  write(files: Readonly<Record<string, string>>): void {
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(this.root, path)), { recursive: true });
      writeFileSync(join(this.root, path), text);
    }
  }

  read(path: string): string {
    return readFileSync(join(this.root, path), "utf8");
  }

  /** Replaces a piece of a file that must be there. */
  edit(path: string, from: string, to: string): void {
    const text = this.read(path);
    if (!text.includes(from)) throw new Error(`${path} does not hold ${JSON.stringify(from)}`);
    writeFileSync(join(this.root, path), text.replaceAll(from, to));
  }

  /** @returns the commit */
  commit(message: string): string {
    this.git("add", "-A");
    this.git("commit", "-q", "--allow-empty", "-m", message);
    return this.git("rev-parse", "HEAD");
  }

  async compare(was: string, is: string | undefined, folder = "."): Promise<FolderComparison> {
    const at = join(this.root, folder);
    const repository = await repositoryOf(this.root);
    const compared = await compareFolder(
      repository,
      at,
      await revisionOf(repository, was),
      is === undefined ? undefined : await revisionOf(repository, is),
      { today: TODAY },
    );
    compared.dispose();
    return compared;
  }

  /** Of a repository with one design. */
  async changes(was: string, is?: string): Promise<ChangeSet> {
    const { designs } = await this.compare(was, is);
    if (designs.length !== 1) throw new Error(`${designs.length} designs`);
    return designs[0]!.changes;
  }

  remove(): void {
    rmSync(this.root, { recursive: true, force: true });
  }
}

/** Figures in one line each, as a reader sees them. */
export function figuresTold({ figures }: HopChange): string[] {
  return figures.map(({ label, difference, verdict }) => `${label}: ${difference ?? "–"} ${verdict}`);
}

export function decisionsTold({ decisions }: HopChange): string[] {
  return decisions.map(({ site, word, was, is }) =>
    `${site ?? ""} ${word}: ${was ?? "–"} -> ${is ?? "–"}`.trim(),
  );
}

/** Findings of some rules, without what stays. */
export function findingsTold({ findings }: Pick<HopChange, "findings">): string[] {
  return findings
    .filter(({ status, severity }) => status !== "still there" && severity !== "info")
    .map(({ status, rule }) => `${status} ${rule}`);
}
