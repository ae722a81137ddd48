/**
 * Runs the suite in a real workbench: packages the extension, finds a host, and lets vitest drive it.
 *
 *   npm run test:workbench              the suite in a served workbench and a browser
 *   HOPWRIGHT_WORKBENCH_HOST=desktop    the same suite in a desktop workbench (fetched on first use)
 *   HOPWRIGHT_REQUIRE_WORKBENCH=1       a missing host is a failure, not "not run"
 *
 * The last line is for programs: "workbench: N passed, N failed, N skipped" or "workbench: not run: REASON".
 */
import { spawnSync } from "node:child_process";
import { accessSync, constants, existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { homedir } from "node:os";
import { delimiter, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const CODE_SERVER = "4.139.1";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "..", "..");
const out = join(root, "out", "workbench");

process.exit(main());

function main(): number {
  const pictures = process.argv.includes("--pictures");
  const filters = process.argv.slice(2).filter((argument) => argument !== "--pictures");
  const host = findHost();
  if ("missing" in host) {
    const required = process.env.HOPWRIGHT_REQUIRE_WORKBENCH === "1";
    console.log(
      required
        ? `workbench: 0 passed, 1 failed, 0 skipped (${host.missing})`
        : `workbench: not run: ${host.missing}`,
    );
    return required ? 1 : 0;
  }
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  const vsix = join(out, "hopwright.vsix");
  console.log("workbench: packaging the extension");
  const packaged = run("npm", ["run", "-s", "package", "--", "--out", vsix], "pipe");
  if (packaged.status !== 0) {
    console.log(`${packaged.stdout}${packaged.stderr}`);
    console.log("workbench: 0 passed, 1 failed, 0 skipped (the extension could not be packaged)");
    return 1;
  }
  console.log(`workbench: ${pictures ? "taking pictures" : "running"} in ${host.kind}`);
  const results = join(out, "results.json");
  const tests = run(
    process.execPath,
    [
      join(root, "node_modules", "vitest", "vitest.mjs"),
      "run",
      ...["--config", join(here, "vitest.config.ts")],
      ...["--reporter", "verbose", "--reporter", "json", "--outputFile.json", results],
      ...filters,
    ],
    "inherit",
    {
      HOPWRIGHT_WORKBENCH: JSON.stringify({ ...host, vsix, out, root }),
      HOPWRIGHT_PICTURES: pictures ? "1" : "",
    },
  );
  const counts = countsOf(results);
  // A run that broke before or after its tests must not look like a good one.
  if (tests.status !== 0 && counts.failed === 0) counts.failed = 1;
  console.log(`workbench: ${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped`);
  return counts.failed === 0 ? 0 : 1;
}

type Host = { kind: "browser"; server: string; chromium: string } | { kind: "desktop" } | { missing: string };

function findHost(): Host {
  if (process.env.HOPWRIGHT_WORKBENCH_HOST === "desktop") return { kind: "desktop" };
  const cache = process.env.HOPWRIGHT_CACHE ?? join(homedir(), ".cache", "hopwright");
  const server = join(
    cache,
    `workbench-${CODE_SERVER}`,
    "node_modules",
    "code-server",
    "out",
    "node",
    "entry.js",
  );
  const chromium = process.env.HOPWRIGHT_CHROMIUM ?? onPath("chromium");
  const missing = [existsSync(server) ? "" : `code-server ${CODE_SERVER}`, chromium ? "" : "chromium"].filter(
    Boolean,
  );
  if (missing.length > 0 || !chromium)
    return { missing: `no browser host (${missing.join(" and ")} not found)` };
  return { kind: "browser", server, chromium };
}

function onPath(name: string): string | undefined {
  return (process.env.PATH ?? "")
    .split(delimiter)
    .map((folder) => join(folder, name))
    .find((path) => {
      try {
        accessSync(path, constants.X_OK);
        return true;
      } catch {
        return false;
      }
    });
}

function run(command: string, args: string[], stdio: "inherit" | "pipe", env: NodeJS.ProcessEnv = {}) {
  return spawnSync(command, args, { cwd: root, stdio, encoding: "utf8", env: { ...process.env, ...env } });
}

function countsOf(results: string): { passed: number; failed: number; skipped: number } {
  if (!existsSync(results)) return { passed: 0, failed: 1, skipped: 0 };
  const { numPassedTests, numFailedTests, numPendingTests, numTodoTests } = JSON.parse(
    readFileSync(results, "utf8"),
  );
  return { passed: numPassedTests, failed: numFailedTests, skipped: numPendingTests + numTodoTests };
}
