import { describe, expect, test } from "vitest";
import { hoverAt } from "../../../language/editor/hover.js";
import { fromBase, inOtherUnits } from "../../../language/editor/other-units.js";
import { decimalText, positionText } from "../../../language/editor/position-text.js";
import { PROPERTIES } from "../../../language/schema/index.js";
import { parsePosition } from "../../../shared/geodesy/coordinates.js";
import { type Dimension, UNITS } from "../../../shared/units/units.js";
import { fixture } from "../../support/fixture.js";
import { HOP, judge, PREAMBLE } from "./judged.js";

function hover(source: string) {
  const { model, file, offset } = fixture(source);
  const { results } = judge(model);
  const found = hoverAt(model, file, offset, results);
  return found && { ...found, on: model.file(file)!.text.slice(found.start, found.end) };
}

function text(source: string): string {
  return hover(source)?.markdown ?? "";
}

/** The hop over the preamble, with a caret at a word of it. */
const inHop = (before: string, after = before.replace(/(\w)(?=\w*$)/, "$1")) =>
  `${PREAMBLE}\n${HOP.replace(before, after)}`;
const caret = (word: string) => inHop(word, `${word.slice(0, 1)}$0${word.slice(1)}`);

describe("on a property", () => {
  test("meaning, limits, what holds without it, source and an example", () => {
    const found = hover("hop H { A { po$0wer 18 dBm } }");
    expect(found?.on).toBe("power");
    for (const part of [
      "Transmit power of this end",
      "-40 dBm to 44 dBm",
      "the mode's power",
      "common practice",
      "power 18 dBm",
    ]) {
      expect(found?.markdown).toContain(part);
    }
  });

  test("every property has one", () => {
    for (const { name, meaning } of PROPERTIES) expect(meaning, name).not.toBe("");
  });

  test("on a label: its argument", () => {
    expect(text(caret("at 40 m"))).toContain("Height of its centre above ground");
  });
});

describe("on a value", () => {
  test("in the other units of its dimension", () => {
    // 24 m / 0.3048 m = 78.7402 ft
    expect(text("site A { ground 2$04 m }")).toContain("**24 m** = 78.7402 ft\n");
  });

  test("a frequency with its wavelength, a width without", () => {
    // 299792458 / 18.7e9 = 16.03 mm
    expect(text("plan P { centre 1$08.7 GHz }")).toContain("wavelength 16.03 mm");
    expect(text("radio R { mode 5$05 MHz QPSK }")).not.toContain("wavelength");
  });

  test("an availability as minutes a year", () => {
    // 0.005 % of 525960 min = 26.3 min
    expect(text("objective o { availability 99.9$095 % }")).toContain("26 min a year out");
  });

  test("a position in both notations", () => {
    expect(text(`site A { at 54.$05 -3.25 }`)).toContain(`**54°30'00.0"N 3°15'00.0"W** = 54.5 -3.25`);
  });

  test("a word with its meaning, a phrase as one", () => {
    expect(text("hop H { arrangement 1+1 hot-$0standby }")).toContain(
      "**1+1 hot-standby**: hot standby on one antenna",
    );
  });

  test("a channel number with its frequencies and their status", () => {
    const source =
      "plan P { centre 18.7 GHz\n row 55 MHz go -1000 MHz return 10 MHz channels 1 to 3 }\nhop H { channel P / 55 MHz / 2$0 }";
    expect(text(source)).toContain("low half 17.81 GHz, high half 18.82 GHz");
    expect(text(source)).toContain("stated in the design");
    expect(text(source.replace("/ 2$0", "/ 9$0"))).toContain("no channel 9");
  });

  test("a modulation with the radio's figures", () => {
    expect(text(caret("128QAM"))).toContain("310 Mbit/s, 20.0 dBm, threshold -69.0 dBm");
  });

  test("a rule with its page", () => {
    expect(text('hop H { accept clear$0ance because "x" }')).toContain(
      "The path must clear terrain and obstacles",
    );
  });

  test("a wrong one: what belongs there", () => {
    expect(text("site A { ground 4$0 GHz }")).toContain("Height above sea level");
  });
});

describe("on a name", () => {
  test("a radio: what it is and how many hops use it", () => {
    const found = text(caret("R18"));
    for (const part of [
      "**R18** (radio)",
      "tunes 17.7 GHz to 19.7 GHz",
      "2 modes at 55 MHz",
      "Used by 1 hop.",
    ])
      expect(found).toContain(part);
  });

  test("what an entry takes over, and from which line", () => {
    const source =
      "radio B {\n  overload -20 dBm\n  duplex 1010 MHz\n}\nradio R$0 like B { overload -18 dBm }";
    expect(text(source)).toContain("- `duplex 1010 MHz` from radio B, main.hop line 3");
    expect(text(source)).not.toContain("`overload -20 dBm`");
  });

  test("one that is not declared", () => {
    expect(text("hop H { radio NO$0NE }")).toContain("declares no radio of this name");
  });

  test("a circle of inheritance ends", () => {
    expect(text("radio A like B { }\nradio B$0 like A { overload -1 dBm }")).toContain("**B** (radio)");
  });
});

describe("on a hop", () => {
  const found = text(caret("KELD-TARN"));

  test("its length, both level diagrams, clearance and availability", () => {
    for (const part of [
      "**9.36 km**",
      "**KELD to TARN, ",
      "**TARN to KELD, ",
      "| free space |",
      "| receiver input |",
      "| Asked | Clearance (F1) |",
      "Availability",
      "Worked from",
    ]) {
      expect(found).toContain(part);
    }
  });

  test("the verdict comes first, then findings, the level diagram and the rest", () => {
    const source = `${PREAMBLE}\n${HOP.replace("KELD-TARN", "K$0ELD-TARN").replace("DISH60-18 at 40 m", "DISH60-18 at 90 m")}`;
    const order = [
      "Objective trunk, **",
      "- error",
      "**9.36 km**",
      "| receiver input |",
      "Availability",
      "Clearance (F1)",
      "azimuth",
    ];
    const places = order.map((part) => text(source).indexOf(part));
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(places[0]).toBeGreaterThanOrEqual(0);
  });

  test("levels of the diagram add up row by row", () => {
    const rows = found.split("\n").filter((line) => / dBm \|$/.test(line) && line.split("|").length === 7);
    expect(rows.length).toBeGreaterThan(10);
    let level = Number.NaN;
    for (const row of rows) {
      const [change, now] = row
        .split("|")
        .slice(4, 6)
        .map((cell) => Number(cell.replace(/[^-\d.]/g, "")));
      // Rounded to a tenth, each of the three figures by half of it.
      if (!row.includes("transmitter output"))
        expect(Math.abs(level + change! - now!), row).toBeLessThan(0.16);
      level = now!;
    }
  });

  test("facts from the defaults are told with their line", () => {
    const source = `${PREAMBLE}\ndefaults hop {\n  polarization horizontal\n  arrangement 1+0\n}\n${HOP.replace("KELD-TARN", "K$0ELD-TARN")}`;
    expect(text(source)).toMatch(/- `arrangement 1\+0` from defaults hop, main\.hop line \d+/);
    expect(text(source)).not.toContain("`polarization horizontal`");
  });

  test("an end tells its own defaults before the diagram", () => {
    const source = `${PREAMBLE}\ndefaults end { extra-loss 0.5 dB }\n${HOP.replace("  KELD {", "  KE$0LD {")}`;
    expect(text(source)).toContain("`extra-loss 0.5 dB` from defaults end");
    expect(text(source)).toContain("further loss");
  });

  test("of what is met, missed and open each is told", () => {
    expect(found).toMatch(/Objective trunk, \*\*met\*\*: clearance, .*availability/);
    const open = HOP.replace("KELD-TARN", "K$0ELD-TARN").replace("DISH60-18 at 40 m", "DISH60-18");
    expect(text(`${PREAMBLE}\n${open}`)).toMatch(/Objective trunk, .*\*\*open\*\*: .*clearance/);
  });

  test("one that is not evaluated says so", () => {
    expect(text("hop H$0 { }")).toContain("Not evaluated yet.");
  });

  test("titles cannot break the table or inject markup", () => {
    const source = `${PREAMBLE}\n${HOP.replace('hop KELD-TARN "Keld to Tarn"', 'hop K$0ELD-TARN "a | b <img> [x](y)"')}`;
    expect(text(source)).toContain("a \\| b \\<img\\> \\[x\\](y)");
  });
});

describe("nothing", () => {
  test.each(["site A { } // com$0ment", "site A {\n\n$0\n}", "wib$0ble 4", "$0"])("%s", (source) => {
    expect(hover(source)).toBeUndefined();
  });
});

test("every unit converts back to what it came from", () => {
  for (const dimension of Object.keys(UNITS) as Dimension[]) {
    for (const unit of UNITS[dimension]) {
      for (const value of [0.5, 1, 37])
        expect(fromBase(unit, unit.toBase(value)), unit.symbol).toBeCloseTo(value, 9);
    }
  }
  // 1 W = 30 dBm = 1000 mW
  expect(inOtherUnits(30, "power level", "dBm")).toEqual(["0 dBW", "1 W", "1000 mW"]);
});

test("positions read back as they were written", () => {
  for (const [latitudeDeg, longitudeDeg] of [
    [54.4534, -3.0808],
    [-0.00001, 179.99999],
    [59.9999999, 0],
    [-89.5, -180],
  ] as const) {
    for (const [written, nearDeg] of [
      [positionText({ latitudeDeg, longitudeDeg }), 0.05 / 3600],
      [decimalText({ latitudeDeg, longitudeDeg }), 5e-7],
    ] as const) {
      const parsed = parsePosition(written);
      if (!parsed.ok) throw new Error(`${written}: ${parsed.reason}`);
      expect(Math.abs(parsed.position.latitudeDeg - latitudeDeg), written).toBeLessThanOrEqual(
        nearDeg * 1.001,
      );
      expect(Math.abs(parsed.position.longitudeDeg - longitudeDeg), written).toBeLessThanOrEqual(
        nearDeg * 1.001,
      );
    }
  }
});

describe("on a height", () => {
  const at = (height: string) =>
    text(`${PREAMBLE}\n${HOP.replace("DISH60-18 at 40 m", `DISH60-18 at ${height}`)}`);

  test("what clears there, what would be enough, and how much structure is left", () => {
    const told = at("4$00 m");
    expect(told).toMatch(
      /clears [\d.]+ F1 at [\d.]+ km with k 1\.33, asked 1 F1: met; [\d.]+ m here are enough/,
    );
    expect(told).toContain("mast of 60.0 m: the top is 20.0 m above it");
    expect(at("5$0 m")).toMatch(/asked 1 F1: missed; [\d.]+ m here would be enough/);
    expect(at("7$00 m")).toContain("the top is 10.0 m below it");
  });

  test("the height that is enough is the one that the finding asks for", () => {
    const source = (height: string) =>
      `${PREAMBLE}\n${HOP.replaceAll("DISH60-18 at 40 m", `DISH60-18 at ${height}`)}`;
    const [, least] = /; ([\d.]+) m here would/.exec(text(source("12 m").replace("12 m", "1$02 m")))!;
    const { findings } = judge(fixture(source("12 m")).model);
    expect(findings.find(({ rule }) => rule === "clearance")!.message).toContain(`${least} m`);
  });
});

test("on a site: its hops with azimuths, and the ground they were computed with", () => {
  const told = text(`${PREAMBLE.replace("site KELD", "site K$0ELD")}\n${HOP}`);
  expect(told).toMatch(/ground 200(\.0)? m above sea level/);
  expect(told).toMatch(/KELD-TARN: azimuth 53\.\d° to TARN, 9\.36 km/);
});
