/** Cases of the rules about equipment beyond their own examples: what is told, where, and what passes. */
import { describe, expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { EXAMPLE_CATALOGUE, equipped, HOT_STANDBY } from "../../shared/rules/equipment/example-equipment.js";
import { EQUIPMENT_HOP_RULES, EQUIPMENT_NETWORK_RULES } from "../../shared/rules/equipment/index.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { judgeExample } from "./example-design.js";

const OWN = new Set(
  [...EQUIPMENT_HOP_RULES, ...EQUIPMENT_NETWORK_RULES].map(({ id }) => id).concat("standby-margin"),
);

/** Findings of the rules about equipment: `rule: message`. */
function found(text: string): string[] {
  const { problems, findings } = judgeExample(text);
  expect(problems).toEqual([]);
  return findings.filter(({ rule }) => OWN.has(rule)).map(({ rule, message }) => `${rule}: ${message}`);
}

const DUAL = "antenna DISH60-18-VH like DISH60-18 {\n  polarizations dual\n}\n\n";
const xpic = (arrangement = "2+0 xpic", coupler = "O18") => ({
  hop: `polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement ${arrangement}`,
  keld: `antenna DISH60-18-VH at 40 m\n    coupler ${coupler} direct\n    transmits high`,
  tarn: `antenna DISH60-18-VH at 40 m\n    coupler ${coupler} direct\n    transmits low`,
});

test("without an indoor unit nothing indoors is judged, and a site with nothing stated is silent", () => {
  expect(found(exampleHop(HOT_STANDBY))).toEqual([]);
  expect(found(equipped('rack 1 U\nservice "x" 3 GE\nalarm 9 "y"', HOT_STANDBY))).toEqual([]);
});

describe("slots and cards", () => {
  test("a slot that is not there, one of another kind, a doubled one", () => {
    expect(
      found(
        equipped(
          "chassis HEDGE {\n  slot 12 MIST\n  slot 9 FERN\n  slot 1 HEATH\n  slot 3 MIST\n  slot 3 FERN\n}",
        ),
      ),
    ).toEqual([
      "slot-wrong-kind: there is no slot 12 in HEDGE at MOSS; MIST goes into a traffic slot",
      "slot-wrong-kind: slot 9 is a fan slot in HEDGE at MOSS; FERN goes into a traffic slot",
      "slot-doubled: slot 3 of HEDGE at MOSS has MIST already; FERN does not count",
    ]);
  });

  test("two chassis are told apart by their names", () => {
    const text = equipped(
      "chassis HEDGE as A {\n  slot 1 HEATH\n  slot 3 MIST\n}\nchassis HEDGE as B {\n  slot 3 MIST\n}",
    );
    expect(found(text)).toEqual(["controller-protection: HEDGE B at MOSS has no controller, it needs one"]);
  });
});

describe("IF ports", () => {
  test("short by one, told at the hop that lacks it and excused there", () => {
    const short = equipped("chassis HEDGE {\n  slot 1 HEATH\n  slot 3 MIST\n}", HOT_STANDBY);
    expect(found(short)).toContain(
      "if-ports-short: MOSS-TARN lacks 1 of 2 IF ports at MOSS: 1 are there, all hops need 2",
    );
    const excused = short.replace(
      "  objective trunk",
      '  accept if-ports-short because "card ordered"\n  objective trunk',
    );
    const { findings } = judgeExample(excused);
    expect(findings.find(({ rule }) => rule === "if-ports-short")).toMatchObject({
      severity: "info",
      accepted: { reason: "card ordered" },
    });
  });

  test("a port of a hop that another hop has", () => {
    const claims = exampleHop({ keld: "antenna DISH60-18 at 40 m\n    transmits high\n    if-port 3 / 1" });
    const second = claims.replaceAll("TARN", "FELL").replace("at 40 m", "at 45 m").replaceAll("KELD", "MOSS");
    const text = `site FELL {\n  at 47.4 -30.4\n}\n\n${equipped(
      "chassis HEDGE {\n  slot 1 HEATH\n  slot 3 HAIL-TWIN\n}",
      {
        keld: "antenna DISH60-18 at 40 m\n    transmits high\n    if-port 3 / 1",
      },
    )}\n\n${second}`;
    expect(found(text)).toEqual([
      "if-port-claim: port 1 of the card in slot 3 is taken at MOSS; MOSS-FELL has it",
    ]);
  });

  test("XPIC: neighbours that pair, neighbours that do not, cards apart, cards without it", () => {
    const cards = `card MIST-TWIN { kind if; ports 1 IF; xpic yes; pairs neighbour; draws 12 W }
card MIST-LIGHT { kind if; ports 1 IF; xpic yes; draws 12 W }
`;
    const at = (lines: string) =>
      found(cards + DUAL + equipped(`chassis HEDGE {\n  slot 1 HEATH\n${lines}\n}`, xpic()));
    expect(at("  slot 3 MIST-TWIN\n  slot 4 MIST-TWIN")).toEqual([]);
    expect(at("  slot 3 MIST-TWIN\n  slot 6 MIST-TWIN")[0]).toContain("slots 3 and 6 are not neighbours");
    expect(at("  slot 3 MIST-LIGHT\n  slot 4 MIST-LIGHT")[0]).toMatch(
      /they are on two cards, in slots \d and \d, that do not pair/,
    );
    expect(at("  slot 3 MIST\n  slot 4 MIST")[0]).toContain("MIST has no XPIC");
    expect(at("  slot 3 HAIL-TWIN")).toEqual([]);
  });

  test("four units of two XPIC pairs meet both wishes on two cards", () => {
    const catalogue = "coupler D18 { kind dual-polarized; main-loss 2 dB; standby-loss 6.8 dB }\n\n";
    const four = xpic("1+1 xpic four-units", "D18");
    expect(
      found(catalogue + DUAL + equipped("chassis HEDGE {\n  slot 1 HEATH\n  card HAIL-TWIN 2\n}", four)),
    ).toEqual([]);
    expect(
      found(catalogue + DUAL + equipped("chassis HEDGE {\n  slot 1 HEATH\n  card HAIL-TWIN\n}", four))[0],
    ).toContain("lacks 2 of 4 IF ports");
  });
});

describe("traffic ports and alarms", () => {
  const services = (lines: string, cards: string) =>
    found(equipped(`${lines}\nchassis HEDGE {\n  slot 1 HEATH\n  slot 8 MIST\n${cards}\n}`));

  test("a faster Ethernet port serves a slower one, never the other way", () => {
    const agg = "card AGG { kind aggregation; ports 2 10GE; ports 2 2.5GE; ports 2 GE; draws 20 W }\n";
    const at = (lines: string) =>
      found(agg + equipped(`${lines}\nchassis HEDGE {\n  slot 1 HEATH\n  slot 8 MIST\n  slot 3 AGG\n}`));
    expect(at('service "a" 6 FE')).toEqual([]);
    expect(at('service "a" 7 FE')).toEqual([
      "traffic-ports-short: MOSS lacks 1 of 7 FE ports; its cards have 0",
    ]);
    expect(at('service "a" 3 10GE')).toEqual([
      "traffic-ports-short: MOSS lacks 1 of 3 10GE ports; its cards have 2",
    ]);
    expect(at('service "a" 2 10GE\nservice "b" 5 GE')).toEqual([
      "traffic-ports-short: MOSS lacks 1 of 5 GE ports; its cards have 2",
    ]);
  });

  test("75 ohm is not 120 ohm", () => {
    const e1 = "card E16 { kind e1; ports 16 E1-75; draws 8 W }\n";
    const { findings } = judgeExample(
      e1 + equipped('service "a" 4 E1-120\nchassis HEDGE {\n  slot 1 HEATH\n  slot 8 MIST\n  slot 3 E16\n}'),
    );
    expect(findings.find(({ rule }) => rule === "traffic-ports-short")).toMatchObject({
      message: "MOSS lacks 4 of 4 E1-120 ports; its cards have 0",
      help: "Ports of 75 ohm need a converter to 120 ohm.",
    });
  });

  test("an alarm input beyond the cards, and one used twice", () => {
    expect(services('alarm 1 "door"\nalarm 1 "mains"\nalarm 5 "tank"', "  slot 3 DEW")).toEqual([
      'alarm-input: alarm input 1 at MOSS serves "door" already',
      'alarm-input: there is no alarm input 5 at MOSS for "tank": its cards have 4',
    ]);
    expect(services('alarm 5 "tank"', "  slot 3 DEW\n  slot 4 DEW")).toEqual([]);
  });
});

describe("cables", () => {
  const CABLES = `cable THIN { kind coaxial; loss 15 dB/100m at 350 MHz; loop-resistance 40 ohm/km }
cable CAT { kind ethernet }
cable SHORT { kind coaxial; longest 50 m }
`;
  const unit = (facts: string) => `radio R18C like R18 { ${facts} }\n`;
  const RADIO = "polarization vertical\n  radio R18C\n  mode 55 MHz 128QAM\n  arrangement 1+0";
  const at = (facts: string, cable: string, hop = RADIO) =>
    found(
      CABLES +
        unit(facts) +
        exampleHop({ hop, keld: `antenna DISH60-18 at 40 m\n    transmits high\n    cable ${cable}` }),
    );

  test("loss at the highest IF: 15 dB in 100 m", () => {
    const limit = "if-limit 25 dB at 350 MHz";
    expect(at(limit, "THIN length 166 m")).toEqual([]);
    expect(at(limit, "THIN length 167 m")[0]).toContain(
      "loses 25.05 dB at 350 MHz, the unit equalizes 25 dB",
    );
  });

  test("voltage at constant power, from 40.5 V", () => {
    // 45 W over 150 m x 0.04 ohm/m = 6 ohm: (40.5 + sqrt(1640.25 - 1080))/2 = 32.1 V; 60 m, 2.4 ohm: 37.6 V.
    const facts = "draws 45 W; least-supply 36 V";
    expect(at(facts, "THIN length 60 m")).toEqual([]);
    expect(at(facts, "THIN length 150 m")[0]).toContain(
      "leaves 32.1 V of 40.5 V at the unit, which starts at 36 V",
    );
    // 9.12 ohm and more carry no 45 W at all.
    expect(at(facts, "THIN length 240 m")[0]).toContain("cannot deliver the 45 W of the unit at all");
  });

  test("maker's limit, copper Ethernet, estimates told as such", () => {
    // (40 + 10) m and a tenth, and 4 m: 59 m.
    expect(at("draws 40 W", "SHORT")[0]).toContain(
      "59.0 m, estimated, of SHORT at KELD: 50.0 m is its limit",
    );
    const outdoor = RADIO.replace("1+0", "all-outdoor 1+0");
    expect(at("construction all-outdoor", "CAT length 100 m", outdoor)).toEqual([]);
    expect(at("construction all-outdoor", "CAT length 101 m", outdoor)[0]).toContain("100.0 m is its limit");
  });
});

describe("mounting and flanges", () => {
  test("between 1.8 m and what the catalogue allows", () => {
    const at = (antenna: string) =>
      found(
        `antenna BIG like DISH60-18 { ${antenna} }\n\n${exampleHop({ keld: "antenna BIG at 40 m\n    mounting direct\n    transmits high" })}`,
      );
    expect(at("diameter 1.8 m")).toEqual([]);
    expect(at("diameter 1.8 m; direct-mounting no")[0]).toContain("is not made for it");
    expect(at("diameter 2.4 m; direct-mounting yes")).toEqual([]);
    expect(at("diameter 2.4 m")[0]).toContain("has 2.4 m");
  });

  test("each joint is looked at, round flanges are words", () => {
    const text = (coupler: string) => `radio R18F like R18 { interface round-18 }
coupler C18 like H18-U { interface ${coupler} }
antenna A18F like DISH60-18 { interface UBR220 }

${exampleHop({ ...HOT_STANDBY, hop: HOT_STANDBY.hop.replace("R18", "R18F"), keld: "antenna A18F at 40 m\n    coupler C18 direct\n    transmits high" })}`;
    expect(found(text("round-18"))).toEqual([
      "interface-mismatch: C18 (round-18) does not bolt to A18F (UBR220) at KELD: round-18 and UBR220 are different interfaces",
    ]);
    expect(found(text("PBR220"))[0]).toContain("R18F (round-18) does not bolt to C18 (PBR220)");
  });
});

test("racks: chassis of a row count once; the neighbour's warm air is told for either direction", () => {
  const turned = EXAMPLE_CATALOGUE.replace("left-to-right", "right-to-left");
  const lines =
    "rack 2 U\nchassis HEDGE as A row 1 {\n  slot 1 HEATH\n  slot 3 MIST\n}\nchassis HEDGE as B row 1";
  expect(found(equipped(lines))).toEqual([
    "air-path: HEDGE B at MOSS takes in the warm air of A beside it in row 1",
  ]);
  expect(found(equipped(lines, {}, turned))).toEqual([
    "air-path: HEDGE A at MOSS takes in the warm air of B beside it in row 1",
  ]);
  expect(found(equipped(lines.replaceAll(" row 1", "")))).toContain(
    "rack-full: the chassis at MOSS need 4 U, 2 U are free",
  );
});

test("what a sum cannot count is told with it", () => {
  const text = equipped("plant 10 W\nchassis HEDGE {\n  slot 1 HEATH\n  slot 3 MIST\n}");
  expect(found(text)).toEqual([
    "plant-power: MOSS draws 37 W, its plant gives 10 W; R18 not counted, the catalogue has no figure",
  ]);
});

test("power over copper: ports with power, and no more than reaches a unit", () => {
  const at = (watts: number, card: string) =>
    found(
      `cable CAT { kind ethernet }
radio R18O like R18 { construction all-outdoor; draws ${watts} W }
card FERN-SMALL { kind ethernet; ports 1 GE powered; draws 9 W }
${equipped(`chassis HEDGE {\n  slot 1 HEATH\n  slot 3 ${card}\n}`, {
  hop: "polarization vertical\n  radio R18O\n  mode 55 MHz 128QAM\n  arrangement all-outdoor 1+0",
  keld: "antenna DISH60-18 at 40 m\n    transmits high\n    cable CAT",
})}`,
    );
  expect(at(71, "FERN-SMALL")).toEqual([]);
  expect(at(72, "FERN-SMALL")[0]).toContain("R18O draws 72 W, at most 71.3 W reach it");
  expect(at(45, "FERN")[0]).toContain("0 powered ports are left, it needs 1");
});

test("power over copper: what a card's ports give together", () => {
  // A unit of 45 W is of the type that gives 60 W for 51 W: 45 x 60/51 = 52.9 W over 100 m, half the loss over 50 m.
  const at = (budget: string, length: string) =>
    found(
      `cable CAT { kind ethernet }
radio R18O like R18 { construction all-outdoor; draws 45 W }
antenna DISH60-18-VH like DISH60-18 { polarizations dual }
card FERN-WIDE { kind ethernet; ports 4 GE powered; ${budget}; draws 9 W }
${equipped("chassis HEDGE {\n  slot 1 HEATH\n  slot 3 FERN-WIDE\n}", {
  hop: "polarization vertical\n  radio R18O\n  mode 55 MHz 128QAM\n  arrangement all-outdoor 2+0 xpic",
  keld: `antenna DISH60-18-VH at 40 m\n    coupler O18 direct\n    transmits high\n    cable CAT length ${length}`,
  tarn: "antenna DISH60-18-VH at 40 m\n    coupler O18 direct\n    transmits low",
})}`,
    );
  expect(at("weight 1 kg", "100 m")).toEqual([]);
  expect(at("power-budget 106 W", "100 m")).toEqual([]);
  expect(at("power-budget 105 W", "100 m")).toEqual([
    "ethernet-power: MOSS-TARN cannot be fed over copper Ethernet at MOSS: a unit takes 52.9 W with its cable, the cards with a powered port left give 52.1 W more",
  ]);
  expect(at("power-budget 98 W", "50 m")).toEqual([]);
});

describe("words that mean two things", () => {
  const problem = (arrangement: string) => {
    const model = new DesignModel("/d");
    const hop = exampleHop({ hop: `radio R18\n  arrangement ${arrangement}` });
    model.setFile(readSource("/d/d.hop", `${EXAMPLE_PREAMBLE}\n${hop}`));
    return model.problemsOf("/d/d.hop").find(({ rule }) => rule === "unknown-choice")?.message;
  };
  test.each([
    ["1+1 xpic", "1+1 xpic two-units, 1+1 xpic four-units"],
    ["2+0 single", undefined],
    ["3+1", "3+1 dual-polarization, 3+1 xpic"],
    ["4+0", "4+0 dual-polarization, 4+0 xpic"],
    ["dual-band", "dual-band low, dual-band high"],
    ["all-indoor 1+1", "all-indoor 1+1 hot-standby, all-indoor 1+1 space-diversity"],
  ])("%s is asked back", (written, choices) => {
    const message = problem(written);
    expect(message).toContain("can mean several things");
    if (choices !== undefined) expect(message).toContain(`write one of: ${choices}`);
  });
  test("a word of its own is taken", () => {
    for (const written of ["1+0", "2+0 xpic", "1+1 hot-standby", "all-indoor 3+1"])
      expect(problem(written)).toBeUndefined();
  });
});
