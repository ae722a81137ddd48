/** `demands` as its user runs it: what the network is to carry, as text and JSON. */
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import { expect, test } from "vitest";
import schema from "../../server/cli/schema/demands.schema.json" with { type: "json" };
import { run, SAMPLES, scratch } from "./built.js";

const TODAY = ["--today", "2026-06-01"];

/** Eskerfold with its demands otherwise. */
function eskerfold(name: string, edit: (text: string) => string): string {
  const folder = scratch(name);
  cpSync(SAMPLES, folder, { recursive: true });
  const file = join(folder, "eskerfold/demands.hop");
  writeFileSync(file, edit(readFileSync(file, "utf8")));
  return join(folder, "eskerfold");
}

test("text tells demands with their routes, hops with their loads, failures with what they cost", () => {
  const { stdout, status } = run(["demands", "eskerfold", ...TODAY]);
  expect(status).toBe(0);
  expect(stdout).toMatch(/^Eskerfold: 7 demands, [\d.]+ Mbit\/s committed\n/);
  expect(stdout).toContain("ring GULLSCAR - RUDDOCK - SKELHAVEN\n");
  expect(stdout).toMatch(
    /\nCONTROL +RUDDOCK > LARKHOWE +4\.1 Mbit\/s +99\.9+\d* % of 99\.99 % met +[\d.]+ ms of 10 ms met\n/,
  );
  expect(stdout).toContain("\n    RUDDOCK > GULLSCAR > LARKHOWE (2 hops, ");
  expect(stdout).toContain("\n    clock: from LARKHOWE over 2 hops met\n");
  expect(stdout).toContain("\n    failures: lost without site GULLSCAR\n");
  expect(stdout).toMatch(
    /\nOSTREL-LARKHOWE +[\d.]+ Mbit\/s +\d+ % +[\d.]+ Mbit\/s +\d+ % +hop LARKHOWE-GULLSCAR +/,
  );
  expect(stdout).toMatch(/\nhop OSTREL-ANSELBAY +HARBOUR +–/);
  expect(stdout).toContain("section 2.3.7, from memory");
  expect(Math.max(...stdout.split("\n").map((line) => line.length))).toBeLessThanOrEqual(120);
});

test("JSON is as its schema says, and tells the same", () => {
  const { stdout } = run(["demands", "eskerfold", "--format", "json", ...TODAY]);
  const output = JSON.parse(stdout);
  const validate = new Ajv({ strict: false }).compile(schema);
  expect([validate(output), validate.errors]).toEqual([true, null]);
  const [design] = output.designs;
  expect(design.demands.map(({ name }: { name: string }) => name)).toContain("CONTROL");
  expect(design.rings).toHaveLength(2);
  const { route } = design.demands.find(({ name }: { name: string }) => name === "CONTROL");
  expect(route.sites).toEqual(["RUDDOCK", "GULLSCAR", "LARKHOWE"]);
});

test("one demand is told hop by hop; one that is not there is refused with what was meant", () => {
  const { stdout, status } = run(["demands", "eskerfold", "--demand", "CONTROL", ...TODAY]);
  expect(status).toBe(0);
  expect(stdout).toMatch(
    /^CONTROL \(Control of Ruddock works\): RUDDOCK > LARKHOWE, committed on its hops 4\.1 Mbit\/s\n/,
  );
  expect(stdout).toMatch(/\nGULLSCAR-RUDDOCK +4\.1 Mbit\/s +\S+ +\d+ Mbit\/s +[\d.]+ % +[\d.]+ %\n/);
  expect(stdout).toContain("\n    failures: lost without site GULLSCAR\n");
  expect(stdout).toContain("\nat its ends, lost without: site LARKHOWE and site RUDDOCK\n");
  const wrong = run(["demands", "eskerfold", "--demand", "CONTROLL", ...TODAY]);
  expect([wrong.status, wrong.stdout]).toEqual([2, ""]);
  expect(wrong.stderr).toBe("error: CONTROLL: there is no such demand; did you mean CONTROL?\n");
});

test("errors of demands make the status 1, other errors do not", () => {
  const { stdout, status } = run(["demands", "learning", ...TODAY]);
  expect(status).toBe(1);
  expect(stdout).toMatch(/\nerror\[demand-route\]: CLINIC has no route/);
  expect(stdout).toContain("\n    no route: no hops that stand lead from MAPLE to ALDER\n");
  const folder = scratch("others");
  cpSync(SAMPLES, folder, { recursive: true });
  const file = join(folder, "learning/demands.hop");
  writeFileSync(file, readFileSync(file, "utf8").replace(/demand CLINIC[\s\S]*$/, ""));
  expect(run(["check", join(folder, "learning"), ...TODAY]).status).toBe(1);
  expect(run(["demands", join(folder, "learning"), ...TODAY]).status).toBe(0);
});

test("a demand that overloads the way round is told at the hop and at the failure", () => {
  const design = eskerfold("over", (text) => text.replace("committed 2 Mbit/s", "committed 150 Mbit/s"));
  const { stdout } = run(["demands", design, ...TODAY]);
  expect(stdout).toMatch(/\nOSTREL-LARKHOWE .* 1\d\d % +hop LARKHOWE-GULLSCAR overloaded/);
  expect(stdout).toMatch(/\nhop LARKHOWE-GULLSCAR .*OSTREL-LARKHOWE/);
  expect(stdout).toMatch(/\nwarning\[failure-overloads\]: /);
});

test("a design without demands says how one is stated", () => {
  const design = eskerfold("none", () => "");
  const { stdout, status } = run(["demands", design, ...TODAY]);
  expect(status).toBe(0);
  expect(stdout).toMatch(/^Eskerfold: no demand is stated; /);
});
