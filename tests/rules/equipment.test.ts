/** Cases of the rules about equipment beyond their own examples: what is told, where, and what passes. */
import { describe, expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { EXAMPLE_ENTRIES, equipped, HOT_STANDBY } from "../../shared/rules/equipment/example-equipment.js";
import { EQUIPMENT_HOP_RULES, EQUIPMENT_NETWORK_RULES } from "../../shared/rules/equipment/index.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { judgeExample } from "./example-design.js";

const OWN = new Set(
  [...EQUIPMENT_HOP_RULES, ...EQUIPMENT_NETWORK_RULES].map(({ id }) => id).concat("standby-margin"),
);

/** Findings of the rules about equipment: `rule: message`. */
function found(text: string): string[] {
  const { problems, findings } = judgeExample(text);
  expect(problems).toEqual([]);
  // Told wherever a port, or fans and power, or the chassis of the other end are not stated.
  const usual = ["ports-proposed", "chassis-needs", "chassis-unstated"];
  const told = findings.filter(({ rule }) => OWN.has(rule) && !usual.includes(rule));
  return told.map(({ rule, message }) => `${rule}: ${message}`);
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
          "chassis HEDGE {\n  slot 15 MIST\n  slot 13 FERN\n  slot 6 FERN\n  slot 1 HEATH\n  slot 3 MIST\n  slot 3 FERN\n}",
        ),
      ),
    ).toEqual([
      "slot-wrong-kind: there is no slot 15 in HEDGE at MOSS; MIST goes into a traffic slot",
      "slot-wrong-kind: slot 13 is a fan slot in HEDGE at MOSS; FERN goes into a traffic slot",
      "slot-wrong-kind: slot 6 is a power slot in HEDGE at MOSS; FERN goes into a traffic slot",
      "slot-doubled: slot 3 of HEDGE at MOSS has MIST already; FERN does not count",
    ]);
  });

  test("a controller that is built in counts as one; a second is another card, or another chassis", () => {
    const own = "chassis THICKET { controller built-in; slot 1 controller; slot 2 to 4 traffic }\n";
    const at = (chassis: string, lines: string) =>
      found(own + equipped(`chassis ${chassis} {\n${lines}\n  card MIST\n}`));
    expect(at("COPSE", "")).toEqual([]);
    expect(at("COPSE", "  protect controller")).toEqual([
      "controller-protection: COPSE at MOSS has one controller, built in, protection asks for two",
    ]);
    expect(at("THICKET", "  protect controller\n  card HEATH")).toEqual([]);
    expect(at("SPINNEY", "  protect controller\n  card HEATH")).toEqual([
      "controller-protection: SPINNEY at MOSS has one controller, protection asks for two",
    ]);
    expect(at("HEDGE", "  protect controller\n  card HEATH 2")).toEqual([]);
  });

  test("two chassis are told apart by their names", () => {
    const text = equipped(
      "chassis HEDGE as A {\n  slot 1 HEATH\n  slot 3 MIST\n}\nchassis SPINNEY as B {\n  slot 5 MIST\n}",
    );
    expect(found(text)).toEqual(["controller-protection: SPINNEY B at MOSS has no controller, it needs one"]);
  });
});

describe("IF ports", () => {
  test("short by one, told at the hop that lacks it and excused there", () => {
    const short = equipped("chassis COPSE {\n  slot 3 MIST\n}", HOT_STANDBY);
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
    const claims = exampleHop({ keld: "antenna DISH60-18 at 40 m\n    transmits high\n    if-port 6 / 2" });
    const second = claims.replaceAll("TARN", "FELL").replace("at 40 m", "at 45 m").replaceAll("KELD", "MOSS");
    const text = `site FELL {\n  at 47.4 -30.4\n}\n\n${equipped(
      "chassis SPINNEY {\n  slot 11 HEATH\n  slot 6 DRIZZLE\n}",
      {
        keld: "antenna DISH60-18 at 40 m\n    transmits high\n    if-port 6 / 2",
      },
    )}\n\n${second}`;
    expect(found(text)).toEqual([
      "if-port-claim: port 2 of the card in slot 6 is taken at MOSS; MOSS-FELL has it",
    ]);
  });

  test("XPIC: neighbours that pair, neighbours that do not, cards apart, cards without it", () => {
    const cards = "card MIST-LIGHT { kind if; ports 1 IF; xpic yes; draws 12 W }\n";
    const at = (lines: string) =>
      found(cards + DUAL + equipped(`chassis HEDGE {\n  slot 1 HEATH\n${lines}\n}`, xpic()));
    expect(at("  slot 3 MIST-LINK\n  slot 4 MIST-LINK")).toEqual([]);
    expect(at("  slot 3 MIST-LINK\n  slot 5 MIST-LINK")[0]).toContain("slots 3 and 5 are not neighbours");
    // Traffic slots on both sides of the power feeds.
    expect(at("  slot 5 MIST-LINK\n  slot 8 MIST-LINK")[0]).toContain("slots 5 and 8 are not neighbours");
    expect(at("  slot 3 MIST-LIGHT\n  slot 4 MIST-LIGHT")[0]).toMatch(
      /they are on two cards, in slots \d and \d, that do not pair/,
    );
    expect(at("  slot 3 MIST\n  slot 4 MIST")[0]).toContain("MIST has no XPIC");
    expect(at("  slot 3 SQUALL")).toEqual([]);
  });

  test("four units of two XPIC pairs meet both wishes on two cards", () => {
    const catalogue =
      "coupler D18 { kind dual-polarized; main-loss 2 dB; standby-loss 6.8 dB }\n\ncard TWIN { kind if; ports 2 IF; xpic yes; draws 20 W }\n\n";
    const four = xpic("1+1 xpic four-units", "D18");
    expect(
      found(catalogue + DUAL + equipped("chassis SPINNEY {\n  slot 11 HEATH\n  card TWIN 2\n}", four)),
    ).toEqual([]);
    expect(
      found(catalogue + DUAL + equipped("chassis SPINNEY {\n  slot 11 HEATH\n  card TWIN\n}", four))[0],
    ).toContain("lacks 2 of 4 IF ports");
  });
});

describe("traffic ports and alarms", () => {
  const services = (lines: string, cards: string) =>
    found(equipped(`${lines}\nchassis HEDGE {\n  slot 12 HEATH\n  slot 8 MIST\n${cards}\n}`));

  test("a faster Ethernet port serves a slower one, never the other way", () => {
    // 1 of 10 Gbit/s and 3 of 2.5 Gbit/s, 7 of 1 Gbit/s and 3 of 100 Mbit/s.
    const at = (lines: string, card: string) =>
      found(equipped(`${lines}\nchassis COPSE {\n  slot 4 MIST\n  slot 2 ${card}\n}`));
    expect(at('service "a" 4 FE', "BRAMBLE")).toEqual([]);
    expect(at('service "a" 5 FE', "BRAMBLE")).toEqual([
      "traffic-ports-short: MOSS lacks 1 of 5 FE ports; there are 0",
    ]);
    expect(at('service "a" 2 10GE', "BRAMBLE")).toEqual([
      "traffic-ports-short: MOSS lacks 1 of 2 10GE ports; there are 1",
    ]);
    expect(at('service "a" 1 10GE\nservice "b" 3 2.5GE', "BRAMBLE")).toEqual([]);
    expect(at('service "a" 1 10GE\nservice "b" 4 2.5GE', "BRAMBLE")).toEqual([
      "traffic-ports-short: MOSS lacks 1 of 4 2.5GE ports; there are 3",
    ]);
    expect(at('service "a" 10 FE', "FERN")).toEqual([]);
    expect(at('service "a" 7 GE\nservice "b" 3 FE', "FERN")).toEqual([]);
    expect(at('service "a" 8 GE', "FERN")).toEqual([
      "traffic-ports-short: MOSS lacks 1 of 8 GE ports; there are 7",
    ]);
  });

  test("75 ohm is not 120 ohm", () => {
    const short = (wanted: string, card: string) =>
      judgeExample(
        equipped(
          `service "a" ${wanted}\nchassis SPINNEY {\n  slot 11 HEATH\n  slot 8 MIST\n  slot 5 ${card}\n}`,
        ),
      ).findings.find(({ rule }) => rule === "traffic-ports-short");
    expect(short("4 E1-120", "CLOVER")).toMatchObject({
      message: "MOSS lacks 4 of 4 E1-120 ports; there are 0",
      help: "Ports of 75 ohm do not serve 120 ohm: take cards with E1 of 120 ohm, hand over at 75 ohm, or state a `balun` panel.",
    });
    expect(short("4 E1-75", "THISTLE")).toMatchObject({
      message: "MOSS lacks 4 of 4 E1-75 ports; there are 0",
      help: "Ports of 120 ohm do not serve 75 ohm: take cards with E1 of 75 ohm, hand over at 120 ohm, or state a `balun` panel.",
    });
    expect([short("10 E1-75", "CLOVER"), short("24 E1-120", "THISTLE"), short("9 E1-75", "IVY")]).toEqual(
      Array(3).fill(undefined),
    );
    expect([short("12 E1-120", "GALE"), short("1 STM-1-optical", "GALE")]).toEqual([undefined, undefined]);
    expect(short("10 E1-75", "IVY")?.message).toBe("MOSS lacks 1 of 10 E1-75 ports; there are 9");
    expect(short("2 STM-1-optical", "GALE")?.message).toBe(
      "MOSS lacks 1 of 2 STM-1-optical ports; there are 1",
    );
  });

  test("order wire, data and contacts are counted like any port", () => {
    expect(services('service "voice" 1 order-wire\nservice "meter" 3 data', "  slot 3 DEW")).toEqual([]);
    expect(services('service "voice" 2 order-wire\nservice "meter" 4 data', "  slot 3 DEW")).toEqual([
      "traffic-ports-short: MOSS lacks 1 of 2 order-wire ports; there are 1",
      "traffic-ports-short: MOSS lacks 1 of 4 data ports; there are 3",
    ]);
    expect(services('service "lamps" 3 alarm-out', "  slot 3 LICHEN")).toEqual([]);
    expect(services('service "lamps" 4 alarm-out', "  slot 3 LICHEN")).toEqual([
      "traffic-ports-short: MOSS lacks 1 of 4 alarm-out ports; there are 3",
    ]);
  });

  test("ports of the chassis itself count with those of its cards", () => {
    const own =
      "chassis THICKET { height 1 U; slot 1 to 3 traffic; ports 1 sync; ports 2 alarm-in; ports 2 GE }\n";
    const at = (lines: string) =>
      found(own + equipped(`${lines}\nchassis THICKET {\n  slot 1 MIST\n  slot 2 LICHEN\n}`));
    expect(at('service "clock" 1 sync\nservice "a" 2 GE\nalarm 14 "door"')).toEqual([]);
    expect(at('service "clock" 2 sync\nservice "a" 3 GE\nalarm 15 "door"')).toEqual([
      "traffic-ports-short: MOSS lacks 1 of 2 sync ports; there are 1",
      "traffic-ports-short: MOSS lacks 1 of 3 GE ports; there are 2",
      'alarm-input: there is no alarm input 15 at MOSS for "door": there are 14',
    ]);
  });

  test("TDM over packet asks for a clock port, on a card or of the chassis", () => {
    const own = "chassis THICKET { height 1 U; slot 1 to 3 traffic; ports 1 sync }\n";
    const at = (lines: string) => found(own + equipped(lines));
    expect(at("chassis COPSE {\n  slot 2 MIST\n  slot 3 IVY\n}")).toEqual([
      "emulation-clock: IVY in slot 3 at MOSS carries TDM over packet; no part of the site has a clock port",
    ]);
    expect(at("chassis SPINNEY {\n  slot 11 HEATH\n  slot 5 MIST\n  slot 6 IVY\n}")).toEqual([]);
    expect(at("chassis THICKET {\n  slot 1 MIST\n  slot 2 IVY\n}")).toEqual([]);
    // What carries TDM as it is brings its clock with it.
    expect(at("chassis COPSE {\n  slot 2 MIST\n  slot 3 CLOVER\n}")).toEqual([]);
  });

  test("a dual-band pair needs a card that aggregates, with a port as fast as the high band", () => {
    const rule = RULES.get("aggregation-missing")!;
    const of = (text: string) => found(text).filter((one) => one.startsWith("aggregation-missing"));
    expect(of(rule.bad)).toEqual([
      "aggregation-missing: MOSS-TARN and MOSS-TARN-80 become one at MOSS, but no card there aggregates two bands",
    ]);
    expect(of(rule.good)).toEqual([]);
    const at = (mbps: number, card: string) =>
      of(
        `radio R80 { tuning 71 GHz to 86 GHz; mode 1000 MHz 64QAM rate ${mbps} Mbit/s power 10 dBm threshold -50 dBm }
card SMALL { kind aggregation; ports 4 GE }
${rule.good.replace("slot 3 BRAMBLE", `slot 3 ${card}`).replace("arrangement dual-band high", "radio R80\n  mode 1000 MHz 64QAM\n  arrangement dual-band high")}`,
      );
    expect(at(1000, "SMALL")).toEqual([]);
    expect(at(1001, "SMALL")).toEqual([
      "aggregation-missing: MOSS-TARN and MOSS-TARN-80 become one at MOSS, but the fastest port that aggregates carries 1000 Mbit/s of 1001 Mbit/s",
    ]);
    expect(at(10_000, "BRAMBLE")).toEqual([]);
    expect(at(10_001, "BRAMBLE")).toHaveLength(1);
  });

  test("an alarm input beyond the cards, and one used twice", () => {
    expect(services('alarm 1 "door"\nalarm 1 "mains"\nalarm 13 "tank"', "  slot 3 LICHEN")).toEqual([
      'alarm-input: alarm input 1 at MOSS serves "door" already',
      'alarm-input: there is no alarm input 13 at MOSS for "tank": there are 12',
    ]);
    expect(services('alarm 13 "tank"', "  slot 3 LICHEN\n  slot 4 LICHEN")).toEqual([]);
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
  const row = (one: string, other: string) =>
    `rack 4 U\nchassis ${one} as A row 1 {\n  card MIST\n}\nchassis ${other} as B row 1`;
  const reversed = EXAMPLE_ENTRIES.join("\n")
    .replace("air front-to-back", "air back-to-front")
    .replace("COPSE", "THICKET");
  const told = (text: string) => found(text).filter((one) => !one.startsWith("controller-protection"));
  expect(told(equipped(row("SPINNEY", "SPINNEY")))).toEqual([
    "air-path: SPINNEY B at MOSS takes in the warm air of A beside it in row 1",
  ]);
  expect(told(equipped(row("COPSE", "COPSE")))).toEqual([
    "air-path: COPSE A at MOSS takes in the warm air of B beside it in row 1",
  ]);
  for (const [one, other] of [
    ["HEDGE", "HEDGE"],
    ["COPSE", "SPINNEY"],
    ["SPINNEY", "COPSE"],
    ["HEDGE", "COPSE"],
  ])
    expect(told(equipped(row(one!, other!)))).toEqual([]);
  // HEDGE turned round blows out in front.
  const front = `chassis FRONT { height 3 U; slot 1 to 4 traffic; air front-to-back }\n${reversed}`;
  expect(told(equipped(row("HEDGE", "FRONT"), {}, front))).toEqual([
    "air-path: FRONT B at MOSS takes in the warm air of A beside it in row 1",
  ]);
  expect(told(equipped(row("FRONT", "HEDGE"), {}, front))).toEqual([
    "air-path: FRONT A at MOSS takes in the warm air of B beside it in row 1",
  ]);
  expect(told(equipped(row("SPINNEY", "COPSE").replaceAll(" row 1", "")))).toEqual([
    "rack-full: the chassis at MOSS need 5 U, 4 U are free",
  ]);
});

test("what a sum cannot count is told with it", () => {
  const text = equipped("plant 10 W\nchassis COPSE {\n  slot 3 MIST\n}");
  expect(found(text)).toEqual([
    "plant-power: MOSS draws 27 W, its plant gives 10 W; R18 not counted, the catalogue has no figure",
  ]);
});

test("power over copper: ports with power, and no more than reaches a unit", () => {
  const at = (watts: number, card: string) =>
    found(
      `cable CAT { kind ethernet }
radio R18O like R18 { construction all-outdoor; draws ${watts} W }
card FERN-SMALL { kind ethernet; ports 1 GE powered; draws 9 W }
${equipped(`chassis COPSE {\n  slot 3 ${card}\n}`, {
  hop: "polarization vertical\n  radio R18O\n  mode 55 MHz 128QAM\n  arrangement all-outdoor 1+0",
  keld: "antenna DISH60-18 at 40 m\n    transmits high\n    cable CAT",
})}`,
    );
  expect(at(71.3, "FERN-SMALL")).toEqual([]);
  expect(at(71.4, "FERN-SMALL")[0]).toContain("R18O draws 71.4 W, at most 71.3 W reach it");
  expect(at(45, "FERN")[0]).toContain("0 powered ports are left, it needs 1");
});

test("power over copper: what a card's ports give together", () => {
  // A unit of 45 W is of the type that gives 60 W for 51 W: 45 x 60/51 = 52.9 W over 100 m, half the loss over 50 m.
  const at = (budget: string, length: string, ports = 4, draws = 45) =>
    found(
      `cable CAT { kind ethernet }
radio R18O like R18 { construction all-outdoor; draws ${draws} W }
antenna DISH60-18-VH like DISH60-18 { polarizations dual }
card FERN-WIDE { kind ethernet; ports ${ports} GE powered; ${budget}; draws 9 W }
${equipped("chassis SPINNEY {\n  slot 11 HEATH\n  slot 9 FERN-WIDE\n}", {
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
  // Of 51 W, the most of that type: two take 120 W, neither more nor less.
  expect(at("power-budget 120 W", "100 m", 4, 51)).toEqual([]);
  expect(at("power-budget 119.9 W", "100 m", 4, 51)).toHaveLength(1);
  // A port is for one unit.
  expect(at("weight 1 kg", "100 m", 2)).toEqual([]);
  expect(at("weight 1 kg", "100 m", 1)).toEqual([
    "ethernet-power: MOSS-TARN cannot be fed over copper Ethernet at MOSS: 1 powered port is left, it needs 2",
  ]);
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
