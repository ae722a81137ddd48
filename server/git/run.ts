/** Runs git and collects what it prints. Nothing here changes a work tree or waits for a person. */
import { spawn } from "node:child_process";

export class GitError extends Error {}

const ENVIRONMENT = {
  LC_ALL: "C",
  // Looking must neither lock the index nor ask for a password.
  GIT_OPTIONAL_LOCKS: "0",
  GIT_TERMINAL_PROMPT: "0",
};

/**
 * @param folder where git is run
 * @throws GitError with git's own reason in one line when it fails or is not installed
 */
export function git(folder: string, args: readonly string[], input?: string): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    const child = spawn("git", ["--no-pager", ...args], {
      cwd: folder,
      env: { ...process.env, ...ENVIRONMENT },
      stdio: ["pipe", "pipe", "pipe"],
    });
    const out: Buffer[] = [];
    let reason = "";
    child.stdout.on("data", (piece: Buffer) => out.push(piece));
    child.stderr.setEncoding("utf8").on("data", (piece: string) => {
      reason += piece;
    });
    child.on("error", (error: NodeJS.ErrnoException) => {
      reject(
        new GitError(error.code === "ENOENT" ? "git is not installed, or not on the path" : error.message),
      );
    });
    child.on("close", (status) => {
      if (status === 0) resolve(Buffer.concat(out));
      else reject(new GitError(firstLine(reason) || `git ${args[0]} ended with status ${status}`));
    });
    // A git that ends early closes its input; its status tells why.
    child.stdin.on("error", () => {});
    child.stdin.end(input ?? "");
  });
}

export async function gitText(folder: string, args: readonly string[]): Promise<string> {
  return (await git(folder, args)).toString("utf8");
}

/** Whether git ends with status 0. */
export async function gitSucceeds(folder: string, args: readonly string[]): Promise<boolean> {
  try {
    await git(folder, args);
    return true;
  } catch (error) {
    if (error instanceof GitError) return false;
    throw error;
  }
}

function firstLine(text: string): string {
  return (
    text
      .split("\n")
      .find((line) => line.trim() !== "")
      ?.replace(/^(fatal|error): /, "")
      .trim() ?? ""
  );
}
