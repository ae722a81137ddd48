/** What remains when a hop, a site or a card is gone: `check --without`, as shipped, on a copy of the samples. */
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { run, SAMPLES, scratch } from "./built.js";

const MINUTES = 5 * 60_000;
let folder: string;

beforeAll(() => {
  const at = scratch("without");
  cpSync(SAMPLES, at, { recursive: true });
  folder = join(at, "eskerfold");
});

const check = (...options: string[]) => run(["check", folder, "--today", "2026-11-29", ...options]);
const taken = (name: string) => JSON.parse(check("--without", name, "--format", "json").stdout).designs[0];

test("a hop of the ring: what moves, over what, before the findings of what remains", {
  timeout: MINUTES,
}, () => {
  const { stdout, status } = check("--without", "LARKHOWE-GULLSCAR", "--show", "error");
  expect(status).toBe(1);
  const [head, ...rest] = stdout.split("\n\n")[0]!.split("\n");
  expect(head).toBe("Without hop LARKHOWE-GULLSCAR");
  expect(rest.filter((line) => line.startsWith("  moved: "))).toHaveLength(5);
  expect(stdout).toContain(
    "moved: SCHOOL, now over CRAWFELL-WICKSAND, CRAWFELL-SIFTLAW, SIFTLAW-HIGHFOLD, HIGHFOLD-OSTREL, OSTREL-LARKHOWE and LARKHOWE-MERROW (6 hops, before 4)",
  );
  expect(rest.at(-1)).toBe("  as before: 2 demands");
  expect(stdout).toContain("error[demand-second-route]: CONTROL");
});

test("a site takes its hops and the demands that come from there; licences of its hops are no fault", {
  timeout: MINUTES,
}, () => {
  const { without, findings, hops } = taken("site GULLSCAR");
  expect(without).toMatchObject({
    kind: "site",
    name: "GULLSCAR",
    lost: ["CONTROL", "SKELHAVEN-VILLAGE", "WORKS"],
  });
  expect(without.hops).toHaveLength(4);
  expect(hops.map(({ hop }: { hop: string }) => hop)).not.toContain("LARKHOWE-GULLSCAR");
  const routes = findings.filter(({ rule }: { rule: string }) => rule === "demand-route");
  expect(routes).toHaveLength(3);
  expect(JSON.stringify(findings)).not.toContain("licence");
});

test("a card takes the hops that have no unit elsewhere", { timeout: MINUTES }, () => {
  const { without } = taken("LARKHOWE/3");
  expect(without).toMatchObject({
    kind: "card",
    name: "LARKHOWE/1/3",
    hops: ["LARKHOWE-GULLSCAR"],
    partly: ["OSTREL-LARKHOWE"],
  });
  // The hop alone does the same.
  const alone = taken("LARKHOWE-GULLSCAR").without;
  expect([without.lost, without.moved]).toEqual([alone.lost, alone.moved]);
});

test("hops overloaded then are told, and where nothing reroutes what moves is lost", {
  timeout: MINUTES,
}, () => {
  const demands = join(folder, "demands.hop");
  const before = readFileSync(demands, "utf8");
  try {
    writeFileSync(
      demands,
      before.replace("committed 20 Mbit/s\n  peak 60", "committed 320 Mbit/s\n  peak 360"),
    );
    const { overloaded } = taken("LARKHOWE-GULLSCAR").without;
    expect(overloaded.length).toBeGreaterThan(0);
    for (const { committedBps, carriedBps } of overloaded) expect(committedBps).toBeGreaterThan(carriedBps);
    writeFileSync(demands, `${before}\ntraffic {\n  rerouting none\n}\n`);
    const { without, findings } = taken("LARKHOWE-GULLSCAR");
    const { lost, moved } = without;
    expect(moved.map(({ demand }: { demand: string }) => demand)).toEqual(["CONTROL"]);
    expect(lost).toContain("SCHOOL");
    // Nothing is judged of what is lost, as if something had rerouted it.
    const told = findings.filter(({ rule }: { rule: string }) => rule.startsWith("demand-"));
    for (const { message } of told) for (const name of lost) expect(message).not.toContain(name);
  } finally {
    writeFileSync(demands, before);
  }
});

test("a name that is nowhere, and what would go unseen, are refused", { timeout: MINUTES }, () => {
  const told = (...options: string[]) => check(...options).stderr;
  expect(told("--without", "GULSCAR")).toContain("did you mean GULLSCAR?");
  expect(told("--without", "LARKHOWE/1/33")).toContain("did you mean LARKHOWE/1/3");
  expect(told("--without", "GULLSCAR", "--format", "sarif")).toContain("prints text and JSON");
  expect(told("--without", "GULLSCAR", "--fix")).toContain("leave --fix out");
  expect(check("--without", "GULSCAR").status).toBe(2);
});
