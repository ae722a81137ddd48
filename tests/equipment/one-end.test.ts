/** Hops whose ends are built differently, as written: ports, joints, parts and what the pages say, end by end. */
import { describe, expect, test } from "vitest";
import { partsOfEnd } from "../../shared/equipment/parts-list.js";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { endsDiffer, partnersOf } from "../../shared/radio/arrangement-pairs.js";
import { ARRANGEMENTS, arrangementByName } from "../../shared/radio/arrangements.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { arrangementExample, TEACHING_STOCK } from "../../shared/report/teach/arrangement-example.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { exampleGround, TODAY } from "../rules/example-design.js";
import { designOf } from "./designs.js";
import { wiringFaults } from "./wiring-faults.js";

const PAIRS = ARRANGEMENTS.flatMap((one) => partnersOf(one).map((other) => [one.name, other.name] as const));
const written = (one: string, other: string) =>
  designOf(arrangementExample(arrangementByName(one)!, arrangementByName(other)!), TEACHING_STOCK);

/** Pieces of each kind that the hop has at a site. */
function partsAt(design: ReturnType<typeof designOf>, site: string): Record<string, number> {
  const plan = sitePlans(design).get(site)!;
  const counted: Record<string, number> = {};
  for (const { kind, quantity } of partsOfEnd(plan.ends[0]!, plan, design))
    counted[kind] = (counted[kind] ?? 0) + quantity;
  return counted;
}

const joinsAt = (design: ReturnType<typeof designOf>, site: string) =>
  siteWiring(sitePlans(design).get(site)!)
    .joints.map(({ ends }) => ends.map(({ part, port }) => `${part}:${port}`).join(" - "))
    .filter((joint) => joint.includes("DELL-FELL"));

describe("hot standby at DELL, one unit at FELL", () => {
  const design = written("1+1 hot-standby", "1+0");

  test("DELL orders two units, a coupler and two cables, FELL one unit and one cable", () => {
    expect(partsAt(design, "DELL")).toMatchObject({ unit: 2, antenna: 1, coupler: 1, cable: 2 });
    const tail = partsAt(design, "FELL");
    expect(tail).toMatchObject({ unit: 1, antenna: 1, cable: 1 });
    expect(tail.coupler).toBeUndefined();
  });

  test("DELL takes two IF ports on two cards, FELL one", () => {
    const uses = (site: string) => sitePlans(design).get(site)!.ifPorts.uses;
    expect(
      uses("DELL")
        .map(({ branch }) => branch)
        .sort(),
    ).toEqual(["main", "standby"]);
    expect(new Set(uses("DELL").map(({ card }) => card)).size).toBe(2);
    expect(uses("FELL").map(({ branch }) => branch)).toEqual(["only"]);
  });

  test("joints: two units over the coupler at DELL, one bolted to its antenna at FELL", () => {
    const at = joinsAt(design, "DELL");
    // Two cables, two arms, and the coupler's antenna port.
    expect(at).toHaveLength(5);
    expect(at.filter((joint) => joint.includes("coupler"))).toHaveLength(3);
    const far = joinsAt(design, "FELL");
    expect(far).toHaveLength(2);
    expect(far.filter((joint) => joint.includes("coupler"))).toEqual([]);
  });

  test("the page tells both ends, and what either protects", () => {
    const hop = design.hops.get("DELL-FELL")!;
    const result = evaluateHop(hop, exampleGround(hop));
    const text = printMarkdown(
      hopPage({ hop, result, around: design, findings: [], name: "hops/A", colophon: "" }),
    )[0]!.text;
    expect(text).toContain("1+1 hot-standby at DELL, 1+0 at FELL");
    expect(text).toContain("**1+1 hot-standby at DELL**: Hot standby on one antenna.");
    expect(text).toContain("**1+0 at FELL**: One carrier, unprotected.");
    expect(text).toMatch(/Paths from FELL to DELL[\s\S]*receiver on standby \| unit \| standby/);
  });
});

test("a second receiving antenna at FELL only is ordered and hung there only", () => {
  const design = written("1+0", "1+1 space-diversity");
  expect(partsAt(design, "DELL")).toMatchObject({ unit: 1, antenna: 1 });
  expect(partsAt(design, "FELL")).toMatchObject({ unit: 2, antenna: 2 });
});

test("units of XPIC with standby at one end stand in the table of units beside those of the other", () => {
  const design = written("1+1 xpic four-units", "2+0 xpic");
  const hop = design.hops.get("DELL-FELL")!;
  const result = evaluateHop(hop, exampleGround(hop));
  const text = printMarkdown(
    hopPage({ hop, result, around: design, findings: [], name: "hops/A", colophon: "" }),
  )[0]!.text;
  const table = text.slice(text.indexOf("Units and their channels"));
  const rows = table
    .split("\n")
    .filter((line) => /^\| (first|second) polarization/.test(line))
    .map((line) => line.split(" | ")[0]!.replace("| ", ""));
  expect(rows.slice(0, 4)).toEqual([
    "first polarization, main / carrier 1",
    "first polarization, standby",
    "second polarization, main / carrier 2",
    "second polarization, standby",
  ]);
});

describe("each two that go together, as written", () => {
  test.each(PAIRS)("%s at DELL, %s at FELL", (one, other) => {
    const design = written(one, other);
    const hop = design.hops.get("DELL-FELL")!;
    expect(endsDiffer(hop)).toBe(true);
    for (const [site, name] of [
      ["DELL", one],
      ["FELL", other],
    ] as const) {
      const plan = sitePlans(design).get(site)!;
      expect(plan.ends[0]!.facts!.name).toBe(name);
      expect(wiringFaults(siteWiring(plan))).toEqual([]);
      // As at the same end of a hop that is built so at both.
      const alike = written(name, name);
      expect(joinsAt(design, site)).toEqual(joinsAt(alike, site));
      expect(partsAt(design, site)).toEqual(partsAt(alike, site));
    }
    const results = new Map([[hop.name, evaluateHop(hop, exampleGround(hop))]]);
    const findings = [
      ...judgeHop(hop, results.get(hop.name)!, TODAY),
      ...judgeNetwork(design, results, TODAY, { heights: new Map() }),
    ];
    expect(findings.filter(({ severity }) => severity !== "info")).toEqual([]);
  });
});
