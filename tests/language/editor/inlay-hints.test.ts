import { describe, expect, test } from "vitest";
import { inlayHints } from "../../../language/editor/inlay-hints.js";
import { fixture } from "../../support/fixture.js";
import { HOP, judge, PREAMBLE } from "./judged.js";

/** Every line with hints, the hints behind it. */
function hinted(source: string): string[] {
  const { model, file } = fixture(source);
  const text = model.file(file)!.text;
  const hints = inlayHints(model, file, { start: 0, end: text.length }, judge(model).results);
  const lines = new Map<number, string[]>();
  for (const { offset, text: hint, tooltip } of hints) {
    expect(tooltip).toMatch(/^[A-Z].*\.$/s);
    expect(`${hint} ${tooltip}`).not.toMatch(/NaN|undefined|Infinity/);
    const start = text.lastIndexOf("\n", offset - 1) + 1;
    lines.set(start, [...(lines.get(start) ?? []), hint]);
  }
  return [...lines].map(([start, all]) => `${text.slice(start).split("\n")[0]!.trim()} ⟨${all.join(" | ")}⟩`);
}

describe("figures stand beside what they follow from", () => {
  const lines = hinted(`${PREAMBLE}\n${HOP}`);
  const line = (start: string) => lines.filter((one) => one.startsWith(start));

  test("length, margin and availability on the hop", () => {
    expect(line("hop")).toEqual([expect.stringMatching(/⟨→ 9\.36 km \| margin \d+ dB \| (≥ )?99\.\d+ %⟩$/)]);
  });

  test("frequencies on the channel and the halves: F.595, 55 MHz, channel 4", () => {
    // Rec. ITU-R F.595: f4 = 18700 - 1000 + 4 * 55 MHz = 17920, f4' = 18700 + 10 + 4 * 55 = 18930
    expect(line("channel")).toEqual(["channel F.595 / 55 MHz / 4 ⟨18.93 / 17.92 GHz⟩"]);
    expect(line("transmits")).toEqual(["transmits high ⟨18.93 GHz⟩", "transmits low ⟨17.92 GHz⟩"]);
  });

  test("frequencies on each channel of several carriers", () => {
    // f6 = 17700 + 6 * 55 = 18030, f6' = 18710 + 6 * 55 = 19040
    const two = HOP.replace(
      "  polarization",
      "  channel F.595 / 55 MHz / 6\n  arrangement 2+0 dual-polarization\n  polarization",
    );
    expect(hinted(`${PREAMBLE}\n${two}`).filter((one) => one.startsWith("channel"))).toEqual([
      "channel F.595 / 55 MHz / 4 ⟨18.93 / 17.92 GHz⟩",
      "channel F.595 / 55 MHz / 6 ⟨19.04 / 18.03 GHz⟩",
    ]);
  });

  test("azimuth and received level on the antennas", () => {
    // On the sphere tan(azimuth) = (0.1° cos 47.525°) / 0.05°, 53.5°; the ellipsoid adds less than 0.3°.
    expect(line("antenna DISH60-18 at")[0]).toMatch(/⟨az 53\.[4-8]° \| −\d+\.\d dBm⟩$/);
    expect(line("antenna DISH60-18 at")).toHaveLength(2);
  });

  test("ground from the terrain on the sites", () => {
    expect(line("at 47")).toEqual(["at 47.5 -30.5 ⟨ground 200.0 m⟩", "at 47.55 -30.4 ⟨ground 200.0 m⟩"]);
  });
});

describe("no hint", () => {
  test("where the text says it already", () => {
    const lines = hinted(
      `${PREAMBLE.replace("at 47.5 -30.5", "at 47.5 -30.5\n  ground 200 m")}\n${HOP.replace("transmits high", "transmits 18.93 GHz")}`,
    );
    expect(lines.filter((one) => one.startsWith("transmits"))).toEqual(["transmits low ⟨17.92 GHz⟩"]);
    expect(lines.filter((one) => one.startsWith("at 47.5 "))).toEqual([]);
  });

  test("for a figure that is not known", () => {
    const lines = hinted(`${PREAMBLE}\n${HOP.replace("  radio R18\n", "")}`);
    expect(lines.find((one) => one.startsWith("hop"))).toMatch(/⟨→ 9\.36 km⟩$/);
    expect(lines.find((one) => one.startsWith("antenna DISH60-18 at 40"))).toMatch(/⟨az [\d.]+°⟩$/);
  });

  test("for a hop that cannot be evaluated, or a second one of its name", () => {
    expect(hinted("hop H { }\nsite A { at 1 2 }")).toEqual([]);
    expect(hinted(`${PREAMBLE}\n${HOP}\n${HOP}`).filter((one) => one.startsWith("hop"))).toHaveLength(1);
  });

  test("outside the range asked for", () => {
    const { model, file } = fixture(`${PREAMBLE}\n${HOP}`);
    const text = model.file(file)!.text;
    const start = text.indexOf("  TARN {\n    antenna");
    const hints = inlayHints(model, file, { start, end: text.length }, judge(model).results);
    expect(hints.map(({ kind }) => kind)).toEqual(["azimuth", "level", "frequency"]);
  });

  test("an end without an antenna line carries azimuth and level itself", () => {
    const lines = hinted(
      `${PREAMBLE}\ndefaults end { antenna DISH60-18 at 40 m }\n${HOP.replaceAll("    antenna DISH60-18 at 40 m\n", "")}`,
    );
    expect(lines.find((one) => one.startsWith("KELD { ⟨"))).toMatch(/az .* \| −/);
  });
});
