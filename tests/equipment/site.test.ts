/** Sums of a site written out by hand: power, battery, wind, weight, spares; and what an edit at a site changes. */
import { expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { DesignSession } from "../../server/session/design-session.js";
import { batteryAutonomy } from "../../shared/equipment/battery.js";
import { merged, partsOfNetwork, partsOfSite, spareParts } from "../../shared/equipment/parts-list.js";
import { siteLoad } from "../../shared/equipment/power.js";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { structureLoad } from "../../shared/equipment/structure-load.js";
import { EXAMPLE_ENTRIES } from "../../shared/rules/equipment/example-equipment.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { notFinite } from "../evaluate/builders.js";
import { designOf } from "./designs.js";

const TEXT = `${EXAMPLE_ENTRIES.join("\n")}
cable COAX-10 { kind coaxial; loop-resistance 5 ohm/km; connector N }
radio R18W like R18 { draws 40 W; weight 5 kg }
antenna DISH60-18-W like DISH60-18 { weight 8 kg; wind-coefficient 1.2 }
coupler H18-W like H18-U { weight 2 kg }
network "Spares" { spare unit 10 % least 1; spare card 5 %; grounding 25 m }
site MOSS {
  at 47.48 -30.48
  structure mast 60 m
  wind 25 m/s over country
  battery 100 Ah autonomy 8 h
  cable-run 20 m
  chassis SPINNEY {
    slot 11 HEATH
    slot 4 BREEZE
    card DRIZZLE 2
  }
}
hop MOSS-TARN {
  channel P18 / 55 MHz / 4
  polarization vertical
  radio R18W
  mode 55 MHz 128QAM
  arrangement 1+1 hot-standby
  MOSS {
    antenna DISH60-18-W at 30 m
    coupler H18-W direct
    transmits high
    cable COAX-10
  }
  TARN {
    antenna DISH60-18-W at 30 m
    coupler H18-W direct
    transmits low
    cable COAX-10 length 50 m
  }
}`;
// The network of the preamble gives way to the one here.
const PREAMBLE = EXAMPLE_PREAMBLE.replace(/network "Example" \{[\s\S]*?\n\}\n/, "");
const DESIGN = designOf(TEXT, PREAMBLE);
const MOSS = sitePlans(DESIGN).get("MOSS")!;

test("power: chassis, cards, and units with the loss in their cables at 40.5 V", () => {
  // Cable: (30 + 20) m and a tenth, 4 m of loops: 59 m, 0.295 ohm. 40 W at 40.5 V: (40.5 + sqrt(40.5^2 - 4 40 0.295))/2
  // = 40.2066 V, 0.99486 A, 0.29198 W lost in each.
  const cable = (40 / ((40.5 + Math.sqrt(40.5 ** 2 - 4 * 40 * 0.295)) / 2)) ** 2 * 0.295;
  expect(cable).toBeCloseTo(0.292, 3);
  // Chassis 20, controller 15, fan 8, two IF cards 18 each.
  const load = siteLoad(MOSS);
  expect(load.chassis).toHaveLength(1);
  expect(load.chassis[0]!.heatW).toBeCloseTo(79, 9);
  expect(load.totalW).toBeCloseTo(79 + 2 * (40 + cable), 6);
  expect(load.unknown).toEqual([]);
  // 100 Ah x 48 V x 0.8 x 0.8 / 159.58 W = 19.3 h.
  const hours = batteryAutonomy({ capacityAh: 100, loadW: load.totalW });
  expect(hours.ok && hours.hours).toBeCloseTo(3072 / (159 + 2 * cable), 6);
});

test("power: a unit on copper Ethernet goes through the chassis of the card that feeds it", () => {
  // 45 W over 50 m: half of the 60/51 that its type allows for 100 m: 45 (1 + 0.5 (60/51 - 1)) = 48.97 W.
  const design = designOf(
    `${EXAMPLE_ENTRIES.join("\n")}
cable CAT { kind ethernet }
radio R18O like R18 { construction all-outdoor; draws 45 W }
site MOSS {
  at 47.48 -30.48
  chassis COPSE { slot 3 BRACKEN }
}
hop MOSS-TARN {
  radio R18O
  arrangement all-outdoor 1+0
  MOSS { antenna DISH60-18 at 30 m; cable CAT length 50 m }
  TARN { antenna DISH60-18 at 30 m }
}`,
    PREAMBLE,
  );
  const load = siteLoad(sitePlans(design).get("MOSS")!);
  expect(load.chassis[0]!.feedW).toBeCloseTo(15 + 12 + 48.97, 2);
  expect(load.chassis[0]!.heatW).toBe(27);
  expect(load.totalW).toBeCloseTo(75.97, 2);
});

test("structure: wind at the antenna's height, weight of antenna, coupler and both units", () => {
  // EN form at 30 m in open country with 25 m/s: 1208.5 N/m2 (vectors/equipment/wind.json); 0.6 m: 0.28274 m2; C 1.2.
  const { windN, weightKg, unknown, leftOut } = structureLoad(MOSS);
  expect(windN! / (1208.5 * 0.28274 * 1.2)).toBeCloseTo(1, 3);
  expect(weightKg).toBe(8 + 2 + 2 * 5);
  expect(unknown).toEqual(["COAX-10"]);
  expect(leftOut).toEqual(["twist", "ice", "mounts"]);
});

test("structure: lines from the antenna down and stated mounts; what is not in the sum is told", () => {
  const lines = TEXT.replace("connector N }", "connector N; weight-per-length 15 kg/100m; diameter 10 mm }");
  const load = (site: string, text = lines) =>
    structureLoad(
      sitePlans(designOf(text.replace("  cable-run", `  ${site}\n  cable-run`), PREAMBLE)).get("MOSS")!,
    );
  const antenna = 1208.5 * 0.28274 * 1.2;
  // Two cables of 30 m: 9 kg, 0.6 m2, C 1.2.
  const bare = load("");
  expect(bare.weightKg).toBeCloseTo(20 + 9, 9);
  expect(bare.windN! / (antenna + 1208.5 * 0.6 * 1.2)).toBeCloseTo(1, 3);
  expect(bare.unknown).toEqual([]);
  // 0.4 m2 of steel, C 2, with the highest antenna where no height is stated; at 10 m and 25 m/s:
  // kr 0.19, vm = 0.19 ln(200) 25 = 25.167, Iv = 1/ln(200), (1 + 7 Iv) 0.625 vm^2 = 918.8.
  const steel = load('mount "pole" 35 kg area 0.4 m2');
  expect(steel.weightKg).toBeCloseTo(20 + 9 + 35, 9);
  expect(steel.windN! - bare.windN!).toBeCloseTo(1208.5 * 0.4 * 2, 0);
  expect(steel.leftOut).toEqual(["twist", "ice"]);
  const withMounts = designOf(
    lines.replace("  cable-run", '  mount "pole" 35 kg\n  mount "pole" 35 kg\n  cable-run'),
    PREAMBLE,
  );
  const mounts = partsOfSite(sitePlans(withMounts).get("MOSS")!, withMounts).filter(
    ({ kind }) => kind === "mount",
  );
  expect(mounts.map(({ name, quantity }) => [name, quantity])).toEqual([["pole", 2]]);
  const low = load('mount "pole" 35 kg area 0.4 m2 at 10 m');
  expect(low.windN! - bare.windN!).toBeCloseTo(918.8 * 0.4 * 2, 0);
  expect(load('mount "frame" 35 kg').unknown).toEqual(["frame"]);
  // Elliptical guide of 50 m at 30 m: 30 m hang; a piece of 0.9 m adds weight alone.
  const guide = (length: string) =>
    load(
      "",
      `feeder GUIDE { kind elliptical; weight-per-length 60 kg/100m; diameter 45 mm }\n${lines.replace("coupler H18-W direct", `coupler H18-W\n    feeder GUIDE length ${length}`)}`,
    );
  expect(guide("50 m").weightKg - bare.weightKg).toBeCloseTo(18, 9);
  expect(guide("50 m").windN! - bare.windN!).toBeCloseTo(1208.5 * 30 * 0.045 * 1.2, 0);
  expect(guide("0.9 m").weightKg - bare.weightKg).toBeCloseTo(0.54, 9);
  expect(guide("0.9 m").windN).toBe(bare.windN);
  // 3 m are a piece that hides behind the antenna still, 3.1 m are a line.
  expect(guide("3 m").windN).toBe(bare.windN);
  expect(guide("3.1 m").windN! - bare.windN!).toBeCloseTo(1208.5 * 3.1 * 0.045 * 1.2, 0);
});

test("structure: a line whose length or height nobody stated is no weight and no wind, and all sums stay numbers", () => {
  const at = (antenna: string) =>
    structureLoad(
      sitePlans(
        designOf(
          `feeder GUIDE { kind elliptical; weight-per-length 60 kg/100m; diameter 45 mm }\n${TEXT.replaceAll(/antenna .* at 30 m\n {4}coupler H18-W direct/g, antenna)}`,
          PREAMBLE,
        ),
      ).get("MOSS")!,
    );
  const hung = (antenna: string) => {
    const { parts, weightKg, windN } = at(antenna);
    expect([weightKg, windN ?? 0].every(Number.isFinite)).toBe(true);
    return parts.map(({ name }) => name).filter((name) => name === "GUIDE");
  };
  expect(hung("antenna DISH60-18-W at 30 m\n    coupler H18-W\n    feeder GUIDE length 50 m")).toEqual([
    "GUIDE",
  ]);
  expect(hung("antenna DISH60-18-W at 30 m\n    coupler H18-W\n    feeder GUIDE length ?")).toEqual([]);
  expect(hung("antenna DISH60-18-W\n    coupler H18-W\n    feeder GUIDE length 50 m")).toEqual([]);
});

test("parts of a site, and of the network as the sum of its sites", () => {
  const counted = partsOfSite(MOSS, DESIGN).map(({ kind, name, detail, quantity, lengthM, estimated }) =>
    [kind, name, detail, quantity, lengthM, estimated].filter((part) => part !== undefined),
  );
  expect(counted).toEqual([
    ["unit", "R18W", "high half", 2, false],
    ["antenna", "DISH60-18-W", 1, false],
    ["coupler", "H18-W", 1, false],
    ["cable", "COAX-10", 2, 118, true],
    ["connector", "N for COAX-10", 4, false],
    // 3 at the ends, 59/25 = 2 along each.
    ["grounding kit", "for COAX-10", 10, true],
    ["chassis", "SPINNEY", 1, false],
    ["card", "BREEZE", 1, false],
    ["card", "DRIZZLE", 2, false],
    ["card", "HEATH", 1, false],
  ]);
  const sites = [...sitePlans(DESIGN).values()].flatMap((plan) => partsOfSite(plan, DESIGN));
  expect(partsOfNetwork(DESIGN)).toEqual(merged(sites));
  const cable = partsOfNetwork(DESIGN).find(({ kind }) => kind === "cable")!;
  expect([cable.quantity, cable.lengthM]).toEqual([4, 118 + 100]);
});

test("spares: a share of each type, rounded up, and the least; units by half", () => {
  const spares = spareParts(partsOfNetwork(DESIGN), DESIGN.spares!);
  expect(spares.map(({ name, detail, quantity }) => [name, detail, quantity])).toEqual([
    ["R18W", "high half", 1],
    ["R18W", "low half", 1],
    // 5 % of one card is one card.
    ["BREEZE", undefined, 1],
    ["DRIZZLE", undefined, 1],
    ["HEATH", undefined, 1],
  ]);
  const twenty = [{ kind: "unit", name: "R", quantity: 20, estimated: false } as const];
  expect(spareParts(twenty, [{ kind: "unit", sharePercent: 5, least: 0 }])[0]!.quantity).toBe(1);
  expect(spareParts(twenty, [{ kind: "unit", sharePercent: 5.1, least: 0 }])[0]!.quantity).toBe(2);
  expect(spareParts(twenty, [{ kind: "unit", sharePercent: 0, least: 0 }])).toEqual([]);
});

test("an edit at a site is judged at once, though no hop changed", async () => {
  const model = new DesignModel("/design");
  const path = "/design/main.hop";
  const session = new DesignSession(model, { today: "2026-06-01" });
  const found = async (text: string) => {
    model.setFile(readSource(path, `${PREAMBLE}\n${text}`));
    await session.update();
    session.updateNetwork();
    // The preamble has sites that this text does not use, the chassis no power card, and all ports are open.
    const rules = session.networkFindings().map(({ rule }) => rule);
    return rules.filter(
      (rule) => !["site-unused", "chassis-needs", "ports-proposed", "chassis-unstated"].includes(rule),
    );
  };
  expect(await found(TEXT)).toEqual([]);
  const before = session.evaluations;
  expect(await found(TEXT.replace("card DRIZZLE 2", "card MIST 1"))).toContain("if-ports-short");
  expect(await found(TEXT.replace("ports 3 IF", "ports 1 IF"))).toEqual([]);
  expect(await found(TEXT.replace("wind 25 m/s", "wind-limit 100 N\n  wind 25 m/s"))).toEqual([
    "structure-overload",
  ]);
  expect(await found(TEXT)).toEqual([]);
  expect(session.evaluations).toBe(before);
});

test("text as typing leaves it, and figures at their limits, give sums and findings that are numbers", () => {
  const lines = TEXT.split("\n");
  const wild = TEXT.replace("draws 40 W", "draws 20 kW")
    .replace("battery 100 Ah", "battery 100000 Ah")
    .replace("wind 25 m/s", "wind 100 m/s")
    .replace("loop-resistance 5 ohm/km", "loop-resistance 1000 ohm/km")
    .replaceAll("at 30 m", "at 700 m")
    .replace("card DRIZZLE 2", "card DRIZZLE 999");
  const texts = [
    wild,
    // Every line gone in turn, and every line cut in its middle.
    ...lines.map((_, index) => lines.filter((_, other) => other !== index).join("\n")),
    ...lines.map((line, index) => lines.with(index, line.slice(0, line.length / 2)).join("\n")),
  ];
  for (const text of texts) {
    const model = new DesignModel("/design");
    model.setFile(readSource("/design/main.hop", `${PREAMBLE}\n${text}`));
    const design = model.design();
    const plans = [...sitePlans(design).values()];
    const said = {
      parts: partsOfNetwork(design),
      spares: spareParts(partsOfNetwork(design), design.spares ?? []),
      loads: plans.map((plan) => siteLoad(plan)),
      structures: plans.map((plan) => structureLoad(plan)),
      findings: judgeNetwork(design, new Map(), "2026-06-01").map(({ message }) => message),
    };
    expect(notFinite(said), text).toEqual([]);
  }
});
