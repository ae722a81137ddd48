// What `npm test` runs after the build: every suite, then one account of all of them. A suite whose host
// is not on the machine counts as not run and is named; nothing is passed over in silence.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";

const root = join(import.meta.dirname, "..");
const out = join(root, "out");
mkdirSync(out, { recursive: true });

const total = { passed: 0, failed: 0, skipped: 0 };
const notRun = [];

runVitest();
runWorkbench();

for (const line of notRun) console.log(`not run: ${line}`);
console.log(`${total.passed} passed, ${total.failed} failed, ${total.skipped} skipped`);
process.exitCode = total.failed > 0 ? 1 : 0;

function runVitest() {
  const report = join(out, "vitest.json");
  rmSync(report, { force: true });
  const vitest = join(root, "node_modules/vitest/vitest.mjs");
  const { status } = spawnSync(process.execPath, [vitest, "run", "--reporter=dot", "--reporter=json", `--outputFile.json=${report}`], {
    cwd: root,
    stdio: "inherit",
  });
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
  const broken = result.testResults.filter((file) => file.status === "failed" && file.assertionResults.length === 0).length;
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

function runWorkbench() {
  const suite = join(root, "tests/workbench/run.mjs");
  const report = join(out, "workbench.json");
  rmSync(report, { force: true });
  const { status } = spawnSync(process.execPath, [suite, "--report", report], { cwd: root, stdio: "inherit" });
  if (!existsSync(report)) {
    total.failed++;
    console.log(`the workbench suite did not report (exit status ${status})`);
    return;
  }
  const result = JSON.parse(readFileSync(report, "utf8"));
  total.passed += result.passed ?? 0;
  total.failed += result.failed ?? 0;
  if (result.notRun) {
    total.skipped += 1;
    notRun.push(`workbench suite: ${result.notRun}`);
    if (process.env.HOPWRIGHT_REQUIRE_WORKBENCH === "1") total.failed++;
  }
  if (status !== 0 && !result.failed && !result.notRun) total.failed++;
}
