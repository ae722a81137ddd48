/** What is ordered beside the large parts: by which code, and the small ones that nobody draws. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { deliveryWords } from "../../shared/equipment/delivery.js";
import { merged, partsOfNetwork, partsOfSite, spareParts } from "../../shared/equipment/parts-list.js";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import { partList } from "../../shared/lists/subjects/parts.js";
import { quantity } from "../../shared/report/pages/hop-equipment.js";
import { equipped } from "../../shared/rules/equipment/example-equipment.js";
import { designOf } from "./designs.js";

const counted = (kind: string, text: string) =>
  partsOfNetwork(designOf(text))
    .filter((part) => part.kind === kind)
    .map(({ quantity, name }) => `${quantity} ${name}`);

test("an order code is the entry's own: one that is like it in all but a fact is another article", () => {
  const text = `radio RA like R18 { order-code "A-1" }
radio RB like RA { draws 40 W }
antenna DA like DISH60-18 { order-code "D-1" }
${equipped("chassis BOX {\n  slot 1 WAVE\n}", { hop: "polarization vertical\n  radio RB\n  mode 55 MHz 128QAM\n  arrangement 1+0", keld: "antenna DA at 40 m\n    transmits high" }, 'chassis BOX { slot 1 traffic; order-code "C-1" }\ncard WAVE { kind if; ports 1 IF; order-code "W 1" }')}`;
  const codes = (all: string) =>
    partsOfNetwork(designOf(all)).flatMap(({ name, orderCode }) =>
      orderCode ? [`${name}: ${orderCode}`] : [],
    );
  expect(codes(text)).toEqual(["DA: D-1", "BOX: C-1", "WAVE: W 1"]);
  expect(codes(text.replace("radio RB\n", "radio RA\n"))).toContain("RA: A-1");
});

test("brackets of an end are counted as it states them", () => {
  const keld =
    'antenna DISH60-18 at 40 m\n    bracket "pipe, 89 mm" 2\n    bracket "clamp"\n    transmits high';
  expect(counted("mount", equipped("", { keld }))).toEqual(["1 clamp", "2 pipe, 89 mm"]);
});

test("each arm that no unit is on has a termination", () => {
  const coupled = (arrangement: string) => {
    const end = "antenna VH at 40 m\n    coupler DP direct";
    return `antenna VH like DISH60-18 { polarizations dual }
coupler DP { kind dual-polarized; main-loss 4 dB }
${equipped("", { hop: `polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement ${arrangement}`, keld: `${end}\n    transmits high`, tarn: `${end}\n    transmits low` })}`;
  };
  expect(counted("termination", coupled("4+0 dual-polarization"))).toEqual([]);
  expect(counted("termination", coupled("3+0 dual-polarization"))).toEqual(["2 for DP"]);
});

describe("patch cables", () => {
  const at = (services: string) =>
    equipped(`${services}\nchassis BOX {\n  slot 1 WAVE\n  slot 2 MANY\n}`, {}, CATALOGUE);
  const CATALOGUE = `chassis BOX { slot 1 to 2 traffic; controller built-in }
card WAVE { kind if; ports 1 IF }
card MANY { kind tdm; ports 4 E1-120; ports 2 GE; ports 2 alarm-in }`;

  test("one for each that finds its port, two where it goes over a panel; none for what finds none, nor for wires to contacts", () => {
    expect(counted("patch cable", at('service "mill" 2 GE\nalarm 1 "door"'))).toEqual(["2 GE"]);
    expect(counted("patch cable", at('service "mill" 3 GE'))).toEqual(["2 GE"]);
    const over = counted("patch cable", at('balun "panel" 4\nservice "mill" 2 E1-75'));
    expect(over).toEqual(["2 E1-120", "2 E1-75"]);
  });

  test("as many as the wiring patches", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 5 }),
        fc.integer({ min: 0, max: 5 }),
        fc.boolean(),
        (ge, e1, panel) => {
          const lines = [
            ...(ge > 0 ? [`service "g" ${ge} GE`] : []),
            ...(e1 > 0 ? [`service "e" ${e1} E1-75`] : []),
            ...(panel ? ['balun "panel" 4'] : []),
          ];
          const design = designOf(at(lines.join("\n")));
          const plan = sitePlans(design).get("MOSS")!;
          const patched = siteWiring(plan).joints.filter(({ by }) => by.kind === "patch").length;
          const parts = partsOfSite(plan, design).filter(({ kind }) => kind === "patch cable");
          expect(parts.reduce((sum, { quantity }) => sum + quantity, 0)).toBe(patched);
        },
      ),
    );
  });
});

test("the list has a row for each part of each end of a hop, and of the site beside them: no piece more or less", () => {
  const text = equipped(
    'service "mill" 1 GE\nchassis BOX {\n  slot 1 WAVE\n  slot 2 MANY\n}',
    { keld: 'antenna DISH60-18 at 40 m\n    bracket "clamp"\n    transmits high' },
    'chassis BOX { slot 1 to 2 traffic; order-code "C-1" }\ncard WAVE { kind if; ports 1 IF }\ncard MANY { kind ethernet; ports 2 GE }',
  );
  const design = designOf(text);
  const { columns, rows } = partList({ design } as Parameters<typeof partList>[0]);
  const column = (name: string) => columns.findIndex(({ head }) => head === name);
  const told = rows.map((row) =>
    ["site", "hop", "part", "order_code", "pieces"].map((name) => row.values[column(name)] ?? ""),
  );
  expect(told).toContainEqual(["MOSS", "MOSS-TARN", "R18", "", 1]);
  expect(told).toContainEqual(["MOSS", "MOSS-TARN", "clamp", "", 1]);
  expect(told).toContainEqual(["MOSS", "", "BOX", "C-1", 1]);
  const pieces = told.reduce((sum, row) => sum + Number(row.at(-1)), 0);
  expect(pieces).toBe(partsOfNetwork(design).reduce((sum, { quantity }) => sum + quantity, 0));
});

describe("how far parts are", () => {
  const at = (keld: string, site = "") =>
    equipped(`chassis BOX\n${site}`, { keld: `antenna DISH60-18 at 40 m\n${keld}\ntransmits high` }, BOX);
  const BOX = "chassis BOX { slot 1 traffic; controller built-in }";
  const told = (text: string) => {
    const design = designOf(text);
    return partsOfSite(sitePlans(design).get("MOSS")!, design).flatMap(({ kind, delivery }) =>
      delivery ? [`${kind}: ${deliveryWords(delivery)}`] : [],
    );
  };

  test("a line about one kind holds before one about all, and the last of two", () => {
    const lines = "delivery delivered 2026-11-20 of antenna\ndelivery ordered\ndelivery ordered 2026-11-02";
    expect(told(at(lines))).toEqual(["unit: ordered 2026-11-02", "antenna: delivered 2026-11-20"]);
    expect(told(at("", 'delivery delivered of chassis "order 7"'))).toEqual(["chassis: delivered, order 7"]);
    expect(told(at(""))).toEqual([]);
  });

  test("what is ordered and spared does not depend on it", () => {
    const all = (text: string) => {
      const parts = partsOfNetwork(designOf(text));
      return [parts, spareParts(parts, [{ kind: "antenna", sharePercent: 10, least: 1 }])];
    };
    expect(all(at("delivery ordered"))).toEqual(all(at("")));
  });

  test("what is to be chosen still is not ordered", () => {
    const design = designOf(at("delivery ordered\n    mounting separate"));
    const parts = partsOfSite(sitePlans(design).get("MOSS")!, design);
    expect(parts.filter(({ toChoose }) => toChoose).map(({ delivery }) => delivery)).toEqual([undefined]);
  });
});

test("a cable is told by the length of one, the sum only where they differ", () => {
  const cable = (quantityOf: number, lengthM: number, eachM?: number) =>
    quantity({ kind: "cable", name: "C", quantity: quantityOf, lengthM, eachM, estimated: true });
  expect(cable(2, 84, 42)).toBe("2 x ~42 m");
  expect(cable(3, 90)).toBe("3, ~90 m together");
  const parts = [
    { kind: "cable", name: "C", quantity: 2, lengthM: 84, eachM: 42, estimated: false },
    { kind: "cable", name: "C", quantity: 1, lengthM: 42, eachM: 42, estimated: false },
  ] as const;
  expect(merged(parts)).toMatchObject([{ quantity: 3, lengthM: 126, eachM: 42 }]);
  const [first, second] = parts;
  expect(merged([first, { ...second, lengthM: 10, eachM: 10 }])[0]!.eachM).toBeUndefined();
});
