// What `npm test` runs after the build: every suite, then one account of all of them. A suite whose host
// is not on the machine counts as not run and is named; nothing is passed over in silence.
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";

const root = join(import.meta.dirname, "..");
const out = join(root, "out");
mkdirSync(out, { recursive: true });

const total = { passed: 0, failed: 0, skipped: 0 };
const notRun = [];

runVitest();
await runWorkbench();

for (const line of notRun) console.log(`not run: ${line}`);
console.log(`${total.passed} passed, ${total.failed} failed, ${total.skipped} skipped`);
process.exitCode = total.failed > 0 ? 1 : 0;

function runVitest() {
  const report = join(out, "vitest.json");
  rmSync(report, { force: true });
  const vitest = join(root, "node_modules/vitest/vitest.mjs");
  const { status } = spawnSync(
    process.execPath,
    [vitest, "run", "--reporter=dot", "--reporter=json", `--outputFile.json=${report}`],
    {
      cwd: root,
      stdio: "inherit",
    },
  );
  if (!existsSync(report)) {
    total.failed++;
    console.log("the unit suites did not report");
    return;
  }
  const result = JSON.parse(readFileSync(report, "utf8"));
  total.passed += result.numPassedTests;
  total.failed += result.numFailedTests;
  total.skipped += result.numPendingTests + result.numTodoTests;
  // A file that fails to load fails no test of its own.
  const broken = result.testResults.filter(
    (file) => file.status === "failed" && file.assertionResults.length === 0,
  ).length;
  total.failed += broken;
  if (status !== 0 && total.failed === 0) total.failed++;
  const skipped = new Map();
  for (const file of result.testResults) {
    for (const test of file.assertionResults) {
      if (test.status === "passed" || test.status === "failed") continue;
      const suite = test.ancestorTitles[0] ?? test.title;
      skipped.set(suite, (skipped.get(suite) ?? 0) + 1);
    }
  }
  for (const [suite, count] of skipped) notRun.push(`${suite} (${count} tests)`);
}

/** The workbench runner ends with a line for programs: its counts, or why it could not run. */
async function runWorkbench() {
  const { status, lastLine } = await stream(process.execPath, [join(root, "tests/workbench/run.ts")]);
  const reason = /^workbench: not run: (.*)$/.exec(lastLine)?.[1];
  if (reason !== undefined && status === 0) {
    total.skipped++;
    notRun.push(`workbench suite: ${reason}`);
    return;
  }
  const counts = /^workbench: (\d+) passed, (\d+) failed, (\d+) skipped/.exec(lastLine)?.slice(1).map(Number);
  if (!counts) {
    total.failed++;
    console.log(`the workbench suite did not report (exit status ${status})`);
    return;
  }
  total.passed += counts[0];
  total.failed += counts[1];
  total.skipped += counts[2];
  if (counts[2] > 0) notRun.push(`${counts[2]} tests of the workbench suite`);
  if (status !== 0 && counts[1] === 0) total.failed++;
}

/** Runs a program, shows what it prints as it comes, and keeps the last line. */
function stream(command, args) {
  return new Promise((resolve) => {
    const child = spawn(command, args, { cwd: root, stdio: ["ignore", "pipe", "inherit"] });
    let tail = "";
    child.stdout.on("data", (data) => {
      process.stdout.write(data);
      tail = (tail + data).slice(-4000);
    });
    child.on("close", (status) => resolve({ status, lastLine: tail.trimEnd().split("\n").at(-1) ?? "" }));
  });
}
