/** What a design states of interference, and what of it is refused or told. */
import { describe, expect, test } from "vitest";
import { completionAt } from "../../language/editor/completion.js";
import { renameAt } from "../../language/editor/rename.js";
import { formatText } from "../../language/format/format.js";
import type { Design } from "../../shared/design/design.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { judge, PREAMBLE } from "../language/editor/judged.js";
import { fixture } from "../support/fixture.js";

function read(text: string): { readonly design: Design; readonly problems: readonly string[] } {
  const { model, file } = fixture(text);
  return {
    design: model.design(),
    problems: model.problemsOf(file).map(({ rule, message }) => `${rule}: ${message}`),
  };
}

/** Findings of a rule about a design that the lines follow the example's. */
function told(rule: string, text: string): readonly string[] {
  const { model } = fixture(`${PREAMBLE}\n${text}`);
  return judge(model).findings.flatMap((one) => (one.rule === rule ? one.message : []));
}

const TERMS = `network "N" {
  interference {
    single-entry 1 dB
    aggregate 3 dB
    toward-others -10 dB short-term 10 dB
    long-term 20 %
    short-term 0.01 % degradation 20 dB
    lapse 45 N/km
    N0 325
    sea-below 0 m
    sea-share 30 %
    assumed-noise-figure 5 dB
    search-distance 200 km
    profile-step 100 m
    sum-pattern F.1245
  }
}`;

test("the terms of a network", () => {
  const { design, problems } = read(TERMS);
  expect(problems).toEqual([]);
  expect(design.interference).toEqual({
    singleEntryDegradationDb: 1,
    aggregateDegradationDb: 3,
    towardOthersLongTermDb: -10,
    towardOthersShortTermDb: 10,
    longTermPercent: 20,
    shortTermPercent: 0.01,
    shortTermDegradationDb: 20,
    lapseNPerKm: 45,
    surfaceRefractivity: 325,
    seaBelowM: 0,
    seaSharePercent: 30,
    assumedNoiseFigureDb: 5,
    searchDistanceM: 200_000,
    profileStepM: 100,
    sumPattern: "F.1245",
  });
});

test("nothing stated is nothing there", () => {
  expect(read(`network "N" { }`).design).toMatchObject({
    interference: undefined,
    interferenceAt: undefined,
    others: undefined,
  });
  expect(read(`network "N" { interference { } }`).design.interference).toBeUndefined();
});

test("they are the same object as long as their words are the same", () => {
  const { model } = fixture(TERMS);
  expect(model.design().interference).toBe(model.design().interference);
});

describe("limits, from both sides", () => {
  const problemOf = (line: string) => read(`interference {\n  ${line}\n}`).problems.join();
  test.each([
    ["lapse 0.001 N/km", "lapse 0 N/km", "must be above 0 N/km"],
    ["lapse 156.999 N/km", "lapse 157 N/km", "must be below 157 N/km"],
    ["lapse 45 N/km", "lapse -45 N/km", "fall with height, written positive"],
    ["N0 200", "N0 199", "the least is 200"],
    ["N0 450", "N0 451", "the most is 450"],
    ["short-term 0.001 %", "short-term 0.0009 %", "the least is 0.001 %"],
    ["long-term 50 %", "long-term 51 %", "the most is 50 %"],
    ["profile-step 5 m", "profile-step 4 m", "the least is 5 m"],
    ["sea-share 100 %", "sea-share 101 %", "the most is 100 %"],
    ["single-entry 0.1 dB", "single-entry 0 dB", "must be above 0 dB"],
    ["sum-pattern F.699", "sum-pattern F.1336", "not known here"],
  ])("%s is read, %s is not", (good, bad, reason) => {
    expect(problemOf(good)).toBe("");
    expect(problemOf(bad)).toContain(reason);
  });
});

test("two blocks of terms are one too many", () => {
  expect(read("interference { }\ninterference { }").problems.join()).toContain(
    "a design has one interference",
  );
});

describe("criteria that contradict each other", () => {
  const criteria = (...lines: readonly string[]) =>
    told("interference-criteria", `interference {\n${lines.join("\n")}\n}\n${exampleHop()}`);
  test.each<[good: readonly string[], bad: readonly string[]]>([
    [
      ["single-entry 3 dB", "aggregate 3 dB"],
      ["single-entry 3.01 dB", "aggregate 3 dB"],
    ],
    [
      ["long-term 1 %", "short-term 1 %"],
      ["long-term 1 %", "short-term 1.01 %"],
    ],
    [["long-term 0.01 %"], ["long-term 0.009 %"]],
    [["short-term 20 %"], ["short-term 20.1 %"]],
    [
      ["aggregate 3 dB", "short-term 0.01 % degradation 3 dB"],
      ["aggregate 3 dB", "short-term 0.01 % degradation 2.9 dB"],
    ],
    [["toward-others -10 dB short-term -10 dB"], ["toward-others -10 dB short-term -10.1 dB"]],
  ])("%j agree, %j do not", (good, bad) => {
    expect(criteria(...good)).toEqual([]);
    expect(criteria(...bad)).toHaveLength(1);
  });
});

const RADIO = `radio R {
  power-control 20 dB
  mode 28 MHz QPSK
  mode 55 MHz QPSK
  mode 55 MHz 128QAM
  spectrum {
    roll-off 0.25
    mask 30 MHz 0 dB
    mask 40 MHz 35 dB
  }
  spectrum 55 MHz {
    mask 60 MHz 35 dB
    mask 50 MHz 0 dB
    mask 60 MHz 20 dB
  }
  spectrum 55 MHz 128QAM {
    roll-off 0.15
    selectivity 60 MHz 50 dB
    carrier-to-interference 55 MHz -5 dB -9 dB
    carrier-to-interference 0 MHz 30 dB 26 dB
  }
}`;

test("each mode has what its nearest block states, list by list", () => {
  const { design, problems } = read(`${RADIO}
site A { }
site B { }
hop A-B {
  radio R
  modes 55 MHz QPSK to 128QAM
  A { }
  B { }
}`);
  expect(problems).toEqual([]);
  const radio = design.hops.get("A-B")!.radio!;
  expect(radio.powerControlRangeDb).toBe(20);
  const ofAll = [
    { offsetHz: 30e6, attenuationDb: 0 },
    { offsetHz: 40e6, attenuationDb: 35 },
  ];
  const of55 = [
    { offsetHz: 50e6, attenuationDb: 0 },
    { offsetHz: 60e6, attenuationDb: 20 },
    { offsetHz: 60e6, attenuationDb: 35 },
  ];
  expect(radio.modes.map(({ spectrum }) => spectrum)).toEqual([
    { rollOff: 0.25, transmitMask: ofAll },
    { rollOff: 0.25, transmitMask: of55, outOfOrder: true },
    {
      rollOff: 0.15,
      transmitMask: of55,
      outOfOrder: true,
      selectivity: [{ offsetHz: 60e6, attenuationDb: 50 }],
      carrierToInterference: [
        { offsetHz: 0, for1Db: 30, for3Db: 26 },
        { offsetHz: 55e6, for1Db: -5, for3Db: -9 },
      ],
    },
  ]);
});

test("a radio without a spectrum is what it was", () => {
  const { design } = read(`radio R { mode 28 MHz QPSK }
site A { }
site B { }
hop A-B { radio R; A { }; B { } }`);
  const { radio, ends } = design.hops.get("A-B")!;
  expect(Object.keys(radio!.modes[0]!)).not.toContain("spectrum");
  expect(Object.keys(ends[0])).not.toContain("powerControl");
});

describe("spectra of radios in use", () => {
  const spectrum = (...lines: readonly string[]) =>
    told(
      "spectrum-implausible",
      `radio R18X like R18 {\n  spectrum {\n${lines.join("\n")}\n}\n}\n${exampleHop({
        hop: "polarization vertical\n  radio R18X\n  mode 55 MHz 128QAM",
      })}`,
    );
  test.each<[good: readonly string[], bad: readonly string[], reason: string]>([
    [["mask 30 MHz 20 dB", "mask 40 MHz 20 dB"], ["mask 30 MHz 20 dB", "mask 40 MHz 19.9 dB"], "down at"],
    [
      ["mask 30 MHz 20 dB", "mask 30 MHz 40 dB"],
      ["mask 30 MHz 20 dB", "mask 30 MHz 30 dB", "mask 30 MHz 40 dB"],
      "more than two",
    ],
    [
      ["selectivity 0 MHz 0 dB", "selectivity 10 MHz 1 dB"],
      ["selectivity 10 MHz 1 dB", "selectivity 0 MHz 0 dB"],
      "do not ascend",
    ],
    [
      ["carrier-to-interference 0 MHz 20 dB 20 dB"],
      ["carrier-to-interference 0 MHz 20 dB 20.1 dB"],
      "exchanged",
    ],
    [
      ["carrier-to-interference 0 MHz 20 dB 16 dB", "carrier-to-interference 1 MHz 20 dB 16 dB"],
      ["carrier-to-interference 0 MHz 20 dB 16 dB", "carrier-to-interference 0 MHz 21 dB 16 dB"],
      "stated twice",
    ],
    // A quarter of 55 MHz is 13.75 MHz.
    [["mask 13.7 MHz 6 dB"], ["mask 13.7 MHz 6.1 dB"], "where the signal itself is"],
    [["mask 13.8 MHz 40 dB"], ["selectivity 1 Hz 100 dB"], "where the signal itself is"],
    [["mask 100 MHz 120 dB"], ["mask 100 MHz 120.5 dB"], "is not measured"],
    [
      ["carrier-to-interference 0 MHz 25 dB 20 dB", "carrier-to-interference 55 MHz 25 dB 20 dB"],
      ["carrier-to-interference 0 MHz 25 dB 20 dB", "carrier-to-interference 55 MHz 26 dB 20 dB"],
      "more than nearer",
    ],
    [
      ["carrier-to-interference 0 MHz 70 dB 60 dB"],
      ["carrier-to-interference 0 MHz 71 dB 60 dB"],
      "by no mode",
    ],
    // I/N of 1 dB of degradation is -5.87 dB.
    [
      ["carrier-to-interference 0 MHz 6 dB 3 dB"],
      ["carrier-to-interference 0 MHz 5.8 dB 3 dB"],
      "below the noise",
    ],
    [
      ["carrier-to-interference 55 MHz -20 dB -25 dB"],
      ["carrier-to-interference 55 MHz -100 dB -100 dB"],
      "above 0.0 dBm at the receiver",
    ],
  ])("%j stand, %j are told", (good, bad, reason) => {
    expect(spectrum(...good)).toEqual([]);
    const found = spectrum(...bad);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(reason);
  });

  test("a mask is held against the one that the network states, from both sides of it", () => {
    // At 27.775 MHz (50.5 % of 55 MHz) the law asks 11 + 0.4 0.5 + 10 log 55 = 28.60 dB in 1 MHz below the mean power;
    // spread over 55/1.15 MHz that is 28.60 - 16.80 = 11.81 dB below the density at the centre.
    const told1 = (edgeDb: number, network = "interference { emission-mask 47-CFR-101.111 }") =>
      told(
        "emission-mask",
        `${network}\nradio R18X like R18 {\n  spectrum {\n    mask 20 MHz 0 dB\n    mask 27.775 MHz ${edgeDb} dB\n    mask 40 MHz 45 dB\n    mask 137.5 MHz 60 dB\n  }\n}\n${exampleHop(
          { hop: "polarization vertical\n  radio R18X\n  mode 55 MHz 128QAM" },
        )}`,
      );
    expect(told1(11.82)).toEqual([]);
    expect(told1(11.79).join()).toMatch(
      /28\.\d dB below the mean power at 27\.775 MHz, 47 CFR 101\.111 asks 28\.6 dB/,
    );
    expect(told1(2, "")).toEqual([]);
  });

  test("such a mask is looked at up to 250 % of the channel, that included, and no further", () => {
    // 137.5 MHz are 250 % of 55 MHz, one step of half a percent before it are 137.225 MHz.
    const falling = (good: string, bad: string) =>
      told(
        "emission-mask",
        `interference { emission-mask 47-CFR-101.111 }\nradio R18X like R18 {\n  spectrum {\n    mask 20 MHz 0 dB\n    mask 25 MHz 45 dB\n    mask ${good} 60 dB\n    mask ${bad} 10 dB\n  }\n}\n${exampleHop(
          { hop: "polarization vertical\n  radio R18X\n  mode 55 MHz 128QAM" },
        )}`,
      );
    expect(falling("137.225 MHz", "137.5 MHz").join()).toContain("at 137.5 MHz");
    expect(falling("137.5 MHz", "137.6 MHz")).toEqual([]);
  });

  test("a block that names no mode of its radio is told", () => {
    const found = told(
      "signature-without-mode",
      `radio R18X like R18 {\n  spectrum 28 MHz { roll-off 0.2 }\n}\n${exampleHop({
        hop: "polarization vertical\n  radio R18X\n  mode 55 MHz 128QAM",
      })}`,
    );
    expect(found).toHaveLength(1);
    expect(found[0]).toContain("28 MHz");
  });
});

describe("power control", () => {
  const ends = (radio: string, hop: string, end: string, defaults = "") => {
    const { design, problems } = read(`radio R { ${radio} }
site A { }
site B { }
defaults end { ${defaults} }
hop A-B {
  radio R
  ${hop}
  A { ${end} }
  B { }
}`);
    expect(problems).toEqual([]);
    return design.hops.get("A-B")!.ends.map(({ powerControl }) => powerControl?.reductionDb);
  };
  test.each([
    ["power-control 20 dB", "", "", "", [undefined, undefined]],
    ["power-control 20 dB", "power-control yes", "", "", [20, 20]],
    ["power-control 20 dB", "power-control yes", "power-control no", "", [0, 20]],
    ["power-control 20 dB", "power-control 10 dB", "power-control 5 dB", "power-control 3 dB", [5, 10]],
    ["power-control 20 dB", "", "", "power-control 3 dB", [3, 3]],
    ["", "power-control yes", "", "", [undefined, undefined]],
  ])("radio %j, hop %j, end %j, defaults %j: %j", (radio, hop, end, defaults, reduced) => {
    expect(ends(radio, hop, end, defaults)).toEqual(reduced);
  });

  const warned = (range: string, use: string) =>
    told(
      "power-control-range",
      `radio R18X like R18 {\n  ${range}\n}\n${exampleHop({
        hop: `polarization vertical\n  radio R18X\n  mode 55 MHz 128QAM\n  ${use}`,
      })}`,
    );
  test("up to the range of the radio, which may not be known", () => {
    expect(warned("power-control 20 dB", "power-control 20 dB")).toEqual([]);
    expect(warned("power-control 20 dB", "power-control 20.1 dB")).toHaveLength(1);
    expect(warned("", "power-control 10 dB")).toHaveLength(1);
    expect(warned("", "power-control yes")).toHaveLength(1);
    expect(warned("", "power-control no")).toEqual([]);
  });
});

describe("patterns", () => {
  const antenna = (text: string) => {
    const { design, problems } = read(`${text}
site A { }
site B { }
hop A-B { A { antenna D }; B { } }`);
    return { antenna: design.hops.get("A-B")?.ends[0].antenna, problems };
  };

  test("a file counts from the entry that names it, whoever inherits", () => {
    const { model } = fixture(`
//- shop/antennas.hop
antenna BASE {
  pattern-file "patterns/base.csv"
}
//- main.hop
antenna D like BASE { }
site A { }
site B { }
hop A-B { A { antenna D }; B { } }
`);
    expect(model.design().hops.get("A-B")?.ends[0].antenna?.patternFile).toBe(
      "/design/shop/patterns/base.csv",
    );
  });

  test("a reference pattern is chosen by name, and the one for sums is not one of an antenna", () => {
    expect(antenna("antenna D { reference-pattern F.699 }").antenna?.referencePattern).toBe("F.699");
    expect(antenna("antenna D { reference-pattern F.1245 }").problems.join()).toContain("sum-pattern F.1245");
  });

  test.each([
    ["pattern 0 deg 0 dB", "pattern -1 deg 0 dB", "the least is 0 deg"],
    ["pattern 180 deg 60 dB", "pattern 181 deg 60 dB", "the most is 180 deg"],
    ["pattern 0 deg 0 dB", "pattern 0 deg -1 dB", "the least is 0 dB"],
  ])("%s is read, %s is not", (good, bad, reason) => {
    expect(antenna(`antenna D { ${good} }`).problems).toEqual([]);
    expect(antenna(`antenna D { ${bad} }`).problems.join()).toContain(reason);
  });

  const warned = (...lines: readonly string[]) =>
    told(
      "pattern-implausible",
      `antenna DX like DISH60-18 {\n${lines.join("\n")}\n}\n${exampleHop({ keld: "antenna DX at 40 m" })}`,
    );
  test("a pattern sends out no more than goes in, but for 6 dB", () => {
    const found = (...points: readonly string[]) =>
      warned("gain 38 dBi at 18.7 GHz", ...points.map((point) => `pattern ${point}`)).join();
    expect(found("1 deg 3 dB", "5 deg 25 dB", "90 deg 50 dB", "180 deg 60 dB")).toBe("");
    // It falls back to 0 dB behind.
    expect(found("5 deg 25 dB", "90 deg 60 dB", "180 deg 0 dB")).toMatch(
      /more than goes in, most of it behind/,
    );
    // 38 - 20 = 18 dBi from 1 degree to 90, half of the sphere: 15 dB.
    expect(found("1 deg 20 dB", "90 deg 20 dB")).toMatch(
      /sends out 15\.\d dB more than goes in, most of it ahead/,
    );
    // 38 - 32 = 6 dBi behind alone are 3 dB, and 38 - 28 = 10 dBi 7 dB.
    expect(found("1 deg 10 dB", "3 deg 40 dB", "89 deg 50 dB", "90 deg 32 dB", "180 deg 32 dB")).toBe("");
    expect(found("1 deg 10 dB", "3 deg 40 dB", "89 deg 50 dB", "90 deg 28 dB", "180 deg 28 dB")).toContain(
      "behind",
    );
  });

  test("points ascend, and one pattern counts", () => {
    expect(warned("pattern 0 deg 0 dB cross 30 dB", "pattern 5 deg 25 dB cross 40 dB")).toEqual([]);
    expect(warned("pattern 5 deg 25 dB", "pattern 0 deg 0 dB").join()).toContain("do not ascend");
    expect(warned("pattern 5 deg 25 dB", "pattern 5 deg 25 dB")).toEqual([]);
    expect(warned("pattern 5 deg 25 dB", "pattern 5 deg 26 dB").join()).toContain("two figures");
    expect(warned('pattern-file "x.csv"', "reference-pattern F.699").join()).toContain("a file counts");
  });
});

describe("at a site", () => {
  const SITE = (lines: string) => `${exampleHop()}
site MOSS {
  at 47.48 -30.48
}
hop KELD-MOSS { KELD { antenna DISH60-18 at 30 m }; MOSS { antenna DISH60-18 at 30 m } }
hop TARN-MOSS { TARN { antenna DISH60-18 at 30 m }; MOSS { antenna DISH60-18 at 30 m } }
site QUAY {
  at 47.4 -30.4
  ${lines}
}`;
  test("the coast and coupling losses stand beside the site", () => {
    const { model } = fixture(
      `${PREAMBLE}\n${SITE("coast 3 km")}`.replace(
        "at 47.48 -30.48",
        "coupling-loss KELD-MOSS TARN-MOSS 60 dB",
      ),
    );
    const design = model.design();
    expect(design.interferenceAt).toEqual(
      new Map([
        ["QUAY", { coastM: 3000 }],
        ["MOSS", { coastM: undefined, couplingLosses: [{ hops: ["KELD-MOSS", "TARN-MOSS"], lossDb: 60 }] }],
      ]),
    );
    expect(Object.keys(design.sites.get("QUAY")!)).not.toContain("coastM");
  });

  test("a coupling loss is of two hops of the site", () => {
    const found = (...lines: readonly string[]) =>
      told("coupling-loss-site", SITE("").replace("at 47.48 -30.48", lines.join("\n  ")));
    expect(found("coupling-loss KELD-MOSS TARN-MOSS 60 dB")).toEqual([]);
    expect(found("coupling-loss KELD-MOSS KELD-MOSS 60 dB").join()).toContain("alone");
    expect(found("coupling-loss KELD-MOSS KELD-TARN 60 dB").join()).toContain("does not end here");
    expect(
      found("coupling-loss KELD-MOSS TARN-MOSS 60 dB", "coupling-loss TARN-MOSS KELD-MOSS 70 dB").join(),
    ).toContain("stated twice; 60.0 dB counts");
  });

  test("a coupling loss to others is of a hop that ends there, and one to a hop of a site beside it counts", () => {
    const found = (...lines: readonly string[]) =>
      told("coupling-loss-site", SITE("").replace("at 47.48 -30.48", lines.join("\n  ")));
    expect(found("coupling-loss-others KELD-MOSS 60 dB")).toEqual([]);
    expect(found("coupling-loss-others KELD-TARN 60 dB").join()).toContain("does not end here");
    expect(
      found("coupling-loss-others KELD-MOSS 60 dB", "coupling-loss-others KELD-MOSS 50 dB").join(),
    ).toContain("KELD-MOSS and others is stated twice; 60.0 dB counts");
  });

  test("a hop that nothing bears is told as any name", () => {
    expect(read("site A { coupling-loss X Y 60 dB }").problems).toHaveLength(2);
  });
});

test("a list of others, with its columns and units", () => {
  const { design, problems } = read(`network "N" {
  others "lists/register.csv" {
    epsg 25832
    latitude "lat_deg" minutes "lat_min" seconds "lat_sec" hemisphere "lat_dir"
    frequency "freq" in GHz
    eirp "eirp"
    status "state" stands "A"
  }
  others "other.csv" { }
}`);
  expect(problems).toEqual([]);
  const column = { unit: undefined, minutes: undefined, seconds: undefined, hemisphere: undefined };
  expect(design.others).toEqual([
    {
      at: "others",
      file: "/design/lists/register.csv",
      epsg: 25832,
      stands: "A",
      columns: [
        {
          ...column,
          key: "latitude",
          head: "lat_deg",
          minutes: "lat_min",
          seconds: "lat_sec",
          hemisphere: "lat_dir",
        },
        { ...column, key: "frequency", head: "freq", unit: "GHz" },
        { ...column, key: "eirp", head: "eirp" },
        { ...column, key: "status", head: "state" },
      ],
    },
    { at: "others#1", file: "/design/other.csv", columns: [], epsg: undefined, stands: undefined },
  ]);
});

test("a column of another unit is refused where it is written", () => {
  expect(read(`others "x.csv" { frequency "f" in dBm }`).problems.join()).toContain("GHz");
  expect(read(`others "x.csv" { polarization "p" in dBm }`).problems.join()).not.toBe("");
});

describe("the editor", () => {
  const heads = (path: string) => (path === "/design/r.csv" ? ["lat", "lon", 'f "MHz"'] : undefined);
  const offered = (source: string) => {
    const { model, file, offset } = fixture(source);
    return completionAt(model, file, offset, { heads }).items.map(({ label, insertText }) => [
      label,
      insertText,
    ]);
  };

  test("offers the heads of the file, those that are taken last", () => {
    expect(offered(`network "N" { others "r.csv" {\n latitude "lat"\n longitude "$0"\n} }`)).toEqual([
      ["lon", "lon"],
      ['f "MHz"', 'f \\"MHz\\"'],
      ["lat", "lat"],
    ]);
    expect(offered(`others "x.csv" {\n latitude "$0"\n}`)).toEqual([]);
    expect(offered(`others "r.csv" {\n status "lat" stands "$0"\n}`)).toEqual([]);
  });

  test("offers columns, and units behind `in`", () => {
    const labels = (source: string) => offered(source).map(([label]) => label);
    expect(labels(`others "r.csv" {\n $0\n}`)).toEqual(
      expect.arrayContaining(["latitude", "receiver-ground"]),
    );
    expect(labels(`others "r.csv" {\n frequency "f" in $0\n}`)).toEqual(["Hz", "kHz", "MHz", "GHz"]);
    expect(labels(`interference {\n $0\n}`)).toEqual(expect.arrayContaining(["lapse", "N0", "aggregate"]));
  });

  test("renames the hops of a coupling loss", () => {
    const { model, file, offset } = fixture(
      "site A { coupling-loss A-B A-C 60 dB }\nsite B { }\nsite C { }\nhop A-B$0 { A { }; B { } }\nhop A-C { A { }; C { } }",
    );
    const renamed = renameAt(model, file, offset, "A-X");
    expect(JSON.stringify(renamed)).toContain("A-X");
    expect("edits" in renamed && renamed.edits).toHaveLength(2);
  });

  test("lays the blocks out in one order", () => {
    const laid = formatText(`network "N" {
  interference {
    N0 325
    single-entry   1dB
  }
  others "r.csv" { eirp "p" in dBm; latitude "lat" }
  terrain "t"
}
`);
    expect(laid).toMatchObject({
      text: `network "N" {
  terrain "t"
  interference {
    single-entry 1 dB
    N0 325
  }
  others "r.csv" {
    latitude "lat"
    eirp "p" in dBm
  }
}
`,
    });
  });
});
