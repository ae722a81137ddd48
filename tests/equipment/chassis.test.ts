/** What a chassis does not work without, where its feed comes in, and cards wider than a slot. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import { equipped } from "../../shared/rules/equipment/example-equipment.js";
import { judgeExample } from "../rules/example-design.js";
import { designOf } from "./designs.js";
import { wiringFaults } from "./wiring-faults.js";

/** Findings of one rule: `severity: message`. */
function told(rule: string, text: string): string[] {
  const { problems, findings } = judgeExample(text);
  expect(problems).toEqual([]);
  return findings
    .filter((one) => one.rule === rule)
    .map(({ severity, message }) => `${severity}: ${message}`);
}

const CARDS = `card WAVE { kind if; ports 1 IF }
card GUST { kind fan }
card BOLT { kind power }
card HELM { kind controller; supply built-in }`;
const box = (facts: string, cards: string) =>
  equipped(
    `chassis BOX as A {\n${cards}\n}`,
    {},
    `chassis BOX { slot 1 to 2 power; slot 3 to 4 fan; slot 5 to 9 traffic; slot 10 controller; ${facts} }\n${CARDS}`,
  );

describe("fan and power cards", () => {
  const needs = (facts: string, cards: string) => told("chassis-needs", box(facts, cards));

  test("slots for them ask for one of each, as a warning, once there is a card", () => {
    expect(needs("", "")).toEqual([]);
    expect(needs("", "card WAVE")).toEqual([
      "warning: BOX at MOSS has fan slots and no fan card; it has power slots and no power card",
    ]);
    expect(needs("", "card WAVE\ncard GUST\ncard BOLT")).toEqual([]);
  });

  test("so many are needed, no fewer, whatever is there beside them", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 2 }),
        fc.integer({ min: 0, max: 2 }),
        fc.integer({ min: 0, max: 2 }),
        (needed, fans, powers) => {
          const lines = [
            "card WAVE",
            ...(fans > 0 ? [`card GUST ${fans}`] : []),
            ...(powers > 0 ? [`card BOLT ${powers}`] : []),
          ].join("\n");
          const found = needs(`needs ${needed} fan; needs 1 power`, lines);
          expect(found.length).toBe(fans < needed || powers < 1 ? 1 : 0);
          for (const one of found) {
            expect(one.startsWith("error: ")).toBe(true);
            expect(one.includes("fan card")).toBe(fans < needed);
            expect(one.includes("power card")).toBe(powers < 1);
          }
        },
      ),
    );
  });

  test("none is asked of a chassis that states that it works without, or has no slots for them", () => {
    expect(needs("needs 0 fan; needs 0 power", "card WAVE")).toEqual([]);
    const bare = "chassis BARE { slot 1 to 2 traffic }\ncard WAVE { kind if; ports 1 IF }";
    expect(told("chassis-needs", equipped("chassis BARE {\n  card WAVE\n}", {}, bare))).toEqual([]);
  });

  test("a card with the supply built in is a power card: for the need, the wiring and a stated feed", () => {
    const text = (lines: string) =>
      box("needs 1 power; needs 0 fan", "slot 10 HELM\ncard WAVE").replace(
        "chassis BOX as A {",
        `${lines}\n  $&`,
      );
    expect(told("chassis-needs", text(""))).toEqual([]);
    const feeds = (lines: string) => {
      const wiring = siteWiring(sitePlans(designOf(text(lines))).get("MOSS")!);
      expect(wiringFaults(wiring)).toEqual([]);
      return wiring.joints
        .filter(({ by }) => by.kind === "fuse")
        .map(({ ends: [from, to], proposed }) => `${from.port} - ${to.part}${proposed ? "?" : ""}`);
    };
    expect(feeds("")).toEqual(["A 1 - card A/10?"]);
    expect(feeds("feed B fuse 4 slot 10")).toEqual(["B 4 - card A/10"]);
    expect(told("feed-slot", text("feed B fuse 4 slot 10"))).toEqual([]);
    expect(told("feed-slot", text("feed B fuse 4 slot 9"))).toHaveLength(1);
  });

  test("without any power card the feed of a chassis that has slots for one leads nowhere, and not into the chassis", () => {
    const wiring = (cards: string) =>
      siteWiring(
        sitePlans(designOf(box("", cards).replace("chassis BOX as A {", "feed A fuse 1\n  $&"))).get("MOSS")!,
      );
    const inlets = ({ parts }: ReturnType<typeof wiring>) =>
      [...parts.values()].flatMap(({ id, ports }) => (ports.some(({ name }) => name === "supply") ? id : []));
    expect(inlets(wiring("card WAVE"))).toEqual([]);
    expect(inlets(wiring("card WAVE\nslot 1 BOLT"))).toEqual(["card A/1"]);
  });

  test("a chassis without power slots takes its feed at the card that has the supply, else itself", () => {
    const bare = (lines: string) =>
      equipped(
        `feed A fuse 1\nchassis BARE as A {\n${lines}\n}`,
        {},
        `chassis BARE { slot 1 controller; slot 2 traffic }\n${CARDS}`,
      );
    const inlets = (lines: string) =>
      siteWiring(sitePlans(designOf(bare(lines))).get("MOSS")!)
        .joints.filter(({ by }) => by.kind === "fuse")
        .map(({ ends }) => ends[1].part);
    expect(inlets("card WAVE")).toEqual(["chassis A"]);
    expect(inlets("card WAVE\nslot 1 HELM")).toEqual(["card A/1"]);
    // The feed that leads to the chassis itself leads nowhere then.
    expect(told("feed-slot", bare("card WAVE"))).toEqual([]);
    expect(told("feed-slot", bare("card WAVE\nslot 1 HELM"))).toHaveLength(1);
  });
});

describe("a card wider than a slot", () => {
  const wide = (chassis: string) =>
    equipped(
      chassis,
      {},
      `chassis BOX { slot 1 to 4 traffic; slot 5 fan; slot 6 to 8 traffic; controller built-in; needs 0 fan }
card SLIM { kind ethernet; ports 1 GE }
card BROAD { kind if; ports 2 IF; spans 2 }
card LINKED { kind if; ports 1 IF; xpic yes; pairs neighbour; spans 2 }`,
    );
  const at = (lines: string) => sitePlans(designOf(wide(`chassis BOX {\n${lines}\n}`))).get("MOSS")!;

  test("covers the slots above its own: the next card there is doubled, and each must be there and of its kind", () => {
    const doubled = (lines: string) => told("slot-doubled", wide(`chassis BOX {\n${lines}\n}`));
    expect(doubled("slot 1 BROAD\nslot 3 SLIM")).toEqual([]);
    expect(doubled("slot 1 BROAD\nslot 2 SLIM")).toEqual([
      "error: slot 2 of BOX at MOSS has BROAD already; SLIM does not count",
    ]);
    expect(doubled("slot 2 SLIM\nslot 1 BROAD")).toEqual([
      "error: slot 2 of BOX at MOSS has SLIM already; BROAD does not count",
    ]);
    const kind = (lines: string) => told("slot-wrong-kind", wide(`chassis BOX {\n${lines}\n}`));
    expect(kind("slot 3 BROAD\nslot 7 BROAD")).toEqual([]);
    expect(kind("slot 4 BROAD\nslot 8 BROAD")).toEqual([
      "error: slot 5 is a fan slot in BOX at MOSS; BROAD goes into 2 traffic slots beside each other",
      "error: there is no slot 9 in BOX at MOSS; BROAD goes into 2 traffic slots beside each other",
    ]);
  });

  test("is placed where there is room beside each other, and told where there is none", () => {
    // Three pairs of slots there are: 1 to 4 and two of 6 to 8.
    expect(at("card BROAD 3\ncard SLIM").placed.left).toEqual([]);
    expect(told("slots-short", wide("chassis BOX {\n  card BROAD 4\n}"))).toEqual([
      "error: 1 of BROAD find no 2 free traffic slots beside each other in BOX at MOSS",
    ]);
    // Seven slots, of which no two free ones lie beside each other.
    expect(
      told(
        "slots-short",
        wide("chassis BOX {\n  slot 2 SLIM\n  slot 3 SLIM\n  slot 7 SLIM\n  card BROAD\n}"),
      ),
    ).toHaveLength(1);
    expect(
      at("slot 2 SLIM\nslot 3 SLIM\ncard BROAD").placed.cards.find(({ automatic }) => automatic)?.slot,
    ).toBe(6);
  });

  test("is wired from its own slot, and tells how many it covers", () => {
    const wiring = siteWiring(at("slot 3 BROAD"));
    expect(wiringFaults(wiring)).toEqual([]);
    expect(wiring.parts.get("card 1/3")?.place).toEqual({ chassis: "1", slot: 3, slotCount: 2 });
  });

  test("pairs with the card behind the slots that it covers", () => {
    const parted = (lines: string) => {
      const dual = "antenna VH like DISH60-18 { polarizations dual }\n";
      const text = wide(`chassis BOX {\n${lines}\n}`)
        .replaceAll("antenna DISH60-18 at", "antenna VH at")
        .replaceAll(/transmits/g, "coupler O18 direct\n    transmits")
        .replace("arrangement 1+0", "arrangement 2+0 xpic");
      return told("xpic-pair", dual + text);
    };
    expect(parted("slot 1 LINKED\nslot 3 LINKED")).toEqual([]);
    expect(parted("slot 1 LINKED\nslot 6 LINKED")).toHaveLength(1);
    expect(parted("card LINKED 2")).toEqual([]);
  });
});
