/** Ten thousand parts: plans, parts lists, their page and all rules about them take time in proportion. */
import { expect, test } from "vitest";
import type { Design, Hop } from "../../shared/design/design.js";
import { partsOfNetwork, spareParts } from "../../shared/equipment/parts-list.js";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { portPlan } from "../../shared/equipment/wiring/port-plan.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { inverse } from "../../shared/geodesy/geodesic.js";
import { partsPage } from "../../shared/report/pages/parts-page.js";
import { EXAMPLE_ENTRIES } from "../../shared/rules/equipment/example-equipment.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { levelGround } from "../evaluate/builders.js";
import { designOf } from "./designs.js";

const HOP = exampleHop({
  hop: "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 4+0 xpic",
  keld: "antenna DISH60-18 at 40 m\n    coupler O18 direct\n    cable COAX\n    transmits high",
  tarn: "antenna DISH60-18 at 40 m\n    coupler O18 direct\n    cable COAX\n    transmits low",
}).replaceAll("KELD", "HUB");

/** A site with so many hops of four units each, and chassis for half of them: every fault told a thousand times. */
function hub(hops: number): { design: Design; results: Map<string, HopResult> } {
  const chassis = Array.from(
    { length: Math.ceil(hops / 3) },
    (_, i) => `chassis HEDGE as C${i} {\n  slot 3 HEATH\n  slot 15 MIST\n  card SQUALL 2\n  card FERN 9\n}`,
  );
  const one = designOf(`${EXAMPLE_ENTRIES.join("\n")}
cable COAX { kind coaxial; connector N }
site HUB {
  at 47.5 -30.5
  structure mast 60 m
  rack 1 U
  wind 25 m/s
  wind-limit 1 N
  plant 1 W
  accept rack-full because "halls are built"
  accept slot-wrong-kind because "cards of a trial"
  ${chassis.join("\n")}
}
${HOP}`);
  const [hop] = one.hops.values();
  const { distanceM } = inverse({ from: hop!.ends[0].site.position!, to: hop!.ends[1].site.position! });
  const result = evaluateHop(hop!, levelGround(distanceM));
  const all = Array.from({ length: hops }, (_, i): [string, Hop] => [`H${i}`, { ...hop!, name: `H${i}` }]);
  return {
    design: { ...one, hops: new Map(all) },
    results: new Map(all.map(([name]) => [name, result])),
  };
}

/** CPU time, so that other work on the machine does not count; the best of three, each on a design of its own. */
function measure(hops: number): { readonly ms: number; readonly findings: number } {
  const attempts = [1, 2, 3].map(() => {
    const { design, results } = hub(hops);
    const start = process.cpuUsage();
    const parts = partsOfNetwork(design);
    const spares = spareParts(parts, [{ kind: "unit", sharePercent: 5, least: 1 }]);
    const page = partsPage({ name: "parts", design, colophon: "" });
    const ports = [...sitePlans(design).values()].flatMap((plan) => portPlan(siteWiring(plan)));
    const findings = judgeNetwork(design, results, "2026-06-01").length;
    const { user, system } = process.cpuUsage(start);
    const units = parts.reduce((sum, { kind, quantity }) => sum + (kind === "unit" ? quantity : 0), 0);
    expect([units, spares.length, page.sections.length]).toEqual([8 * hops, 2, 3]);
    expect(ports.filter(({ part }) => part.kind === "unit").length).toBe(16 * hops);
    return { ms: (user + system) / 1000, findings };
  });
  return attempts.toSorted((a, b) => a.ms - b.ms)[0]!;
}

test("ten thousand units at one site take no more than in proportion", () => {
  measure(50);
  const small = measure(300);
  const large = measure(1200);
  expect(large.findings).toBeGreaterThan(1200);
  // Four times as much: twice the proportion is allowed for what a collector takes, a square would be sixteen.
  expect(large.ms / small.ms).toBeLessThan(8);
});
