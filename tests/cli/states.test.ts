/** One repository with today's and next year's network: each day that changes something is judged, and told with its time. */
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { run, SAMPLES, scratch } from "./built.js";

const MINUTES = 5 * 60_000;
const TODAY = ["--today", "2026-06-01"];
let at: string;
let folder: string;

beforeAll(() => {
  at = scratch("states");
  cpSync(SAMPLES, at, { recursive: true });
  folder = join(at, "learning");
  const file = join(folder, "hops.hop");
  // The second hop's ridge is cleared when a higher antenna replaces the one that hangs; the third goes in autumn.
  const text = readFileSync(file, "utf8")
    .replace(
      "    antenna DISH60-18 at 15 m\n",
      "    antenna DISH60-18 at 15 m state removed 2027-03-01\n    antenna DISH60-18 at 39 m state planned 2027-03-01\n",
    )
    .replace('hop BIRCH-ROWAN "Too long for its antennas" {', "hop BIRCH-ROWAN {\n  state removed 2026-10-01")
    .replace('hop ALDER-BIRCH "A hop in order" {', "hop ALDER-BIRCH {\n  state planned");
  writeFileSync(file, text);
});

const lines = (...options: string[]) =>
  run(["check", folder, "--format", "lines", ...TODAY, ...options])
    .stdout.split("\n")
    .filter((line) => / (error|warning) /.test(line));
type Timed = { rule: string; hop: string; from?: string; until?: string };
const judged = (...options: string[]) =>
  JSON.parse(run(["check", folder, "--format", "json", ...TODAY, ...options]).stdout);
const ofRule = (rule: string, ...options: string[]) =>
  lines(...options).filter((line) => line.includes(` ${rule}: `));

test("what holds for a time is told once, with its time", { timeout: MINUTES }, () => {
  expect(ofRule("clearance")).toEqual([expect.stringMatching(/ALDER-HAZEL: .*\(until 2027-03-01\)$/)]);
  expect(ofRule("availability")).toEqual([expect.stringMatching(/BIRCH-ROWAN: .*\(until 2026-10-01\)$/)]);
  const { findings, hops, shows } = judged().designs[0];
  expect(shows).toBe("when all that is planned stands");
  const times = findings.flatMap(({ rule, from, until }: Timed) =>
    rule === "clearance" || rule === "availability" ? [[rule, from, until]] : [],
  );
  expect(times).toEqual([
    ["clearance", undefined, "2027-03-01"],
    ["availability", undefined, "2026-10-01"],
    ["clearance", undefined, undefined],
  ]);
  expect(hops.map(({ hop, until }: Timed) => [hop, until])).toEqual([
    ["ALDER-BIRCH", undefined],
    ["ALDER-HAZEL", undefined],
    ["BIRCH-ROWAN", "2026-10-01"],
    ["MAPLE-WILLOW", undefined],
  ]);
});

test("one day alone, and what is built alone", { timeout: MINUTES }, () => {
  expect(ofRule("clearance", "--on", "2027-02-28")).toHaveLength(1);
  expect(ofRule("clearance", "--on", "2027-03-01")).toEqual([]);
  expect(ofRule("availability", "--on", "2026-09-30")).toHaveLength(1);
  expect(ofRule("availability", "--on", "2026-10-01")).toEqual([]);
  expect(ofRule("clearance", "--state", "built")).toEqual([expect.not.stringContaining("until")]);
  const hops = (...options: string[]) =>
    JSON.parse(run(["check", folder, "--format", "json", ...TODAY, ...options]).stdout).counts.hops as number;
  // Planned without a date, ALDER-BIRCH stands at the end only.
  expect([hops(), hops("--on", "2026-07-01"), hops("--on", "2027-07-01"), hops("--state", "built")]).toEqual([
    4, 3, 2, 3,
  ]);
});

test("what is planned alone names hops of which something is planned", { timeout: MINUTES }, () => {
  expect(lines("--state", "planned").every((line) => line.includes("ALDER-"))).toBe(true);
  expect(lines().some((line) => !line.includes("ALDER-"))).toBe(true);
});

test("a day that is none, and two ways to say which, are refused", () => {
  for (const day of ["2027-02-30", "27-03-01", "tomorrow", ""])
    expect(run(["check", folder, "--on", day])).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("a day is written"),
    });
  expect(run(["check", folder, "--on", "2027-01-01", "--state", "all"])).toMatchObject({
    status: 2,
    stderr: expect.stringContaining("name one of them"),
  });
});

test("a hop is explained as it stands last, and on a day on which it does not it says so", {
  timeout: MINUTES,
}, () => {
  expect(run(["explain", "--hop", "BIRCH-ROWAN", folder, ...TODAY]).status).toBe(0);
  expect(run(["explain", "--hop", "BIRCH-ROWAN", folder, "--on", "2026-10-01", ...TODAY]).stderr).toContain(
    "does not stand on 2026-10-01",
  );
  expect(run(["explain", "--hop", "BIRCH-ROWAN", folder, "--today", "2026-11-01"]).stderr).toContain(
    "gone by today",
  );
  const figures = (...on: string[]) =>
    run(["explain", "--hop", "ALDER-HAZEL", folder, ...on, ...TODAY]).stdout;
  expect(figures()).not.toBe(figures("--on", "2027-02-28"));
});

test("the report orders what is planned beyond what is built, and shows the state", {
  timeout: MINUTES,
}, () => {
  const out = join(at, "out");
  run(["report", folder, "--out", out, "--only", "markdown", ...TODAY]);
  const parts = readFileSync(join(out, "parts.md"), "utf8");
  const section = parts.slice(parts.indexOf("## To order"), parts.indexOf("## The whole network"));
  expect(section).toContain("| order | 2 | antenna DISH60-15 | ALDER +1, BIRCH +1 |");
  // The same antenna at another height is moved, not bought.
  expect(section).not.toContain("DISH60-18");
  expect(section).toMatch(/\| return \| 2 \| antenna DISH30-23 \|/);
  const overview = readFileSync(join(out, "index.md"), "utf8");
  expect(overview).toContain("| planned |");
  expect(overview).toContain("Figures are those when all that is planned stands");
  expect(overview).toContain("| [BIRCH-ROWAN](hops/BIRCH-ROWAN.md) | removed 2026-10-01 |");
  // What goes has its page, as it stood last, with what was found of it.
  const page = readFileSync(join(out, "hops", "BIRCH-ROWAN.md"), "utf8");
  expect(page).toContain("This page shows the hop until it is taken down on 2026-10-01.");
  expect(page).toMatch(/\*\*error\*\* `availability` .*\(until 2026-10-01\)/);
  const swapped = readFileSync(join(out, "hops", "ALDER-HAZEL.md"), "utf8");
  expect(swapped).toContain("- ALDER: `antenna DISH60-18 at 15 m state removed 2027-03-01`");
});

test("an acceptance that one time needs is neither called unused nor taken away", {
  timeout: MINUTES,
}, () => {
  const own = join(at, "accepting");
  cpSync(folder, own, { recursive: true });
  const file = join(own, "hops.hop");
  const text = readFileSync(file, "utf8").replace(
    'hop ALDER-HAZEL "Blocked by a ridge" {',
    'hop ALDER-HAZEL {\n  accept clearance because "until the higher antenna hangs"',
  );
  writeFileSync(file, text);
  const run1 = run(["check", own, "--fix", "--format", "lines", ...TODAY]);
  expect(run1.stdout).not.toContain("acceptance-unused");
  expect(run1.stdout).toMatch(/accepted clearance: .*\(until 2027-03-01\)/);
  expect(readFileSync(file, "utf8")).toBe(text);
});

test("an acceptance is held against the day of each stage, not against today", { timeout: MINUTES }, () => {
  const own = join(at, "ending");
  cpSync(folder, own, { recursive: true });
  const file = join(own, "hops.hop");
  const text = readFileSync(file, "utf8");
  const accept = (until: string) =>
    writeFileSync(
      file,
      text
        .replace(
          'hop ALDER-HAZEL "Blocked by a ridge" {',
          `hop ALDER-HAZEL {\n  accept clearance until ${until} because "tried out"`,
        )
        .replaceAll("antenna DISH60-18 at 39 m state", "antenna DISH60-18 at 16 m state"),
    );
  const told = (...options: string[]) =>
    run(["check", own, "--format", "lines", ...TODAY, ...options])
      .stdout.split("\n")
      .filter((line) => line.includes("acceptance-expired"));
  accept("2027-12-31");
  expect(told()).toEqual([]);
  accept("2027-01-31");
  expect(told()).toEqual([expect.stringMatching(/ended on 2027-01-31 \(from 2027-02-01 on\)$/)]);
  expect(told("--on", "2027-01-31")).toEqual([]);
  expect(told("--on", "2027-02-01")).toHaveLength(1);
});

test("lists tell the time of what is found, and the last figures of what goes", { timeout: MINUTES }, () => {
  const listed = (what: string) =>
    JSON.parse(run(["list", what, folder, "--format", "json", ...TODAY]).stdout);
  const { shows, lists } = listed("hops,findings");
  expect(shows).toBe("when all that is planned stands");
  const [hops, findings] = lists;
  const gone = hops.rows.find(({ hop }: { hop: string }) => hop === "BIRCH-ROWAN");
  expect(gone).toMatchObject({
    figures_until: "2026-10-01",
    verdict: "error",
    errors: 1,
    judged_mode: "16QAM",
  });
  expect(findings.rows.find(({ rule }: { rule: string }) => rule === "clearance").holds_until).toBe(
    "2027-03-01",
  );
});

test("only so many days are judged, the last among them, and what is left out is told", {
  timeout: MINUTES,
}, () => {
  const own = join(at, "many");
  cpSync(folder, own, { recursive: true });
  const dates = Array.from({ length: 300 }, (_, i) => new Date(Date.UTC(2028, 0, 1 + i)).toISOString());
  writeFileSync(
    join(own, "many.hop"),
    dates
      .map((date, i) => `site M${i} {\n  at 47.5 -30.5\n  state built ${date.slice(0, 10)}\n}\n`)
      .join("\n"),
  );
  const { stdout, status } = run(["check", own, "--format", "lines", ...TODAY]);
  expect(status).toBe(1);
  expect(stdout).toMatch(
    /network\.hop:\d+:1: warning days-not-judged: something changes on 304 days; the first 99 and the last are judged/,
  );
  expect(stdout).toContain("BIRCH-ROWAN: available");
});

test("a baseline knows what ends sooner, and not what lasts longer", { timeout: MINUTES }, () => {
  const own = join(at, "baseline");
  cpSync(folder, own, { recursive: true });
  const file = join(own, "hops.hop");
  const text = readFileSync(file, "utf8");
  const swapOn = (day: string) => writeFileSync(file, text.replaceAll("2027-03-01", day));
  const baseline = join(own, "b.json");
  swapOn("2027-03-01");
  writeFileSync(baseline, run(["check", own, "--format", "json", ...TODAY]).stdout);
  const status = () => run(["check", own, "--baseline", baseline, ...TODAY]).status;
  expect(status()).toBe(0);
  swapOn("2027-02-01");
  expect(status()).toBe(0);
  swapOn("2027-04-01");
  expect(status()).toBe(1);
});

test("a plan that has passed is told once a thing, and a day of today that is none is refused", {
  timeout: MINUTES,
}, () => {
  const { stdout } = run(["check", folder, "--format", "lines", "--today", "2027-03-02"]);
  expect(stdout.split("\n").filter((line) => line.includes("state-overdue"))).toEqual([
    expect.stringContaining("antenna of ALDER-HAZEL at ALDER was planned for 2027-03-01"),
  ]);
  expect(run(["check", folder, "--today", "2027-02-30"])).toMatchObject({ status: 2 });
});
