// What `npm run demo` shows: the findings of both samples, and a report to open. Needs the built command line.
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const hopwright = join(root, "dist/hopwright.cjs");

function run(...args) {
  console.log(`\n$ hopwright ${args.join(" ")}`);
  const { status } = spawnSync(process.execPath, [hopwright, ...args], { cwd: root, stdio: "inherit" });
  // 1 means findings: the learning sample has some on purpose.
  if (status !== 0 && status !== 1) process.exit(status ?? 2);
}

run("check", "samples/eskerfold", "--severity", "error");
run("check", "samples/learning", "--severity", "error");
run("report", "samples/eskerfold", "--out", "out/report");

console.log(`
The ring of Eskerfold is in order; the learning sample has two hops that fail on purpose.
Open the report:  ${join(root, "out/report/index.html")}
Read the design:  ${join(root, "samples/learning/hops.hop")}
`);
