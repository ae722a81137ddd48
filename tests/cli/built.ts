/** The command line as it is shipped: bundled into a folder of its own and run as a child process. */
import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build, type Plugin } from "esbuild";
import { afterAll, beforeAll } from "vitest";

export const SAMPLES = fileURLToPath(new URL("../../samples", import.meta.url));

const folder = mkdtempSync(join(tmpdir(), "hopwright-cli-"));
/** The bundled program. */
export const PROGRAM = join(folder, "hopwright.cjs");

/** A folder of this test file's own, emptied at the end. */
export function scratch(name: string): string {
  return join(folder, name);
}

/** The bundle that makes PDFs, as it was built: it is loaded by itself, and its fonts lie beside it. */
const pdfBuilt: Plugin = {
  name: "pdf-built",
  setup: ({ onResolve }) =>
    onResolve({ filter: /\/pdf\/make\.js$/ }, () => ({
      path: fileURLToPath(new URL("../../dist/pdf.cjs", import.meta.url)),
      external: true,
    })),
};

beforeAll(async () => {
  await build({
    entryPoints: [fileURLToPath(new URL("../../server/cli/main.ts", import.meta.url))],
    outfile: PROGRAM,
    bundle: true,
    platform: "node",
    target: "node22",
    format: "cjs",
    logLevel: "error",
    define: { "import.meta.url": "__bundleUrl" },
    plugins: [pdfBuilt],
    banner: { js: 'const __bundleUrl=require("node:url").pathToFileURL(__filename).href;' },
  });
}, 60_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

export interface Ran {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface RunOptions {
  readonly cwd?: string;
  readonly env?: Record<string, string>;
  readonly input?: string;
}

export function run(args: readonly string[], { cwd = SAMPLES, env = {}, input }: RunOptions = {}): Ran {
  const { FORCE_COLOR: _force, NO_COLOR: _no, ...rest } = process.env;
  const found = spawnSync(process.execPath, [PROGRAM, ...args], {
    cwd,
    input,
    env: { ...rest, ...env },
    encoding: "utf8",
    maxBuffer: 64 * 2 ** 20,
  });
  return { status: found.status, stdout: found.stdout, stderr: found.stderr };
}

/** Runs it with a reader that closes the pipe after the first piece. */
export function runIntoClosedPipe(args: readonly string[]): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [PROGRAM, ...args], {
      cwd: SAMPLES,
      stdio: ["ignore", "pipe", "pipe"],
    });
    let stderr = "";
    child.stdout.destroy();
    child.stderr.setEncoding("utf8").on("data", (piece: string) => {
      stderr += piece;
    });
    child.on("error", reject).on("close", (status) => resolve({ status, stdout: "", stderr }));
  });
}

/** Says one thing after the other, each once the answer to the one before has come. */
export function converse(
  args: readonly string[],
  turns: readonly (readonly [say: string, until: string])[],
): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [PROGRAM, ...args], { cwd: SAMPLES });
    let [stdout, stderr, turn, seen] = ["", "", 0, 0];
    const next = () => {
      seen = stdout.length;
      child.stdin.write(turns[turn++]![0]);
    };
    child.stdout.setEncoding("utf8").on("data", (piece: string) => {
      stdout += piece;
      const until = turns[turn - 1]?.[1];
      if (until !== undefined && stdout.indexOf(until, seen) >= 0 && turn < turns.length) next();
    });
    child.stderr.setEncoding("utf8").on("data", (piece: string) => {
      stderr += piece;
    });
    child.on("error", reject).on("close", (status) => resolve({ status, stdout, stderr }));
    next();
  });
}
