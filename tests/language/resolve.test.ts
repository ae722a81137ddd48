/** Inheritance, defaults, climates and channels: what the text means once names are replaced by things. */
import { describe, expect, it } from "vitest";
import { fixture } from "../support/fixture.js";

const SITES = "site A { at 47 -30 }\nsite B { at 47 -30.1 }\n";

function hop(text: string) {
  return fixture(SITES + text).model.hop("H")?.hop;
}

describe("titles", () => {
  it.each(["", " ", "\t"])("of nothing but blanks are none: what has it is called by its name", (blank) => {
    const { model } = fixture(
      `network "${blank}" { }\nsite A "${blank}" { at 47 -30 }\nsite B "Bent" { at 47 -30.1 }\nradio R "${blank}" { }\nhop H "${blank}" { radio R; A { }; B { } }`,
    );
    const found = model.hop("H")!.hop!;
    expect([
      model.title(),
      found.title,
      found.radio?.title,
      ...found.ends.map(({ site }) => site.title),
    ]).toEqual([undefined, undefined, undefined, undefined, "Bent"]);
  });
});

describe("inheritance", () => {
  it("takes what an entry does not state from those it is like", () => {
    const { model } = fixture(`
template radio BASE { noise-figure 6 dB; overload -20 dBm; mode 28 MHz QPSK; mode 28 MHz 16QAM }
radio R like BASE { overload -18 dBm }
radio S like R { mode 55 MHz QPSK }`);
    expect(model.lookup.radio("R")).toMatchObject({
      noiseFigureDb: 6,
      overloadDbm: -18,
      modes: [{ modulation: "QPSK" }, { modulation: "16QAM" }],
    });
    expect(model.lookup.radio("S")).toMatchObject({
      noiseFigureDb: 6,
      overloadDbm: -18,
      modes: [{ bandwidthHz: 55e6 }],
    });
  });

  it("ends in a loop", () => {
    const { model } = fixture("radio A like B { overload -20 dBm }\nradio B like A { noise-figure 5 dB }");
    expect(model.lookup.radio("A")).toMatchObject({ overloadDbm: -20, noiseFigureDb: 5 });
  });
});

describe("defaults", () => {
  it("hold where a hop, an end or a site says nothing", () => {
    const { model } = fixture(`
defaults hop { polarization vertical; arrangement 2+0 xpic }
defaults end { antenna X at 20 m; power 10 dBm }
defaults site { structure tower 40 m }
antenna X { gain 30 dBi }
antenna Y { gain 40 dBi }
${SITES}
hop H { polarization horizontal; A { antenna Y at 30 m }; B { height 25 m; power 5 dBm } }`);
    const resolved = model.hop("H")?.hop;
    expect(resolved).toMatchObject({
      polarization: "horizontal",
      arrangement: { name: "2+0 xpic" },
      ends: [
        {
          antenna: { name: "Y" },
          antennaHeightM: 30,
          transmitPowerDbm: 10,
          site: { structure: { kind: "tower", heightM: 40 } },
        },
        { antenna: { name: "X" }, antennaHeightM: 25, transmitPowerDbm: 5 },
      ],
    });
  });

  it("give their height to an antenna that states none", () => {
    const { model } = fixture(
      `defaults end { antenna X at 20 m }\nantenna X {}\nantenna Y {}\n${SITES}hop H { A { antenna Y }; B {} }`,
    );
    expect(model.hop("H")?.hop?.ends.map((end) => [end.antenna?.name, end.antennaHeightM])).toEqual([
      ["Y", 20],
      ["X", 20],
    ]);
  });

  it("do not add an adaptive range to a fixed mode", () => {
    const resolved = hop(
      "radio R { mode 28 MHz QPSK rate 40 Mbit/s; mode 28 MHz 16QAM rate 80 Mbit/s }\ndefaults hop { radio R; modes 28 MHz QPSK to 16QAM }\nhop H { mode 28 MHz QPSK; A {}; B {} }",
    );
    expect(resolved?.modes.map((mode) => mode.modulation)).toEqual(["QPSK"]);
  });
});

describe("a hop", () => {
  it("overrides the network's climate fact by fact", () => {
    const resolved = hop(
      'network "N" { climate { rain 30 mm/h; logK -4 } }\nhop H { climate { rain 60 mm/h at 0.1 % }; A {}; B {} }',
    );
    expect(resolved?.climate).toEqual({ rainRateMmPerH: 60, rainTimePercent: 0.1, logK: -4 });
  });

  it("gets each end's frequency from the channel and the end's half", () => {
    // F.595 with 55 MHz channels: the plan's row is from memory; arithmetic 18 700 - 1 000 + 55 x 4 and + 1 010.
    const resolved = hop("hop H { channel F.595 / 55 MHz / 4; A { transmits high }; B { transmits low } }");
    const [a, b] = resolved!.ends;
    expect(a.transmitFrequencyHz! - b.transmitFrequencyHz!).toBe(1_010_000_000);
  });

  it("takes a plain frequency as it is", () => {
    const resolved = hop("hop H { A { transmits 18.5 GHz }; B {} }");
    expect(resolved?.ends[0]).toMatchObject({ transmitFrequencyHz: 18.5e9, transmits: undefined });
  });

  it("counts an obstacle from the end that the text names", () => {
    const resolved = hop("hop H { obstacle 10 m at 1 km from A; obstacle 12 m at 1 km from B; A {}; B {} }");
    // 0.1 degree of longitude at 47 N on WGS84: 7605.9 m (geographiclib).
    expect(resolved?.obstacles.map((obstacle) => Math.round(obstacle.distanceM))).toEqual([1000, 6606]);
  });

  it("takes a survey with the end it counts from and how it was made, and the gaps that the network bridges", () => {
    const survey = (words: string, more = "") => {
      const { surveyFile, surveyReversed, surveySource, bridgeGapsM } = hop(
        `${more}hop H { survey "s.csv"${words}; A {}; B {} }`,
      )!;
      return { file: surveyFile?.split("/").at(-1), surveyReversed, surveySource, bridgeGapsM };
    };
    const none = { surveyReversed: undefined, surveySource: undefined, bridgeGapsM: undefined };
    expect(survey("")).toEqual({ ...none, file: "s.csv" });
    expect(survey(" by map")).toEqual({ ...none, file: "s.csv", surveySource: "map" });
    expect(survey(" from B by field")).toEqual({
      ...none,
      file: "s.csv",
      surveyReversed: true,
      surveySource: "field",
    });
    const bridging = 'network "N" { bridge-gaps 0.2 km }\n';
    expect(survey(" from A", bridging)).toEqual({ ...none, file: "s.csv", bridgeGapsM: 200 });
    // From a site that is no end it is of another path.
    expect(survey(" from C", "site C {}\n")).toEqual({ ...none, file: undefined });
  });

  it("takes ground from the lowest shore to the highest summit", () => {
    for (const groundM of [-500, -430, 8849, 9000])
      expect(hop(`site C { ground ${groundM} m }\nhop H { A {}; C {} }`)?.ends[1].site.groundM).toBe(groundM);
  });

  it("uses a channel plan of the design", () => {
    const resolved = hop(
      "plan P { centre 18 GHz; row 20 MHz go -100 MHz return 50 MHz channels 1 to 4 }\nhop H { channel P / 20 MHz / 2; A { transmits low }; B { transmits high } }",
    );
    expect(resolved?.ends.map((end) => end.transmitFrequencyHz)).toEqual([17.94e9, 18.09e9]);
  });

  it("orders an adaptive range by rate and takes either end of it first", () => {
    const radio =
      "radio R { mode 28 MHz 64QAM rate 120 Mbit/s; mode 28 MHz QPSK rate 40 Mbit/s; mode 28 MHz 16QAM rate 80 Mbit/s; mode 56 MHz QPSK rate 80 Mbit/s }\n";
    for (const range of ["QPSK to 16QAM", "16QAM to QPSK"]) {
      expect(
        hop(`${radio}hop H { radio R; modes 28 MHz ${range}; A {}; B {} }`)?.modes.map(
          (mode) => mode.modulation,
        ),
      ).toEqual(["QPSK", "16QAM"]);
    }
  });
});
