/** Explanations of the equipment: figures worked by hand, and each the one that its rule tells. */
import { describe, expect, test } from "vitest";
import type { Design } from "../../shared/design/design.js";
import type { RssiPoint } from "../../shared/equipment/rssi.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { explainHop } from "../../shared/report/explain.js";
import { explainSite } from "../../shared/report/explain-site.js";
import type { Explanation } from "../../shared/report/explanation.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { EXAMPLE_ENTRIES } from "../../shared/rules/equipment/example-equipment.js";
import { RULES } from "../../shared/rules/index.js";
import { inputShown } from "../../shared/words/inputs.js";
import { shown } from "../../shared/words/message.js";
import { methodShown } from "../../shared/words/methods.js";
import { CASES, CATALOGUE, textOf } from "../equipment/arrangement-cases.js";
import { designOf } from "../equipment/designs.js";
import { notesTold } from "../evaluate/builders.js";
import { exampleGround, judgeExample } from "../rules/example-design.js";

const TEXT = `${EXAMPLE_ENTRIES.join("\n")}
cable COAX-10 { kind coaxial; loss 8 dB/100m at 350 MHz; loop-resistance 5 ohm/km; connector N }
radio R18W like R18 {
  draws 40 W; weight 5 kg; if-limit 25 dB at 350 MHz; least-supply 36 V
  rssi -90 dBm 0.4 V; rssi -50 dBm 1.6 V; rssi -20 dBm 2.8 V
}
antenna DISH60-18-W like DISH60-18 { weight 8 kg; wind-coefficient 1.2 }
coupler H18-W like H18-U { weight 2 kg }
site MOSS {
  at 47.48 -30.48
  structure mast 60 m
  wind 25 m/s over country
  wind-limit 2 kN
  weight-limit 100 kg
  plant 200 W
  battery 100 Ah autonomy 8 h
  cable-run 20 m
  chassis SPINNEY {
    slot 11 HEATH
    slot 4 BREEZE
    slot 5 DRIZZLE
    card DRIZZLE
  }
}
hop MOSS-TARN {
  channel P18 / 55 MHz / 4
  polarization vertical
  radio R18W
  mode 55 MHz 128QAM
  arrangement 1+1 hot-standby
  MOSS { antenna DISH60-18-W at 30 m; coupler H18-W direct; transmits high; cable COAX-10; if-port 5 / 1 }
  TARN { antenna DISH60-18-W at 30 m; coupler H18-W direct; transmits low; cable COAX-10 length 50 m }
}`;

const explainedHop = (design: Design, name = "MOSS-TARN") => {
  const hop = design.hops.get(name)!;
  return explainHop(hop, evaluateHop(hop, exampleGround(hop)), design);
};
const explainedSite = (design: Design, site = "MOSS") => explainSite(site, design)!;

const DESIGN = designOf(TEXT);
const HOP = explainedHop(DESIGN);
const SITE = explainedSite(DESIGN);

const figure = (all: readonly Explanation[], start: string) =>
  all.find((one) => one.figure.startsWith(start)) ?? expect.fail(`no ${start}`);
const step = (one: Explanation, start: string) => one.steps.find(({ name }) => name.startsWith(start))?.value;
const inputs = (one: Explanation) =>
  one.inputs.map((input) => {
    const { name, value, origin, note } = inputShown(input);
    return `${shown(name)} = ${shown(value)} (${shown(origin)}${note ? `, ${shown(note)}` : ""})`;
  });
const standings = (one: Explanation) => one.methods.map((id) => shown(methodShown(id).standing));

describe("at the ends of a hop", () => {
  test("the IF cable: 30 m and 20 m, a tenth and 4 m more are 59 m; 8 dB/100m make 4.72 dB", () => {
    const cable = figure(HOP, "loss of the IF cable at MOSS");
    expect(cable.value).toBe("4.72 dB, the unit equalizes 25 dB");
    expect(inputs(cable)[0]).toMatch(/^length of COAX-10 at MOSS = 59.0 m \(default, estimated: /);
    expect(inputs(cable)).toContain("loss of COAX-10 at 350 MHz = 8 dB/100m (catalogue)");
    expect(notesTold(cable).join()).toMatch(/in no level diagram/);
    const other = figure(HOP, "loss of the IF cable at TARN");
    expect(other.value).toBe("4 dB, the unit equalizes 25 dB");
    expect(inputs(other)[0]).toBe("length of COAX-10 at TARN = 50.0 m (design)");
  });

  test("one point of the catalogue at another frequency is told: 8 dB grow with sqrt(700/350)", () => {
    const one = explainedHop(designOf(TEXT.replace("25 dB at 350 MHz", "25 dB at 700 MHz")));
    const cable = figure(one, "loss of the IF cable at TARN");
    expect(cable.value).toBe("5.66 dB, the unit equalizes 25 dB");
    expect(notesTold(cable).join()).toMatch(/at one frequency only/);
  });

  test("the voltage: 59 m of 5 ohm/km are 0.295 ohm, and 40 W from 40.5 V leave 40.2 V", () => {
    const supply = figure(HOP, "voltage at the unit at MOSS");
    expect(supply.value).toBe("40.2 V, it starts at 36 V");
    expect(step(supply, "resistance")).toBe("0.295 ohm");
    // (40.5 + sqrt(40.5^2 - 4 x 40 x 0.295)) / 2 = 40.2066 V; 40 / 40.2066 A; 0.99486^2 x 0.295 W; 40.5^2 / 1.18 W.
    expect(step(supply, "current")).toBe("0.995 A");
    expect(step(supply, "voltage drop")).toBe("0.29 V");
    expect(step(supply, "lost in the cable")).toBe("0.29 W");
    expect(step(supply, "most the line delivers")).toBe("1390 W");
    expect(inputs(supply).join()).toContain("40.5 V (default, ETSI EN 300 132-2, from memory, unconfirmed)");
  });

  test("a line that cannot deliver says so, with the most that it could", () => {
    const far = explainedHop(designOf(TEXT.replace("length 50 m", "length 5 km")));
    const supply = figure(far, "voltage at the unit at TARN");
    expect(supply.value).toBe("none: the line cannot deliver its power");
    // 40.5^2 / (4 x 25 ohm).
    expect(step(supply, "most the line delivers")).toBe("16.4 W");
  });

  test("a test voltage for every state of the branches, on the straight line between two points", () => {
    const all = HOP.filter((one) => one.figure.startsWith("test voltage at TARN"));
    expect(all).toHaveLength(4);
    for (const one of all) {
      const level = Number(step(one, "received level")!.replace(" dBm", ""));
      const [from, to] = one.inputs as unknown as RssiPoint[];
      expect(from!.levelDbm).toBeLessThanOrEqual(level);
      expect(to!.levelDbm).toBeGreaterThanOrEqual(level);
      // 1.2 V in 40 dB below -50 dBm, 1.2 V in 30 dB above; a level is printed to 0.05 dB.
      const volts = level < -50 ? 0.4 + (1.2 / 40) * (level + 90) : 1.6 + (1.2 / 30) * (level + 50);
      expect(Math.abs(Number(one.value.replace(" V", "")) - volts)).toBeLessThanOrEqual(0.0071);
      expect(notesTold(one).join()).toMatch(/forcing the switch/);
    }
    const loud = explainedHop(designOf(TEXT.replace("rssi -20 dBm 2.8 V", "rssi -49.9 dBm 1.61 V")));
    expect(loud.filter(({ value }) => /outside the radio's curve/.test(value)).length).toBeGreaterThan(0);
  });

  test("copper Ethernet: 45 W over 50 m take half of 60/51", () => {
    const design = designOf(`${EXAMPLE_ENTRIES.join("\n")}
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
}`);
    const port = figure(explainedHop(design), "power over copper Ethernet at MOSS");
    expect(port.value).toBe("49 W from the port of each unit");
    expect(step(port, "lost in the cable")).toBe("3.97 W");
    expect(step(port, "units fed")).toBe("1 of 1");
    expect(standings(port)).toEqual(["from memory, not checked against the standard"]);
    const consumption = figure(explainedSite(design), "consumption of MOSS");
    expect(consumption.value).toBe("76 W");
    expect(step(consumption, "1 unit R18O")).toBe("48.97 W, 3.97 W of each lost in its cable");
  });
});

describe("at a site", () => {
  test("watts: 20 + 15 + 8 + 2 x 18 indoors, 2 x 40.292 outdoors are 159.6 W of the plant's 200 W", () => {
    const all = figure(SITE, "consumption of MOSS");
    expect(all.value).toBe("159.6 W, its plant gives 200 W");
    expect(step(all, "2 units R18W")).toBe("80.58 W = 2 x 40.29 W, 0.29 W of each lost in its cable");
    const sum = all.steps.reduce((total, { value }) => total + Number.parseFloat(value), 0);
    expect(sum).toBeCloseTo(159.58, 1);
    expect(figure(SITE, "consumption through SPINNEY").value).toBe("159.6 W, its supply gives 700 W");
    const heat = figure(SITE, "heat of SPINNEY at MOSS");
    // 3600 x 79 / (1.2 x 1005 x 10).
    expect(heat.value).toBe("79 W, its fan carries away 300 W");
    expect(step(heat, "air, warmed by 10 K")).toBe("23.6 m3/h");
  });

  test("battery: 100 Ah x 48 V x 0.8 x 0.8 = 3072 Wh for 159.6 W are 19.3 h", () => {
    const battery = figure(SITE, "hours on battery at MOSS");
    expect(battery.value).toBe("19.3 h, 8 h are asked");
    expect(battery.steps.map(({ value }) => value)).toEqual(["4800 Wh", "3072 Wh", "159.6 W"]);
    expect(inputs(battery)).toContain("depth of discharge, DoD = 80 % (default, common practice, lead-acid)");
    const stated = designOf(TEXT.replace("autonomy 8 h", "depth 50 % autonomy 8 h"));
    const half = figure(explainedSite(stated), "hours on battery");
    expect(half.value).toBe("12 h, 8 h are asked");
    expect(inputs(half)).toContain("depth of discharge, DoD = 50 % (design)");
  });

  test("wind: 1208.5 N/m2 on 0.283 m2 at 1.2 are 410 N; weight 8 + 2 x 5 + 2 kg", () => {
    const wind = figure(SITE, "wind force on the structure of MOSS");
    expect(wind.value).toBe("0.41 kN, it takes 2 kN");
    expect(step(wind, "wind on DISH60-18-W at 30.0 m")).toBe("410 N = 1208.5 N/m2 x 1.2 x 0.283 m2");
    expect(standings(wind)).toEqual(["from memory, not checked against the standard"]);
    expect(inputs(wind)).toContain("drag coefficient of DISH60-18-W, C = 1.2 (catalogue)");
    expect(notesTold(wind).join(" ")).toMatch(
      /structural engineer.*twist, ice, mounts.*no figure of COAX-10/,
    );
    const weight = figure(SITE, "weight on the structure of MOSS");
    expect(weight.value).toBe("20 kg, it takes 100 kg");
    expect(step(weight, "weight of COAX-10")).toBe("not known, not counted");
    const plain = figure(explainedSite(designOf(TEXT.replace("; wind-coefficient 1.2", ""))), "wind force");
    expect(inputs(plain)).toContain(
      "drag coefficient of DISH60-18-W, C = 1.3 (default, common practice, from memory)",
    );
  });

  test("slots and ports: what is stated, what is drawn, what is left over", () => {
    const slots = figure(SITE, "slots of SPINNEY at MOSS");
    expect(slots.value).toBe("4 of 11 taken");
    expect(step(slots, "slot 11")).toBe("HEATH, stated");
    expect(
      slots.steps.filter(({ value }) => /^DRIZZLE, left open: the first free traffic slot/.test(value)),
    ).toHaveLength(1);
    const ports = figure(SITE, "IF ports at MOSS");
    expect(ports.value).toBe("2 of 6 serve units, 2 are needed");
    expect(ports.steps.map(({ value }) => value.split(", ").at(-1)).sort()).toEqual(["proposed", "stated"]);
    expect(step(figure(SITE, "ports of MOSS"), "ports IF")).toBe("2 of 6 used");
    const full = explainedSite(designOf(TEXT.replace("card DRIZZLE\n", "card DRIZZLE 7\n")));
    expect(step(figure(full, "slots of SPINNEY"), "no slot for DRIZZLE")).toBe(
      "2, no free traffic slot is left",
    );
  });

  test("a site without equipment tells what hangs and is drawn there; one without a hop nothing", () => {
    const bare = explainedSite(DESIGN, "TARN");
    expect(bare.map((one) => one.figure)).toEqual(["consumption of TARN", "weight on the structure of TARN"]);
    expect(step(bare[0]!, "2 units R18W of MOSS-TARN, by no chassis")).toMatch(
      // 0.25 ohm at 40 W: 0.9938^2 x 0.25 = 0.247 W in each.
      /^80.49 W = 2 x 40.25 W/,
    );
    expect(explainSite("KELD", DESIGN)).toBeUndefined();
    expect(explainSite("NOWHERE", DESIGN)).toBeUndefined();
  });
});

/** Rules and the figure with the numbers that their message holds. */
const JUDGED = {
  "cable-too-long": "loss of the IF cable",
  "plant-power": "consumption of",
  "chassis-power": "consumption through",
  "chassis-heat": "heat of",
  "battery-autonomy": "hours on battery",
  "structure-overload": "wind force",
} as const;

test.each(Object.entries(JUDGED))("%s tells the figures that are explained", (id, start) => {
  const { bad } = RULES.get(id)!;
  const message = judgeExample(bad).findings.find(({ rule }) => rule === id)!.message;
  const design = designOf(bad);
  const hop = [...design.hops.keys()][0]!;
  const all = [
    ...explainedHop(design, hop),
    ...[...design.sites.keys()].flatMap((site) => explainSite(site, design) ?? []),
  ];
  const one = all.filter(({ figure: name, value }) => name.startsWith(start) && /,/.test(value));
  const told = (value: string) => (value.match(/\d+(?:\.\d+)?(?= (?:W|dB|h|kN)\b)/g) ?? []).map(Number);
  // Each number of the explanation's value, to the digits of the message.
  const [found, asked] = told(one.map(({ value }) => value).find((value) => told(value).length === 2)!);
  const numbers = told(message);
  for (const value of [found!, asked!])
    expect(
      numbers.some((number) => Math.abs(number - value) <= 0.5 && number > 0),
      `${message}: ${value}`,
    ).toBe(true);
});

test("every arrangement whose radio has a curve tells the test voltage on its page and in its explanation", () => {
  const curve = "rssi -95 dBm 0.2 V; rssi -15 dBm 3 V";
  for (const one of CASES) {
    const text = textOf(one)
      .replace(CATALOGUE, `${CATALOGUE}\n`)
      .replaceAll(/radio (R18[A-Z]?) like R18 \{/g, `radio $1 like R18 { ${curve};`);
    const design = designOf(
      `${text.replaceAll(/radio R18\n/g, "radio R18C\n")}\nradio R18C like R18 { ${curve} }`,
    );
    const hop = design.hops.get("KELD-TARN")!;
    const result = evaluateHop(hop, exampleGround(hop));
    const page = printMarkdown(
      hopPage({ hop, result, around: design, findings: [], name: "hop", colophon: "" }),
    )[0]!.text;
    const told = explainHop(hop, result, design).filter((each) => each.figure.startsWith("test voltage"));
    const paths = result.directions.reduce((sum, direction) => sum + (direction.paths?.length ?? 1), 0);
    expect(told, one.arrangement).toHaveLength(paths);
    for (const { value } of told) {
      expect(value).toMatch(/^\d\.\d\d V$/);
      expect(page, one.arrangement).toContain(value);
    }
    expect(page).toMatch(/Test voltage/);
  }
  expect(CASES.length).toBeGreaterThan(10);
  expect(ARRANGEMENTS.length).toBeGreaterThan(CASES.length);
});
