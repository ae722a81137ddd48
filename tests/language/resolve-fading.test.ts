/** Facts that fading, diversity and protection are computed from: what the text means. */
import { expect, it } from "vitest";
import { fixture } from "../support/fixture.js";

const SITES = "site A { at 47 -30 }\nsite B { at 47 -30.1 }\n";

function hop(text: string) {
  return fixture(SITES + text).model.hop("H")?.hop;
}

it("a radio's signatures and dispersive margins go to the modes they name", () => {
  const { model } = fixture(`
radio R {
  mode 28 MHz QPSK rate 40 Mbit/s
  mode 28 MHz 16QAM rate 80 Mbit/s
  signature 28 MHz 16QAM width 20 MHz depth 18 dB
  dispersive-margin 28 MHz QPSK 55 dB
  signature 28 MHz 64QAM width 30 MHz depth 20 dB delay 5 ns
  xpic-gain 22 dB; hysteresis 2 dB; mtbf 50 y; switch-over 50 ms
}`);
  expect(model.lookup.radio("R")).toMatchObject({
    modes: [
      { modulation: "QPSK", dispersiveMarginDb: 55 },
      { modulation: "16QAM", signature: { widthHz: 20e6, depthDb: 18, referenceDelayNs: 6.3 } },
    ],
    unknownModes: ["28 MHz 64QAM"],
    xpicGainDb: 22,
    hysteresisDb: 2,
    mtbfHours: 50 * 8766,
    switchOverHours: expect.closeTo(0.05 / 3600, 15),
  });
});

it("dN75 is an increase in N-units; the unit of a gradient is read as the same", () => {
  const of = (value: string) =>
    hop(`network "N" { climate { dN75 ${value} } }\nhop H { A {}; B {} }`)?.climate.dN75;
  expect(of("12 N-units")).toBe(12);
  expect(of("12 N/km")).toBe(12);
  expect(of("12 m")).toBeUndefined();
});

it("a hop says which facts of its climate are its own", () => {
  const resolved = hop(
    'network "N" { climate { rain 30 mm/h; logK -4; multipath current } }\nhop H { climate { rain 60 mm/h; rain-height 2.3 km; rain-probability 4 % }; A {}; B {} }',
  );
  expect(resolved?.climate).toMatchObject({
    multipathMethod: "current",
    rainHeightM: 2300,
    rainProbabilityPercent: 4,
  });
  expect(new Set(resolved?.ownClimate)).toEqual(
    new Set(["rainRateMmPerH", "rainTimePercent", "rainHeightM", "rainProbabilityPercent"]),
  );
});

it("surfaces count from the first end, whichever end the text counts from", () => {
  const resolved = hop("hop H { surface water 1 km to 2 km from B at 12 m; A {}; B {} }");
  // 0.1 degrees of longitude at 47 degrees north on WGS84, from a geodesic calculator: 7606.0 m.
  const [surface] = resolved!.surfaces!;
  expect(surface).toMatchObject({ kind: "water", heightM: 12 });
  expect(surface!.fromM).toBeCloseTo(7606.0 - 2000, 0);
  expect(surface!.toM).toBeCloseTo(7606.0 - 1000, 0);
});

it("a second channel gives the distance of the two carriers", () => {
  const resolved = hop(`plan P {
  centre 7.5 GHz
  row 28 MHz go -160 MHz return 0 MHz channels 1 to 5
}
hop H { channel P / 28 MHz / 1; channel P / 28 MHz / 4; channel P / 28 MHz / 2; A {}; B {} }`);
  expect(resolved?.channel).toMatchObject({ number: 1 });
  expect(resolved?.furtherChannels).toMatchObject([
    { number: 4, separationHz: 84e6 },
    { number: 2, separationHz: 28e6 },
  ]);
});

it("what a hop and its ends say of degradation, repair, diversity and measured rain", () => {
  const resolved = hop(`antenna X { gain 40 dBi }
hop H {
  degradation 1 dB
  repair-time 12 h
  polarization slant
  measured-rain 22 dB at 18.7 GHz vertical
  A { diversity-antenna X at 14 m }
  B {}
}`);
  expect(resolved).toMatchObject({
    degradationDb: 1,
    repairHours: 12,
    polarization: "slant",
    measuredRain: { attenuation001Db: 22, frequencyHz: 18.7e9, polarization: "vertical" },
    ends: [{ diversityAntenna: { name: "X" }, diversityHeightM: 14 }, {}],
  });
});

it("objectives of a link and its share of severely errored seconds", () => {
  const resolved = hop(`objective o {
  availability-class long-haul over 180 km propagation 50 %
  quality intermediate over 200 km block-ratio 0.5
}
hop H { objective o; A {}; B {} }`);
  expect(resolved?.objective).toMatchObject({
    availabilityClass: { portion: "long-haul", linkLengthM: 180_000, propagationPercent: 50 },
    quality: { portion: "intermediate", linkLengthM: 200_000, blockRatio: 0.5 },
  });
});

it("maps are folders of the design", () => {
  expect(fixture('network "N" { maps "itu-maps" }').model.design().maps).toEqual(["/design/itu-maps"]);
});

it("k may be written as the trade writes it", () => {
  const { model } = fixture(`network "N" {
  climate {
    k 4/3
  }
  objective O {
    clearance 1 F1 at k 4/3
  }
}`);
  expect([...model.allFiles()].flatMap((file) => model.problemsOf(file.path))).toEqual([]);
  expect(model.lookup.climate().kFactor).toBe(4 / 3);
  expect(model.lookup.objective("O")?.clearance).toEqual([{ fresnelFraction: 1, kFactor: 4 / 3 }]);
});
