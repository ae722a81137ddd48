/** The port plan on a site's page: each joint from both of its ends, labels by the rule, what is earthed where. */
import { expect, test } from "vitest";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import type { Table } from "../../shared/report/document/document.js";
import { portPlanSections } from "../../shared/report/pages/port-plan.js";
import { CASES, textOf } from "../equipment/arrangement-cases.js";
import { designOf } from "../equipment/designs.js";

const sections = (text: string) => {
  const design = designOf(text);
  const plan = sitePlans(design).get("KELD")!;
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
