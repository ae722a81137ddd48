/** What is proposed, written down by the fix: the same joints as before, and each of them stated. */
import { describe, expect, test } from "vitest";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import { EXAMPLE_ENTRIES } from "../../shared/rules/equipment/example-equipment.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { designOf } from "../equipment/designs.js";
import { fixesOfRule } from "./applied.js";

const text = (cards: string, services: string) => `${EXAMPLE_ENTRIES.join("\n")}
${EXAMPLE_PREAMBLE}
site MOSS {
  at 47.48 -30.48
  structure mast 60 m
  ground 200 m
  chassis HEDGE as A {
    slot 1 HEATH
    ${cards}
  }
  ${services}
}
hop MOSS-TARN {
  channel P18 / 55 MHz / 4
  polarization vertical
  arrangement 1+1 hot-standby
  radio R18
  mode 55 MHz 128QAM
  MOSS {
    antenna DISH60-18 at 40 m
    coupler H18-U direct
    transmits high
  }
  TARN {
    antenna DISH60-18 at 40 m
    coupler H18-U direct
    transmits low
  }
}
`;

const joints = (design: string, proposed: boolean) =>
  siteWiring(sitePlans(designOf(design, "")).get("MOSS")!)
    .joints.filter((one) => !proposed || one.proposed)
    .map(({ ends: [from, to] }) => `${from.part}: ${from.port} - ${to.part}: ${to.port}`)
    .sort();

describe("written down, everything stays where it was proposed", () => {
  test.each([
    ["loose cards", "card SQUALL 2\n    card EMBER 2\n    card FERN", 'service "mill" 2 GE'],
    ["a port that is stated", "slot 8 SQUALL\n    slot 9 FERN", 'service "mill" 2 GE {\n    port 9 / 5\n  }'],
    ["a fuse that is stated", "slot 6 EMBER\n    slot 7 EMBER\n    card SQUALL", "feed B fuse 4 slot 6"],
  ])("%s", async (_, cards, services) => {
    const before = text(cards, services);
    const applied = await fixesOfRule(before, "ports-proposed");
    const [first] = applied;
    expect(joints(before, true).length).toBeGreaterThan(0);
    expect(first!.fix.title).toMatch(/^Write (slots, )?ports and fuses at MOSS down$/);
    expect(first!.came).toEqual([]);
    expect(first!.after).toBe(0);
    expect(joints(first!.text, false)).toEqual(joints(before, false));
    expect(joints(first!.text, true)).toEqual([]);
  });

  test("a card that says when it stands keeps its line: only ports are written", async () => {
    const before = text("card SQUALL 2 state planned 2027-01-01", "");
    const applied = await fixesOfRule(before, "ports-proposed");
    expect(applied.map(({ fix }) => fix.title)).not.toContain("Write slots, ports and fuses at MOSS down");
    for (const one of applied) expect(one.text).toContain("card SQUALL 2 state planned 2027-01-01");
  });
});
