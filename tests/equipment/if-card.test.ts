/** An IF card against its unit and against the card of the far end; a unit's port against what the unit sends. */
import { describe, expect, test } from "vitest";
import { equipped } from "../../shared/rules/equipment/example-equipment.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { judgeExample } from "../rules/example-design.js";

function told(rule: string, text: string): string[] {
  const { problems, findings } = judgeExample(text);
  expect(problems).toEqual([]);
  return findings
    .filter((one) => one.rule === rule)
    .map(({ severity, message }) => `${severity}: ${message}`);
}

const MODES = "modes 55 MHz QPSK to 128QAM";
const MODE = "mode 55 MHz 128QAM";
/** The preamble's objective asks 300 Mbit/s: 128QAM of 310 Mbit/s is judged. */
const card = (facts: string, { mode = MODE, radio = "", asks = true } = {}) => {
  const text = equipped(
    "chassis BOX {\n  slot 2 WAVE\n}",
    { hop: `polarization vertical\n  radio RX\n  ${mode}\n  arrangement 1+0` },
    `chassis BOX { slot 1 to 2 traffic; controller built-in }\ncard WAVE { kind if; ports 1 IF; ${facts} }\nradio RX like R18 { ${radio} }\nobjective any { availability 99.9 % }`,
  );
  return asks ? text : text.replace("objective trunk", "objective any");
};
const unit = (...given: Parameters<typeof card>) => told("if-card-unit", card(...given));

describe("an IF card drives its unit", () => {
  test("nothing stated, nothing judged", () => {
    expect(unit("")).toEqual([]);
    expect(unit("", { radio: "generation G3" })).toEqual([]);
    expect(unit("drives G2")).toEqual([]);
  });

  test("generation: one of those that the card names", () => {
    expect(unit("drives G2; drives G3", { radio: "generation G3" })).toEqual([]);
    expect(unit("drives G2; drives G3", { radio: "generation G4" })).toEqual([
      "error: WAVE in slot 2 at MOSS: it drives G2, G3, RX is G4",
    ]);
  });

  test("channel width: within a stretch, its edges included, or one of several", () => {
    for (const widths of [
      "channel-width 55 MHz",
      "channel-width 7 MHz to 55 MHz",
      "channel-width 55 MHz to 112 MHz",
    ])
      expect(unit(widths), widths).toEqual([]);
    expect(unit("channel-width 28 MHz; channel-width 55 MHz")).toEqual([]);
    expect(unit("channel-width 7 MHz to 54 MHz; channel-width 56 MHz")).toEqual([
      "error: WAVE in slot 2 at MOSS: it works in 7 MHz to 54 MHz, 56 MHz, the hop in 55 MHz",
    ]);
  });

  test("modulation and capacity: the judged mode must be within, a higher one in use should", () => {
    expect(unit("highest-modulation 128QAM; capacity 310 Mbit/s")).toEqual([]);
    expect(unit("highest-modulation 64QAM; capacity 309 Mbit/s")).toEqual([
      "error: WAVE in slot 2 at MOSS: 64QAM is its highest modulation, the hop uses 128QAM; a port carries 309 Mbit/s, 128QAM makes 310 Mbit/s",
    ]);
    // Without a capacity asked the lowest mode is judged: the card takes it.
    expect(unit("highest-modulation 64QAM", { mode: MODES, asks: false })).toEqual([
      "warning: WAVE in slot 2 at MOSS: 64QAM is its highest modulation, the hop uses 128QAM",
    ]);
    expect(unit("highest-modulation 64QAM", { mode: MODES })[0]).toMatch(/^error/);
    expect(unit("highest-modulation 128QAM", { mode: MODES })).toEqual([]);
    // A name that tells no number of points is not held against another.
    expect(unit("highest-modulation TOP")).toEqual([]);
  });
});

describe("the IF cards of both ends", () => {
  const hop = (near: string, far: string) => {
    const text = equipped("chassis BOX {\n  slot 1 WAVE\n}", {}, "");
    return told(
      "if-cards-differ",
      `chassis BOX { slot 1 to 2 traffic; controller built-in }
card WAVE { kind if; ports 1 IF; ${near} }
card GUST { kind if; ports 1 IF; ${far} }
site FELL {
  at 47.55 -30.4
  structure mast 60 m
  chassis BOX { slot 1 GUST }
}
${text.replaceAll("TARN", "FELL")}`,
    );
  };

  test("share packets or TDM, where both state it", () => {
    const kinds = ["packet", "tdm", "both"];
    for (const near of kinds)
      for (const far of kinds) {
        const apart = near !== far && near !== "both" && far !== "both";
        expect(hop(`carries ${near}`, `carries ${far}`).length, `${near} ${far}`).toBe(apart ? 1 : 0);
      }
    expect(hop("carries packet", "")).toEqual([]);
    expect(hop("carries packet", "carries tdm")).toEqual([
      "error: the IF cards of MOSS-FELL share no traffic: WAVE at MOSS carries packets, GUST at FELL carries TDM",
    ]);
  });

  test("one that could do more is a remark", () => {
    expect(hop("highest-modulation 1024QAM", "highest-modulation QAM1024")).toEqual([]);
    expect(hop("highest-modulation 1024QAM", "highest-modulation 256QAM")).toEqual([
      "info: MOSS-FELL goes no higher than 256QAM, the highest of GUST at one end; WAVE at the other could 1024QAM",
    ]);
  });
});

describe("the port of an all-outdoor unit", () => {
  const port = (
    facts: string,
    { mode = MODE, arrangement = "all-outdoor 1+0", built = "all-outdoor", asks = true } = {},
  ) => {
    const text = `radio RO like R18 { construction ${built}; ${facts}; mode 55 MHz QPSK rate 99 Mbit/s; mode 55 MHz 16QAM rate 100 Mbit/s; mode 55 MHz 128QAM rate 310 Mbit/s }
objective any { availability 99.9 % }
${exampleHop({ hop: `polarization vertical\n  radio RO\n  ${mode}\n  arrangement ${arrangement}` })}`;
    return told("unit-port-slow", asks ? text : text.replace("objective trunk", "objective any"));
  };

  test("takes what the judged mode makes, to the bit", () => {
    expect(port("port FE", { mode: "mode 55 MHz 16QAM" })).toEqual([]);
    expect(port("port FE")).toEqual(["error: the FE port of RO carries 100 Mbit/s, 128QAM makes 310 Mbit/s"]);
    expect(port("port GE")).toEqual([]);
  });

  test("a higher mode in use that it does not take is a warning", () => {
    expect(port("port FE", { mode: MODES, asks: false })).toEqual([
      "warning: the FE port of RO carries 100 Mbit/s, 128QAM makes 310 Mbit/s",
    ]);
    expect(port("port FE", { mode: MODES })[0]).toMatch(/^error/);
  });

  test("a port that is no Ethernet, none at all, or a unit with an indoor side is not judged", () => {
    expect(port("port E1-75")).toEqual([]);
    expect(port("draws 40 W")).toEqual([]);
    expect(port("port FE", { arrangement: "1+0", built: "split-mount" })).toEqual([]);
  });
});
