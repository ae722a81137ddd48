/** What of an entry comes from its stations, worked by hand: polarizations, filters, power control, tables of C/I, coupling. */
import { describe, expect, test } from "vitest";
import { reductionOf } from "../../shared/interference/stations.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import {
  cosine,
  dB,
  f699Db,
  f1245Db,
  filteredDb,
  from,
  leastLossDb,
  networkOf,
  noiseDbm,
  power,
  raisedDb,
  receiverIn,
} from "../support/interference-by-hand.js";

/** MOSS looks at the same hub as KELD, five and a half degrees aside. */
const MOSS = "site MOSS {\n  at 47.49 -30.498\n  structure mast 60 m\n}\n";
const own = (parts: Parameters<typeof exampleHop>[0] = {}) => `${exampleHop(parts)}\n`;
const other = (parts: Parameters<typeof exampleHop>[0] = {}) => own(parts).replaceAll("KELD", "MOSS");

const EIRP_DBM = 20 + 38.5;
const LOW_HZ = 17.92e9;
const NOISE_DBM = noiseDbm(55e6, 6.5);
const SAME_FILTERS_DB = filteredDb(
  (f) => cosine(55e6, f),
  (f) => cosine(55e6, f),
  0,
);

describe("a dual-polarized pair beside a single hop", () => {
  const dish = `antenna DUAL like DISH60-18 {
  polarizations dual
  pattern 0 deg 0 dB cross 32 dB
  pattern 2 deg 12 dB cross 30 dB
  pattern 10 deg 28 dB cross 36 dB
  pattern 180 deg 60 dB cross 64 dB
}\n`;
  const pair = own({
    hop: "radio R18X\n  mode 55 MHz 128QAM\n  arrangement 2+0 xpic",
    keld: "antenna DUAL at 40 m\n    coupler O18 direct\n    transmits high",
    tarn: "antenna DUAL at 40 m\n    coupler O18 direct\n    transmits low",
  });
  const radio = "radio R18X like R18 { xpic yes }\n";
  const single = other({
    keld: "antenna DUAL at 40 m\n    transmits high",
    tarn: "antenna DUAL at 40 m\n    transmits low",
  });
  const network = networkOf(dish + radio + MOSS + pair + single);
  const between = (angleDeg: number, [a, co1, x1]: number[], [b, co2, x2]: number[]) => {
    const share = (angleDeg - a!) / (b! - a!);
    return { co: co1! + share * (co2! - co1!), cross: x1! + share * (x2! - x1!) };
  };

  test("it has one receiver for each polarization, and neither hears the other", () => {
    const at = network.of("KELD-TARN").filter(({ receiver }) => receiver.place.site === "KELD");
    expect(at.map(({ receiver }) => receiver.polarization).toSorted()).toEqual(["horizontal", "vertical"]);
    for (const { entries } of at)
      expect(entries.map(({ sender }) => sender.key)).toEqual(["MOSS-TARN TARN 0 vertical 1"]);
  });

  test("the vertical one hears the single hop as parallel, the horizontal one by both leakages", () => {
    const vertical = from(receiverIn(network, "KELD-TARN", "KELD", "vertical"), "MOSS-TARN TARN");
    const horizontal = from(receiverIn(network, "KELD-TARN", "KELD", "horizontal"), "MOSS-TARN TARN");
    const sent = between(vertical.leavesOffAxisDeg, [2, 12, 30], [10, 28, 36]);
    const heard = between(vertical.arrivesOffAxisDeg, [0, 0, 32], [2, 12, 30]);
    expect(vertical.relation).toBe("parallel");
    expect(vertical.discriminationDb).toBeCloseTo(sent.co + heard.co, 9);
    expect(horizontal.relation).toBe("crossed");
    const leaks = -dB(power(-(sent.cross + heard.co)) + power(-(sent.co + heard.cross)));
    expect(leaks).toBeGreaterThan(sent.co + heard.co + 10);
    expect(horizontal.discriminationDb).toBeCloseTo(leaks, 9);
    // Of the coupler 0.4 dB at the receiver of the pair; the single hop has none.
    for (const one of [vertical, horizontal])
      expect(one.levelDbm).toBeCloseTo(
        EIRP_DBM + 38.5 - 0.4 - one.discriminationDb - one.path.longTermLossDb,
        9,
      );
  });

  test("the single hop hears both of the pair, the crossed one weaker", () => {
    const at = receiverIn(network, "MOSS-TARN", "MOSS");
    expect(at.entries).toHaveLength(2);
    const [parallel, crossed] = at.entries;
    expect([parallel!.relation, crossed!.relation]).toEqual(["parallel", "crossed"]);
    expect(parallel!.sender.eirpDbm).toBeCloseTo(EIRP_DBM - 0.4, 9);
    expect(at.degradationDb).toBeCloseTo(
      raisedDb(parallel!.toNoiseDb, crossed!.toNoiseDb, at.cutToNoiseDb),
      9,
    );
  });
});

test("of a pair that leans both are there, and each counts", () => {
  const leaning = own({
    hop: "polarization slant\n  radio R18X\n  mode 55 MHz 128QAM\n  arrangement 2+0 xpic",
    keld: "antenna DUAL at 40 m\n    coupler O18 direct\n    transmits high",
    tarn: "antenna DUAL at 40 m\n    coupler O18 direct\n    transmits low",
  });
  const equipment = "antenna DUAL like DISH60-18 { polarizations dual }\nradio R18X like R18 { xpic yes }\n";
  const network = networkOf(equipment + MOSS + leaning + other());
  expect(network.of("KELD-TARN")).toHaveLength(4);
  const { entries } = receiverIn(network, "MOSS-TARN", "MOSS");
  expect(entries.map(({ relation }) => relation)).toEqual(["oblique", "oblique"]);
});

test("slant against slant counts as parallel, since a design does not say to which side they lean", () => {
  const text = (one: string, two: string) =>
    MOSS +
    own({ hop: `polarization ${one}\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+0` }) +
    other({ hop: `polarization ${two}\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+0` });
  const relation = (one: string, two: string) =>
    from(receiverIn(networkOf(text(one, two)), "KELD-TARN", "KELD"), "MOSS-TARN TARN").relation;
  expect(relation("slant", "slant")).toBe("parallel");
  expect(relation("slant", "vertical")).toBe("oblique");
  expect(relation("horizontal", "slant")).toBe("oblique");
});

describe("unequal widths, 56 MHz beside 28 MHz", () => {
  const plan = `plan PW {
  centre 18.7 GHz
  row 56 MHz go -1000 MHz return 10 MHz channels 1 to 17
  row 28 MHz go -1000 MHz return 10 MHz channels 1 to 34
}
radio RW {
  tuning 17.7 GHz to 19.7 GHz
  duplex 1010 MHz
  noise-figure 6 dB
  mode 28 MHz 128QAM rate 155 Mbit/s power 20 dBm threshold -72 dBm
  mode 56 MHz 128QAM rate 310 Mbit/s power 20 dBm threshold -69 dBm
`;
  const widthed = (width: number, channel: number) => ({
    hop: `polarization vertical\n  radio RW\n  mode ${width} MHz 128QAM\n  arrangement 1+0`,
    channel: `PW / ${width} MHz / ${channel}`,
  });
  const text = (spectrum: string, narrow: number) => {
    const [wide, thin] = [widthed(56, 4), widthed(28, narrow)];
    return `${plan}${spectrum}}\n${MOSS}${own({ hop: wide.hop }).replace("P18 / 55 MHz / 4", wide.channel)}${other({ hop: thin.hop }).replace("P18 / 55 MHz / 4", thin.channel)}`;
  };
  // Of 56 MHz channel 4 is 17 924 MHz, 17 896 to 17 952; of 28 MHz channel 9 17 952 MHz, half in it; channel 10 17 980 MHz.
  const offsets = { 8: 0, 9: 28e6, 10: 56e6 } as const;

  test.each([8, 9] as const)("derived from the widths, the narrow one on its channel %i", (narrow) => {
    const network = networkOf(text("", narrow));
    const offsetHz = offsets[narrow];
    const actual = 17.7e9 + narrow * 28e6 - (17.7e9 + 4 * 56e6);
    expect(actual).toBe(offsetHz);
    const intoWide = from(receiverIn(network, "KELD-TARN", "KELD"), "MOSS-TARN TARN");
    const intoNarrow = from(receiverIn(network, "MOSS-TARN", "MOSS"), "KELD-TARN TARN");
    const wide = (f: number) => cosine(56e6, f);
    const thin = (f: number) => cosine(28e6, f);
    expect(intoWide.offsetHz).toBeCloseTo(offsetHz, 0);
    expect(intoNarrow.offsetHz).toBeCloseTo(-offsetHz, 0);
    const [wideDb, narrowDb] = [filteredDb(thin, wide, offsetHz), filteredDb(wide, thin, offsetHz)];
    expect(intoWide.filterDb).toBeCloseTo(wideDb, 3);
    expect(intoNarrow.filterDb).toBeCloseTo(narrowDb, 3);
    // Of the wide one half the power falls on the narrow receiver at most: 3 dB more than the other way about.
    expect(narrowDb - wideDb).toBeCloseTo(3.01, 1);
    const { noiseDbm: thinNoise } = receiverIn(network, "MOSS-TARN", "MOSS").receiver;
    expect(thinNoise).toBeCloseTo(noiseDbm(28e6, 6), 2);
    expect(intoNarrow.toNoiseDb).toBeCloseTo(intoNarrow.levelDbm - narrowDb - noiseDbm(28e6, 6), 2);
  });

  test("side by side the derived spectra do not touch: 50 dB, where the derived figure ends", () => {
    const at = receiverIn(networkOf(text("", 10)), "MOSS-TARN", "MOSS");
    // (56 + 28)/2 = 42 MHz would be side by side; channels of 28 MHz lie on 28 or 56 MHz from it.
    const [entry] = at.entries;
    if (entry !== undefined) expect(entry.filterDb).toBe(50);
    else expect(at.cutToNoiseDb).toBeLessThan(-30);
  });

  test("with masks it is what they let through: integrated piece by piece here, by rectangles there", () => {
    const mask = (width: number, end: number) =>
      `  spectrum ${width} MHz {\n    mask ${0.45 * width} MHz 0 dB\n    mask ${0.5 * width} MHz 20 dB\n    mask ${end} MHz 45 dB\n    selectivity ${0.45 * width} MHz 0 dB\n    selectivity ${0.6 * width} MHz 40 dB\n  }\n`;
    const network = networkOf(text(mask(56, 100) + mask(28, 60), 10));
    const straight =
      (points: readonly (readonly [number, number])[], beyond: "nothing" | "held") => (hz: number) => {
        const f = Math.abs(hz) / 1e6;
        const [last, lastDb] = points.at(-1)!;
        if (f > last) return beyond === "nothing" ? 0 : power(-lastDb);
        let before = [0, 0] as readonly [number, number];
        for (const [at, down] of points) {
          if (f <= at) return power(-(before[1] + ((f - before[0]) / (at - before[0])) * (down - before[1])));
          before = [at, down];
        }
        return 0;
      };
    const sent = (width: number, end: number) =>
      straight(
        [
          [0.45 * width, 0],
          [0.5 * width, 20],
          [end, 45],
        ],
        "nothing",
      );
    const kept = (width: number) =>
      straight(
        [
          [0.45 * width, 0],
          [0.6 * width, 40],
        ],
        "held",
      );
    const intoNarrow = from(receiverIn(network, "MOSS-TARN", "MOSS"), "KELD-TARN TARN");
    expect(intoNarrow.offsetHz).toBe(-56e6);
    expect(intoNarrow.filterDb).toBeCloseTo(filteredDb(sent(56, 100), kept(28), 56e6), 2);
    const intoWide = from(receiverIn(network, "KELD-TARN", "KELD"), "MOSS-TARN TARN");
    expect(intoWide.filterDb).toBeCloseTo(filteredDb(sent(28, 60), kept(56), 56e6), 2);
  });
});

describe("power control", () => {
  const controlled = (line: string) => networkOf(`${MOSS}${own()}${other({ more: line })}`);

  test("a signal below its threshold is let down by nothing, one that lies little above by no more", () => {
    const end = { powerControl: { reductionDb: 10 }, site: { name: "KELD" } };
    const at = (...aboveDb: readonly number[]) => {
      const modes = aboveDb.map((db) => ({ receivedLevelDbm: -70 + db, thresholdDbm: -70 }));
      const directions = [{ from: "KELD", to: "TARN", modes }];
      return reductionOf({}, end as never, { directions: directions as never });
    };
    expect(at(30)).toBe(10);
    expect(at(4)).toBe(4);
    expect(at(-1)).toBe(0);
    // The lowest mode still has something to spare.
    expect(at(-3, 6)).toBe(6);
    // Of levels that are not known what is stated counts.
    expect(at()).toBe(10);
  });

  test("the power while nothing fades counts, all of it is told beside", () => {
    const plain = receiverIn(controlled(""), "KELD-TARN", "KELD");
    const at = receiverIn(controlled("power-control 10 dB"), "KELD-TARN", "KELD");
    const [entry] = at.entries;
    expect(entry!.sender.eirpDbm).toBeCloseTo(EIRP_DBM, 9);
    expect(entry!.sender.reductionDb).toBe(10);
    const fullDbm = EIRP_DBM + 38.5 - entry!.discriminationDb - entry!.path.longTermLossDb;
    const full = fullDbm - SAME_FILTERS_DB - NOISE_DBM;
    expect(entry!.fullToNoiseDb).toBeCloseTo(full, 3);
    expect(entry!.toNoiseDb).toBeCloseTo(full - 10, 3);
    expect(at.degradationDb).toBeCloseTo(raisedDb(full - 10, at.cutToNoiseDb), 3);
    expect(at.fullDegradationDb).toBeCloseTo(raisedDb(full, at.cutToNoiseDb), 3);
    expect(at.fullDegradationDb).toBeCloseTo(plain.degradationDb, 9);
  });

  test("with criteria of the short term it counts at full power: fading and enhancement may coincide", () => {
    const short = networkOf(
      `interference { short-term 0.01 % degradation 20 dB }\n${MOSS}${own()}${other({ more: "power-control 10 dB" })}`,
    );
    const at = receiverIn(short, "KELD-TARN", "KELD");
    const [entry] = at.entries;
    const { distanceM } = entry!.path;
    const gasDb = entry!.path.longTermLossDb - leastLossDb(distanceM, LOW_HZ, 20);
    expect(entry!.path.shortTermLossDb).toBeCloseTo(leastLossDb(distanceM, LOW_HZ, 0.01) + gasDb, 9);
    const shortDbm = EIRP_DBM + 38.5 - entry!.discriminationDb - entry!.path.shortTermLossDb;
    expect(at.shortToNoiseDb).toBeCloseTo(shortDbm - SAME_FILTERS_DB - NOISE_DBM, 3);
    // 2.6 (1 - exp(-0.93)) (log 0.32 - log 0.01) = 2.4 dB less than the long-term loss at 9.3 km.
    expect(entry!.path.longTermLossDb - entry!.path.shortTermLossDb).toBeCloseTo(
      2.6 * (1 - Math.exp(-distanceM / 1e4)) * Math.log10(32),
      9,
    );
    expect(at.shortDegradationDb).toBeCloseTo(raisedDb(at.shortToNoiseDb), 9);
  });
});

test("a table of C/I: at the stated ratio it costs 1 dB and 3 dB", () => {
  const radio = (one: number, three: number) =>
    `radio RT like R18 {\n  spectrum 55 MHz 128QAM { carrier-to-interference 0 MHz ${one} dB ${three} dB }\n}\n`;
  const parts = { hop: "polarization vertical\n  radio RT\n  mode 55 MHz 128QAM\n  arrangement 1+0" };
  const at = (one: number, three: number) =>
    receiverIn(networkOf(radio(one, three) + MOSS + own(parts) + other(parts)), "KELD-TARN", "KELD");
  const { levelDbm } = at(30, 26).entries[0]!;
  // The threshold of 128QAM is -69 dBm. The same interferer, for tables of which it is exactly at one of the ratios.
  const ratio = -69 - levelDbm;
  expect(at(ratio, ratio - 20).singleDegradationDb).toBeCloseTo(1, 9);
  expect(at(ratio - 20, ratio).singleDegradationDb).toBeCloseTo(3, 9);
  // Between them the worse of both: for 1 dB at 30, 10 log(10^0.1 - 1) = -5.87 dB.
  expect(at(30, 0).entries[0]!.toNoiseDb).toBeCloseTo(levelDbm - (-69 - 30) + dB(power(1) - 1), 9);
  expect(at(30, 26).entries[0]!.filterDb).toBeUndefined();
});

describe("two antennas at one site", () => {
  const exchanged = {
    keld: "antenna DISH60-18 at 40 m\n    transmits low",
    tarn: "antenna DISH60-18 at 40 m\n    transmits high",
  };
  const text = MOSS + own() + other(exchanged);

  test("are told with their angle and frequencies, and not judged", () => {
    const at = receiverIn(networkOf(text), "KELD-TARN", "TARN");
    const [near] = at.coLocated;
    expect(at.coLocated).toHaveLength(1);
    expect(near!.sender.key).toBe("MOSS-TARN TARN 0 vertical 1");
    expect(near!.offsetHz).toBe(0);
    expect(near!.apartDeg).toBeGreaterThan(4.5);
    expect(near!.apartDeg).toBeLessThan(6.5);
    expect(near!.toNoiseDb).toBeUndefined();
    expect(at.degradationDb).toBeLessThan(0.1);
  });

  test("are judged by the coupling loss between their ports, where one is stated", () => {
    const at = receiverIn(
      networkOf(text, undefined, [
        ["site TARN {", "site TARN {\n  coupling-loss KELD-TARN MOSS-TARN 110 dB"],
      ]),
      "KELD-TARN",
      "TARN",
    );
    // 20 dBm at the port, 110 dB, no loss behind: -90 dBm, through the same filter.
    const toNoiseDb = 20 - 110 - SAME_FILTERS_DB - NOISE_DBM;
    expect(at.coLocated[0]!.toNoiseDb).toBeCloseTo(toNoiseDb, 3);
    expect(at.degradationDb).toBeCloseTo(
      raisedDb(toNoiseDb, ...at.entries.map((e) => e.toNoiseDb), at.cutToNoiseDb),
      3,
    );
    expect(at.singleDegradationDb).toBeCloseTo(raisedDb(toNoiseDb), 3);
  });
});

test("the sum by F.1245 where the network says so, each entry by F.699 all the same", () => {
  const at = receiverIn(
    networkOf(`interference { sum-pattern F.1245 }\n${MOSS}${own()}${other()}`),
    "KELD-TARN",
    "KELD",
  );
  const [entry] = at.entries;
  const axisDb = f699Db(38.5, 0.6, LOW_HZ, entry!.arrivesOffAxisDeg);
  const single = f699Db(38.5, 0.6, LOW_HZ, entry!.leavesOffAxisDeg) + axisDb;
  const average = f1245Db(38.5, 0.6, LOW_HZ, entry!.leavesOffAxisDeg) + axisDb;
  expect(entry!.discriminationDb).toBeCloseTo(single, 9);
  // 13 - 5 log x = 5.2 dB between the two laws.
  expect(average - single).toBeCloseTo(13 - 5 * Math.log10((0.6 * LOW_HZ) / 299_792_458), 9);
  expect(entry!.inSumToNoiseDb).toBeCloseTo(entry!.toNoiseDb - (average - single), 9);
  expect(at.degradationDb).toBeCloseTo(raisedDb(entry!.inSumToNoiseDb, at.cutToNoiseDb), 9);
  expect(at.singleDegradationDb).toBeCloseTo(raisedDb(entry!.toNoiseDb), 9);
});
