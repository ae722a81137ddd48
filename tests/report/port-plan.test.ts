/** The port plan on a site's page: each joint from both of its ends, labels by the rule, what is earthed where. */
import { expect, test } from "vitest";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { portPlan } from "../../shared/equipment/wiring/port-plan.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import type { Table } from "../../shared/report/document/document.js";
import { facesOf, runsOf } from "../../shared/report/draw/system/site/face.js";
import { runWords } from "../../shared/report/draw/system/site/face-words.js";
import { portPlanSections } from "../../shared/report/pages/port-plan.js";
import { equipped } from "../../shared/rules/equipment/example-equipment.js";
import { CASES, textOf } from "../equipment/arrangement-cases.js";
import { designOf } from "../equipment/designs.js";

const sections = (text: string, site = "KELD") => {
  const design = designOf(text);
  const plan = sitePlans(design).get(site)!;
  return { plan, design, sections: portPlanSections(plan, design) };
};
const tables = (found: ReturnType<typeof sections>) =>
  found.sections.flatMap(({ blocks }) => blocks.filter((block): block is Table => block.type === "table"));

test.each(CASES.map((one, index) => [`${one.arrangement} (${index})`, one] as const))(
  "%s: every joint but those in a chassis is told at both ends",
  (_name, one) => {
    const found = sections(textOf(one));
    const { joints, loose } = siteWiring(found.plan);
    const told = joints.filter(({ by }) => by.kind !== "backplane");
    const [used] = tables(found);
    expect(used!.rows).toHaveLength(2 * told.length + loose.length);
  },
);

test("labels follow the network's rule, and the page says which", () => {
  const text = textOf(CASES[0]!);
  const own = sections(text).design;
  const design = { ...own, labels: "{site}/{cable}" };
  const [ports] = portPlanSections(sitePlans(design).get("KELD")!, design);
  const said = JSON.stringify(ports!.blocks);
  expect(said).toContain("KELD/KELD-TARN-W1");
  expect(said).toContain("the rule that the network states, {site}/{cable}");
});

const SEVERAL_KINDS = equipped(
  ["chassis BOX as A {", "slot 1 MIXED", "}", 'alarm 1 "mains"', 'service "mill" 1 GE', "feed A fuse 3"].join(
    "\n",
  ),
  {},
  [
    "chassis BOX {",
    "slot 1 to 2 traffic",
    "}",
    "card MIXED {",
    "kind auxiliary",
    "ports 1 sync",
    "ports 2 alarm-in",
    "ports 1 GE",
    "}",
  ].join("\n"),
);

test("a port of a card with several kinds says which it is of its kind, and the page how ports are counted", () => {
  const said = JSON.stringify(sections(SEVERAL_KINDS, "MOSS").sections);
  expect(said).toContain("2 (alarm-in 1)");
  expect(said).toContain("3 (alarm-in 2)");
  expect(said).toContain("1 (sync)");
  expect(said).toContain("in the order of its entry");
  const face = facesOf(
    sitePlans(designOf(SEVERAL_KINDS)).get("MOSS")!,
    siteWiring(sitePlans(designOf(SEVERAL_KINDS)).get("MOSS")!),
  )[0]!;
  const words = runsOf(face.slots[0]!.ports).map((run) => runWords(run).text);
  expect(words).toContain("2 alarm-in 1: alarm 1");
  expect(words).toContain("1 sync: free");
});

test("a rule with {hop} leaves no gap where a cable is of no hop, and long labels are counted", () => {
  const design = { ...designOf(SEVERAL_KINDS), labels: "{site}/{hop}/{here}" };
  const plan = sitePlans(design).get("MOSS")!;
  const labels = portPlan(siteWiring(plan), design.labels).flatMap(({ joined }) => joined?.label ?? []);
  expect(labels).toEqual(expect.arrayContaining(["MOSS/alarm/A/1:2", "MOSS/mill/A/1:4", "MOSS/power/A 3"]));
  for (const label of labels) expect(label).not.toContain("//");
  const said = (rule: string) => JSON.stringify(portPlanSections(plan, { ...design, labels: rule }));
  expect(said("{here}")).not.toContain("usual flag");
  expect(said(`{here} ${"x".repeat(40)}`)).toMatch(/labels have more than 40 signs, the longest \d+:/);
});

test("units and their cables are earthed; local codes come first", () => {
  const found = sections(textOf(CASES[0]!));
  const earth = found.sections.find(({ id }) => id === "earth")!;
  const [table] = earth.blocks as [Table];
  // 40 m of cable: three kits at its ends and bends, one for the 30 m.
  expect(table.rows.map(({ cells }) => cells)).toEqual([
    ["unit R18, KELD-TARN", "stud of the unit", "1"],
    ["unit R18, KELD-TARN", "kits along the cable", "4"],
  ]);
  expect(JSON.stringify(earth)).toContain("Local codes");
});
