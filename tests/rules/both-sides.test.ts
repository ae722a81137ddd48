/** Rules on both sides of what they depend on: a text that they tell something of, and one next to it that they do not. */
import { describe, expect, test } from "vitest";
import type { CauseOutage } from "../../shared/evaluate/account/outage-result.js";
import type { FurtherPath } from "../../shared/evaluate/account/path-result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { type ListedFiles, NO_FILES } from "../../shared/others/listed.js";
import type { PatternFile } from "../../shared/radio/pattern-table.js";
import { exampleDemand } from "../../shared/rules/demands/example-demand.js";
import { EXAMPLE_ENTRIES, equipped, HOT_STANDBY } from "../../shared/rules/equipment/example-equipment.js";
import { fromHub } from "../../shared/rules/example-interference.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";
import { licensedHop } from "../../shared/rules/licences/example-licence.js";
import { OTHERS_EXAMPLE } from "../../shared/rules/others-words.js";
import { weighty } from "../../shared/rules/outage-advice.js";
import { raisesOf } from "../../shared/rules/ray-fault.js";
import { ringWords } from "../../shared/rules/settled-bands.js";
import { designOf } from "../equipment/designs.js";
import { ANTENNA, end, KELD, makeHop, TARN } from "../evaluate/builders.js";
import { exampleGround, judgeExample, TODAY } from "./example-design.js";

function told(rule: string, text: string) {
  const { problems, findings } = judgeExample(text);
  expect(problems).toEqual([]);
  return findings.filter((one) => one.rule === rule);
}
const messages = (rule: string, text: string) => told(rule, text).map(({ message }) => message);

/** The sound hop with other lines at KELD. */
const keld = (lines: string, hop?: string) => exampleHop({ keld: `${lines}\n    transmits high`, hop });
const BARE = "antenna BARE { band 17.7 GHz to 19.7 GHz; gain 38.5 dBi }\n\n";
const SINGLE = "antenna SINGLE like DISH60-18 {\n  polarizations single\n}\n\n";
const FERN = EXAMPLE_ENTRIES.filter((one) => /^(card FERN|chassis COPSE) /.test(one)).join("\n");
const RADIO = "polarization vertical\n  radio R18\n  mode 55 MHz 128QAM\n  arrangement";
const spectrum = (...lines: string[]) =>
  `radio R18X like R18 {\n  spectrum {\n    ${lines.join("\n    ")}\n  }\n}\n\n${exampleHop({ hop: "polarization vertical\n  radio R18X\n  mode 55 MHz 128QAM" })}`;
const surface = (words: string) => exampleHop({ more: `surface ${words}` });
const demand = (site: string, to = "TARN") =>
  `demand SCHOOL {\n  from ${site} to ${to}\n  committed 100 Mbit/s\n  E1 4\n}`;
const served = (...lines: string[]) => equipped(["chassis COPSE {\n  slot 4 FERN\n}", ...lines].join("\n"));
const guided = (diameterM: number, lines: string) =>
  `antenna BIG like DISH60-18 {\n  diameter ${diameterM} m\n}\n\n${keld(`antenna BIG at 40 m\n    ${lines}`)}`;
/** A coupler of another flange than the unit's for the second of two antennas. */
const bolted = (second: string) =>
  `radio R18F like R18 { interface UBR220 }\ncoupler H18-R like H18-E { interface UBR260 }\n\n${keld(
    `antenna DISH60-18 at 40 m${second}\n    second-coupler H18-R direct`,
    "polarization vertical\n  radio R18F\n  mode 55 MHz 128QAM\n  arrangement 1+1 hot-standby two-antennas",
  )}`;

const CASES: readonly (readonly [rule: string, what: string, tells: string, silent: string])[] = [
  [
    "antenna-below-ground",
    "half the diameter",
    keld("antenna DISH60-18 at 0.29 m"),
    keld("antenna DISH60-18 at 0.3 m"),
  ],
  [
    "antenna-below-ground",
    "the ground, for one of unknown size",
    BARE + keld("antenna BARE at 0 m"),
    BARE + keld("antenna BARE at 0.01 m"),
  ],
  [
    "antenna-single-polarized",
    "a second antenna of one unit is turned to its polarization",
    SINGLE + keld("antenna SINGLE at 40 m\n    second-antenna DISH60-18 at 36 m", `${RADIO} 2+0 xpic`),
    SINGLE + keld("antenna DISH60-18 at 40 m\n    second-antenna SINGLE at 36 m", `${RADIO} 2+0 xpic`),
  ],
  [
    "demand-ports",
    "E1 and no port for it, at a site with an indoor unit",
    `${served()}\n\n${demand("MOSS")}`,
    `${exampleHop()}\n\n${demand("KELD")}`,
  ],
  [
    "demand-ports",
    "a service stands for the demands of its kind",
    `${served('service "mill" 2 GE')}\n\n${demand("MOSS")}`,
    `${served('service "mill" 2 E1-75')}\n\n${demand("MOSS")}`,
  ],
  // A port that is stated and not there is told at its line.
  [
    "traffic-ports-short",
    "seven ports and what is stated elsewhere",
    served('service "mill" 8 GE'),
    served('service "mill" 1 GE {\n  port 4 / 99\n}'),
  ],
  [
    "chassis-unstated",
    "units that want an indoor unit",
    equipped("chassis COPSE {\n  slot 2 MIST\n}"),
    `radio R18O like R18 {\n  construction all-outdoor\n}\n\n${equipped("chassis COPSE {\n  slot 2 MIST\n}", { hop: "polarization vertical\n  radio R18O\n  mode 55 MHz 128QAM\n  arrangement all-outdoor 1+0" })}`,
  ],
  [
    "reflection-ripple",
    "the point lies on the surface",
    surface("water 1 km to 8 km from KELD at 200 m"),
    surface("water 1 km to 3 km from KELD at 200 m"),
  ],
  [
    "spectrum-implausible",
    "6 dB down within a quarter of 55 MHz",
    spectrum("mask 13.7 MHz 6.1 dB"),
    spectrum("mask 13.7 MHz 6 dB"),
  ],
  [
    "spectrum-implausible",
    "a quarter of 55 MHz from the centre",
    spectrum("mask 13.75 MHz 20 dB"),
    spectrum("mask 13.8 MHz 20 dB"),
  ],
  ["spectrum-implausible", "120 dB", spectrum("mask 60 MHz 120.1 dB"), spectrum("mask 60 MHz 120 dB")],
  [
    "spectrum-implausible",
    "two points of one offset",
    spectrum("mask 30 MHz 20 dB", "mask 30 MHz 25 dB", "mask 30 MHz 30 dB"),
    spectrum("mask 30 MHz 20 dB", "mask 30 MHz 25 dB", "mask 31 MHz 30 dB"),
  ],
  ["waveguide-missing", "1.8 m bear the unit", guided(1.81, ""), guided(1.8, "")],
  [
    "diversity-incomplete",
    "a second channel where diversity is one of frequency",
    exampleHop({ hop: `${RADIO} 1+1 frequency-diversity` }),
    exampleHop({ hop: `${RADIO} 1+1 frequency-diversity\n  channel P18 / 55 MHz / 6` }),
  ],
  [
    "slot-wrong-kind",
    "a chassis of which the catalogue has the slots",
    equipped("chassis BOX {\n  slot 3 FERN\n}", {}, `chassis BOX { slot 1 to 2 traffic }\n${FERN}`),
    equipped("chassis BOX {\n  slot 3 FERN\n}", {}, `chassis BOX { height 1 U }\n${FERN}`),
  ],
  [
    "survey-source",
    "a survey that could be read",
    exampleHop({ more: 'survey "too-long.csv" from KELD' }),
    exampleHop({ more: 'survey "gone.csv" from KELD' }),
  ],
  [
    "cable-wrong-kind",
    "what a hop takes that has no radio yet",
    `cable CAT { kind ethernet }\n\n${keld("antenna DISH60-18 at 40 m\n    cable CAT", "polarization vertical\n  arrangement 1+0")}`,
    `cable CAT { kind ethernet }\n\n${keld("antenna DISH60-18 at 40 m\n    cable CAT", "polarization vertical\n  arrangement all-outdoor 1+0")}`,
  ],
  [
    "interface-mismatch",
    "a second coupler counts with its antenna",
    bolted("\n    second-antenna DISH60-18 at 36 m"),
    bolted(""),
  ],
];

/** A figure of a rule's own example put in place of another. */
const figured = (rule: string, which: "good" | "bad", figure: string, other: string) => {
  const text = RULES.get(rule)![which];
  expect(text).toContain(figure);
  return text.replaceAll(figure, other);
};
/** Frequencies in place of halves; with both no channel is stated. */
const sent = (ghz: string, tarnGhz?: string) => {
  const at = (of: string) => `antenna DISH60-18 at 40 m\n    transmits ${of} GHz`;
  if (tarnGhz === undefined) return exampleHop({ keld: at(ghz) });
  return exampleHop({ keld: at(ghz), tarn: at(tarnGhz) }).replace("  channel P18 / 55 MHz / 4\n", "");
};
const carrying = (rateMbps: number) =>
  `radio R18C like R18 { mode 55 MHz 256QAM rate ${rateMbps} Mbit/s power 18 dBm threshold -66 dBm }\n\n${exampleHop({ hop: "polarization vertical\n  radio R18C\n  mode 55 MHz 256QAM\n  arrangement 1+0" })}`;
/** COPSE takes 15 W itself. */
const hot = (watts: number) =>
  equipped(
    "chassis COPSE {\n  card HOT\n}",
    {},
    `${EXAMPLE_ENTRIES[0]}\ncard HOT { kind ethernet; ports 4 GE; draws ${watts} W }`,
  );
const cards = EXAMPLE_ENTRIES.join("\n");

/** Stated figures and counts at the limit itself, which passes, and the least step beyond it. */
const AT_THE_LIMIT: readonly (readonly [rule: string, limit: string, beyond: string, at: string])[] = [
  [
    "antenna-above-structure",
    "a mast of 60 m",
    keld("antenna DISH60-18 at 60.1 m"),
    keld("antenna DISH60-18 at 60 m"),
  ],
  [
    "antenna-without-structure",
    "120 m",
    figured("antenna-without-structure", "bad", "140 m", "120.1 m"),
    figured("antenna-without-structure", "bad", "140 m", "120 m"),
  ],
  [
    "ground-differs-from-terrain",
    "15 m over terrain at 200 m",
    figured("ground-differs-from-terrain", "bad", "320 m", "215.1 m"),
    figured("ground-differs-from-terrain", "bad", "320 m", "215 m"),
  ],
  [
    "ground-differs-from-terrain",
    "15 m under it",
    figured("ground-differs-from-terrain", "bad", "320 m", "184.9 m"),
    figured("ground-differs-from-terrain", "bad", "320 m", "185 m"),
  ],
  ["frequency-outside-tuning", "19.7 GHz", sent("19.7001"), sent("19.7")],
  ["frequency-outside-tuning", "17.7 GHz", sent("17.6999"), sent("17.7")],
  ["half-outside-radio", "18.71 GHz", sent("18.7099"), sent("18.71")],
  ["half-outside-radio", "18.69 GHz", sent("18.93", "18.6901"), sent("18.93", "18.69")],
  // Half of 55 MHz from the edges, and 1 kHz of rounding.
  ["channel-outside-radio", "19.7 GHz", sent("19.6725011"), sent("19.672501")],
  ["channel-outside-radio", "17.7 GHz", sent("18.93", "17.7274989"), sent("18.93", "17.727499")],
  ["frequency-off-channel", "1 kHz over 18.93 GHz", sent("18.9300011"), sent("18.930001")],
  ["frequency-off-channel", "1 kHz under 18.93 GHz", sent("18.9299989"), sent("18.929999")],
  ["duplex-mismatch", "1 kHz over 1010 MHz", sent("18.9300011", "17.92"), sent("18.930001", "17.92")],
  ["duplex-mismatch", "1 kHz under 1010 MHz", sent("18.9299989", "17.92"), sent("18.929999", "17.92")],
  [
    "power-above-mode",
    "20 dBm of 128QAM",
    figured("power-above-mode", "bad", "24 dBm", "20.1 dBm"),
    figured("power-above-mode", "bad", "24 dBm", "20 dBm"),
  ],
  ["capacity", "300 Mbit/s", carrying(299.9), carrying(300)],
  [
    "demand-capacity",
    "310 Mbit/s of the mode",
    exampleDemand(["committed 310.1 Mbit/s"]),
    exampleDemand(["committed 310 Mbit/s"]),
  ],
  [
    "flexible-guide-long",
    "2 m",
    figured("flexible-guide-long", "bad", "12 m", "2.1 m"),
    figured("flexible-guide-long", "bad", "12 m", "2 m"),
  ],
  [
    "feeder-too-short",
    "an antenna at 20 m",
    figured("feeder-too-short", "bad", " 3 m", " 19.9 m"),
    figured("feeder-too-short", "bad", " 3 m", " 20 m"),
  ],
  ["chassis-power", "a supply of 300 W", hot(285.1), hot(285)],
  ["chassis-heat", "80 W of heat", hot(65.1), hot(65)],
  [
    "plant-power",
    "the 27 W of a chassis and its card",
    equipped("plant 26.9 W\nchassis COPSE {\n  slot 3 MIST\n}"),
    equipped("plant 27 W\nchassis COPSE {\n  slot 3 MIST\n}"),
  ],
  [
    "rack-full",
    "two chassis of a unit each",
    equipped("rack 1 U\nchassis COPSE as A\nchassis COPSE as B"),
    equipped("rack 2 U\nchassis COPSE as A\nchassis COPSE as B"),
  ],
  [
    "alarm-input",
    "a card of twelve",
    equipped('alarm 13 "mains"\nchassis COPSE {\n  slot 3 LICHEN\n}'),
    equipped('alarm 12 "mains"\nchassis COPSE {\n  slot 3 LICHEN\n}'),
  ],
  [
    "service-port",
    "one port of a service of one",
    served('service "mill" 1 GE {\n  port 4 / 1\n  port 4 / 2\n}'),
    served('service "mill" 1 GE {\n  port 4 / 1\n}'),
  ],
  [
    "service-port",
    "the last of ten ports",
    served('service "mill" 1 FE {\n  port 4 / 11\n}'),
    served('service "mill" 1 FE {\n  port 4 / 10\n}'),
  ],
  ["traffic-ports-short", "seven ports", served('service "mill" 8 GE'), served('service "mill" 7 GE')],
  [
    "slots-short",
    "three slots",
    equipped("chassis COPSE {\n  card FERN 4\n}"),
    equipped("chassis COPSE {\n  card FERN 3\n}"),
  ],
  [
    "slot-wrong-kind",
    "slot 4, the last",
    equipped("chassis COPSE {\n  slot 5 FERN\n}"),
    equipped("chassis COPSE {\n  slot 4 FERN\n}"),
  ],
  [
    "slot-wrong-kind",
    "slot 2, the first for traffic",
    equipped("chassis COPSE {\n  slot 1 FERN\n}"),
    equipped("chassis COPSE {\n  slot 2 FERN\n}"),
  ],
  [
    "if-ports-short",
    "a port for each unit",
    equipped("chassis COPSE {\n  slot 3 MIST\n}", HOT_STANDBY, cards),
    equipped("chassis COPSE {\n  slot 2 MIST\n  slot 3 MIST\n}", HOT_STANDBY, cards),
  ],
  ...(
    [
      ["channels up to 55 MHz", "28 MHz to 56 MHz", "28 MHz to 54.9 MHz", "28 MHz to 55 MHz"],
      ["channels from 55 MHz on", "28 MHz to 56 MHz", "55.1 MHz to 56 MHz", "55 MHz to 56 MHz"],
      ["310 Mbit/s", "310 Mbit/s", "309.9 Mbit/s", "310 Mbit/s"],
      ["128QAM", "128QAM; capacity", "64QAM; capacity", "128QAM; capacity"],
    ] as const
  ).map(
    ([limit, figure, beyond, at]) =>
      [
        "if-card-unit",
        limit,
        figured("if-card-unit", "good", figure, beyond),
        figured("if-card-unit", "good", figure, at),
      ] as const,
  ),
  [
    "licence-expired",
    "its last day",
    licensedHop("frequency 18.93 GHz", { until: "2026-05-31" }),
    licensedHop("frequency 18.93 GHz", { until: TODAY }),
  ],
  [
    "licence-expires",
    "a notice of 30 days",
    licensedHop("frequency 18.93 GHz", { until: "2026-07-01", network: "licences stated notice 30 d" }),
    licensedHop("frequency 18.93 GHz", { until: "2026-07-02", network: "licences stated notice 30 d" }),
  ],
];

test.each(AT_THE_LIMIT)("%s passes at %s, and tells the next step", (rule, _, beyond, at) => {
  expect(messages(rule, beyond)).not.toEqual([]);
  expect(messages(rule, at)).toEqual([]);
});

test("ground that is more than 100 m off is an error", () => {
  const severity = (figure: string) =>
    told("ground-differs-from-terrain", figured("ground-differs-from-terrain", "bad", "320 m", figure)).map(
      (one) => one.severity,
    );
  expect(severity("300 m")).toEqual(["warning"]);
  expect(severity("300.1 m")).toEqual(["error"]);
});

test.each(CASES)("%s: %s", (rule, _, tells, silent) => {
  expect(messages(rule, tells)).not.toEqual([]);
  expect(messages(rule, silent)).toEqual([]);
});

describe("diversity-incomplete", () => {
  const help = (arrangement: string) =>
    told(
      "diversity-incomplete",
      keld("antenna DISH60-18 at 40 m\n    diversity-antenna DISH60-18 at 30 m", `${RADIO} ${arrangement}`),
    ).map((one) => one.help);

  test("says how a second antenna is stated where the arrangement has one", () => {
    expect(help("1+1 hot-standby two-antennas")).toEqual([expect.stringContaining("`second-antenna`")]);
    expect(help("1+0")).toEqual([undefined]);
  });
});

test("what keeps a waveguide from being there is the word that is stated, not the antenna", () => {
  expect(messages("waveguide-missing", guided(2.4, ""))[0]).toMatch(
    /^BIG at KELD cannot be mounted directly/,
  );
  expect(messages("waveguide-missing", guided(2.4, "mounting separate"))[0]).toMatch(
    /^R18 at KELD is mounted separately from BIG/,
  );
  expect(messages("waveguide-missing", guided(0.6, "mounting separate"))[0]).toMatch(
    /^R18 at KELD is mounted separately from BIG/,
  );
});

test("a hop without an objective says which figures it lacks, and those only", () => {
  const lacking = (text: string) => messages("hop-incomplete", text.replace("  objective trunk\n", ""));
  const tarn = (lines: string) => exampleHop({ tarn: lines });
  expect(lacking(exampleHop())).toEqual([]);
  expect(lacking(tarn("antenna DISH60-18\n    transmits low"))).toEqual([
    expect.stringMatching(/; not judged: path, clearance, level and fade margin$/),
  ]);
  expect(lacking(tarn("antenna DISH60-18 at 40 m"))).toEqual([
    expect.stringMatching(/; not judged: level and fade margin$/),
  ]);
  const noRadio = "polarization vertical\n  arrangement 1+0";
  expect(lacking(exampleHop({ hop: noRadio }))).toEqual([
    expect.stringMatching(/; not judged: level and fade margin$/),
  ]);
  // Rain takes the polarization; path, clearance and level do not.
  expect(lacking(exampleHop({ hop: "radio R18\n  mode 55 MHz 128QAM\n  arrangement 1+0" }))).toEqual([
    expect.not.stringContaining("not judged"),
  ]);
});

test("a preview of interference names each thing that is assumed, and none that is stated", () => {
  const preview = (text: string) => messages("interference-preview", text).join();
  const spectra =
    /spectra of radios \(raised cosine taken\): R18 \(selectivity\) and R18 \(mask\), at 4 of 4 receivers/;
  expect(preview(fromHub({ channel: 5 }))).toMatch(spectra);
  expect(preview(fromHub({ channel: 4 }))).not.toMatch(/spectra/);
  for (const channel of [4, 5]) expect(preview(fromHub({ channel }))).not.toMatch(/noise figure|: ,|: ;/);
});

test("a chassis that no catalogue has is taken to have a supply of its own", () => {
  const site = (type: string) => `chassis ${type} as A {\n  slot 4 FERN\n}\nplant 1000 W`;
  const fed = (type: string) => {
    const text = equipped(`${site(type)}\nfeed A fuse 1 in A`, {}, FERN);
    return judgeExample(text)
      .findings.filter(({ rule }) => rule === "feed-slot")
      .map(({ message }) => message);
  };
  expect(fed("COPSE")).toEqual([expect.stringMatching(/no power card in chassis A/)]);
  expect(fed("NONESUCH")).toEqual([]);
});

test("causes of more than a hundredth are worth a word", () => {
  const causes = (...years: number[]) =>
    years.map((yearPercent) => ({ cause: "rain", yearPercent }) as CauseOutage);
  const left = (...years: number[]) => weighty(causes(...years), ({ yearPercent }) => yearPercent).length;
  expect(left(99, 1)).toBe(1);
  expect(left(98.9, 1.1)).toBe(2);
  expect(left(0, 0)).toBe(0);
});

test("a ring names every hop at which it opens", () => {
  const words = (...opens: string[]) =>
    ringWords({
      band: "18 GHz",
      ring: { hops: ["A", "B", "C", "D", "E"], opens },
      leftOut: [],
    } as unknown as Parameters<typeof ringWords>[0]);
  expect(words("A")).toMatch(/: put A in another band\.$/);
  expect(words("A", "B")).toMatch(/: put A or B in another band\.$/);
  expect(words("A", "B", "C")).toMatch(/: put A, B or C in another band\.$/);
  expect(words("A", "B", "C", "D", "E")).toMatch(/: put any of them in another band\.$/);
});

test("a demand of a site without hops is judged for the sites that have some", () => {
  const bare = "site LONE {\n  at 47.6 -30.6\n}\n\n";
  expect(messages("demand-ports", `${bare}${served()}\n\n${demand("MOSS", "LONE")}`)).toEqual([
    expect.stringContaining("MOSS"),
  ]);
});

test("of one demand without a port and of one port the message speaks as of one", () => {
  const asks = (name: string, line: string) => `demand ${name} {\n  from MOSS to TARN\n  ${line}\n}`;
  const of = (card: string, ...demands: string[]) =>
    messages(
      "demand-ports",
      `${equipped(`chassis COPSE {\n  slot 4 ${card}\n}`)}\n\n${demands.join("\n\n")}`,
    );
  const told = (...demands: string[]) => of("FERN", ...demands);
  expect(of("GALE", asks("ONE", "STM-1 2"))).toEqual(["MOSS has 1 STM-1 port, and ONE needs 2"]);
  expect(of("CLOVER", asks("ONE", "committed 100 Mbit/s"))[0]).toMatch(
    /^MOSS lacks an Ethernet port for ONE, which takes [\d.]+ Mbit\/s on the line$/,
  );
  const both = ["ONE", "TWO"].map((name) => asks(name, "committed 100 Mbit/s"));
  expect(of("CLOVER", ...both)[0]).toMatch(
    /^MOSS lacks Ethernet ports for ONE and TWO; the fastest takes [\d.]+ Mbit\/s on the line$/,
  );
  expect(told(asks("ONE", "E1 4"))).toEqual(["MOSS has 0 E1 ports, and ONE needs 4"]);
  expect(told(asks("ONE", "E1 4"), asks("TWO", "E1 2"))).toEqual([
    "MOSS has 0 E1 ports, and ONE and TWO need 6",
  ]);
});

test("a demand that several hops carry too little for names the first, and counts and names the others", () => {
  const moss = "site MOSS {\n  at 47.46 -30.41\n  structure mast 60 m\n}\n\n";
  const second = exampleHop()
    .replaceAll("KELD", "MOSS")
    .replaceAll("channel P18 / 55 MHz / 4", "channel P18 / 55 MHz / 8");
  const asked = (to: string) => exampleDemand(["committed 400 Mbit/s"]).replace("to TARN\n", `to ${to}\n`);
  const of = (to: string) =>
    told("demand-capacity", `${moss}${asked(to)}\n\n${second}`).map(({ message, related }) => [
      /up to this demand(.*)$/.exec(message)?.[1],
      related?.map(({ at }) => at),
    ]);
  expect(of("TARN")).toEqual([["", ["hop KELD-TARN"]]]);
  expect(of("MOSS")).toEqual([["; so do MOSS-TARN", ["hop KELD-TARN", "hop MOSS-TARN"]]]);
});

test("a list and a pattern that were not read yet are not told of", () => {
  const text = `${OTHERS_EXAMPLE}\n\nantenna LOST like DISH60-18 {\n  pattern-file "lost.csv"\n}\n\n${keld("antenna LOST at 40 m")}`;
  const design = designOf(text);
  const results = new Map(
    [...design.hops].map(([name, hop]) => [name, evaluateHop(hop, exampleGround(hop))]),
  );
  const of = (files: ListedFiles) =>
    judgeNetwork(design, results, TODAY, { files }).filter(({ rule }) =>
      /^(others-unusable|pattern-file)$/.test(rule),
    );
  expect(of(NO_FILES)).toEqual([]);
  const unusable = { unusable: "there is no such file" };
  const others = new Map(design.others!.map((list) => [list, unusable]));
  const file = design.hops.get("KELD-TARN")!.ends[0].antenna!.patternFile!;
  expect(
    of({ ...NO_FILES, others, patterns: new Map([[file, unusable]]) })
      .map(({ rule }) => rule)
      .toSorted(),
  ).toEqual(["others-unusable", "pattern-file"]);
  const points = [{ angleDeg: 5, copolarDb: 20 }];
  const faults = [
    { code: "order", rows: 1, line: 4 },
    { code: "doubled", rows: 2, line: 4 },
  ];
  const read = { points, faults } as PatternFile;
  expect(of({ ...NO_FILES, patterns: new Map([[file, read]]) }).map(({ message }) => message)).toEqual([
    expect.stringMatching(/ \(line 4\)$/),
    expect.stringMatching(/ \(2 rows, first in line 4\)$/),
  ]);
});

describe("an antenna that has to be raised", () => {
  const second = (heightM: number) => ({ further: [{ antenna: ANTENNA, heightM }] });
  const hop = (keldM: number, tarnM: number) =>
    makeHop({
      arrangement: { name: "2+0 single-polarization two-antennas" },
      ends: [end(KELD, "high", second(keldM)), end(TARN, "low", second(tarnM))],
    });
  const raises = (
    keldM: number,
    tarnM: number,
    ...needed: (readonly [number | undefined, number | undefined])[]
  ) => {
    const clearance = needed.map((heightNeededM) => ({ verdict: "missed", heightNeededM }));
    const path = { antennas: [2, 2], name: "second antennas", of: "carriers", clearance };
    return raisesOf(hop(keldM, tarnM), path as unknown as FurtherPath).map(
      ({ words, neededM }) => `${words} to ${neededM}`,
    );
  };

  test("is first the one that has to be raised less", () => {
    expect(raises(10, 10, [14, 12])).toEqual(["that at TARN to 12", "that at KELD to 14"]);
    expect(raises(10, 10, [12, 14])).toEqual(["that at KELD to 12", "that at TARN to 14"]);
    expect(raises(2, 10, [12, 14])).toEqual(["that at TARN to 14", "that at KELD to 12"]);
  });

  test("is raised to what every criterion needs, and no way out where one has no such height", () => {
    expect(raises(10, 10, [12, 14], [13, 11])).toEqual(["that at KELD to 13", "that at TARN to 14"]);
    expect(raises(10, 10, [12, 14], [undefined, 11])).toEqual(["that at TARN to 14"]);
    expect(raises(10, 10, [undefined, undefined])).toEqual([]);
  });
});

test("a clock that comes over one hop, or over several, is told so", () => {
  const site = "site MOSS {\n  at 47.46 -30.41\n  structure mast 60 m\n  clock-source\n}\n\n";
  const why = (text: string) => messages("demand-clock", text).join();
  const one = exampleDemand(["clock two-feeds"]).replaceAll("TARN", "MOSS");
  expect(why(site + one)).toMatch(/over 1 hop; no second shares no hop with it$/);
  const two = exampleHop()
    .replaceAll("KELD", "MOSS")
    .replaceAll("channel P18 / 55 MHz / 4", "channel P18 / 55 MHz / 8");
  const asked = exampleDemand(["clock two-feeds"]);
  expect(why(`${site}${asked}\n\n${two}`)).toMatch(/over 2 hops; no second shares no hop with it$/);
});
