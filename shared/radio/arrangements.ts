import type { CouplerKind } from "../design/catalogue.js";

/** Where transmitter and receiver stand. */
type Construction = "split-mount" | "all-outdoor" | "all-indoor";

/** What a second unit is there for. */
type Protection = "none" | "hot-standby" | "space-diversity" | "frequency-diversity" | "twin" | "n+1";

/**
 * What hangs at one end of a hop for each arrangement. Counts, couplings and what is protected are common practice
 * of the trade; a figure of loss never comes from here but from the catalogue.
 */
export interface ArrangementFacts {
  /** Canonical words, as the language writes them. */
  readonly name: string;
  readonly title: string;
  readonly construction: Construction;
  readonly protection: Protection;
  /** Transmitters with their receivers at one end, wherever they stand. */
  readonly transceivers: number;
  /** Outdoor units at one end; 0 for all-indoor radios. */
  readonly outdoorUnits: number;
  /** Transmitters on in the normal state. */
  readonly radiating: number;
  readonly workingCarriers: number;
  /** Frequency pairs of the hop. */
  readonly frequencyPairs: number;
  readonly polarizations: 1 | 2;
  readonly antennas: number;
  /** True when a second antenna of each end receives at a height of its own. */
  readonly spaceDiversity: boolean;
  /** The coupler that joins the units to one antenna; undefined: none belongs there. */
  readonly coupler?: CouplerKind;
  /** Couplers of that kind at one end. */
  readonly couplers: number;
  /** IF cables, and IF ports indoors, at one end: one for each split-mount outdoor unit, never shared. */
  readonly ifCables: number;
  /** Pairs of IF ports at one end whose receivers cancel each other's polarization. */
  readonly xpicPairs: number;
  /** True when a muted unit waits on the standby arm. */
  readonly hotStandby: boolean;
  readonly dualPolarized: boolean;
  /** Which of the two hops of a dual-band pair it is for. */
  readonly bandOfPair?: "low" | "high";
  readonly protects: readonly string[];
  readonly doesNotProtect: readonly string[];
}

const UNIT = "outdoor unit, IF cable, IF port";
const AGGREGATED = "part of the capacity, when the carriers are aggregated";

/** Carriers beyond four, and n + 1, go on by rule up to this many. */
const MOST_CARRIERS = 8;

export const ARRANGEMENTS: readonly ArrangementFacts[] = [
  row("1+0", "one carrier, unprotected", { doesNotProtect: ["anything"] }),
  row("1+1 hot-standby", "hot standby on one antenna", {
    transceivers: 2,
    coupler: "hybrid",
    protection: "hot-standby",
    protects: [UNIT],
    doesNotProtect: ["antenna, coupler, feeder", "propagation"],
  }),
  row("1+1 hot-standby two-antennas", "hot standby, an antenna each", {
    transceivers: 2,
    antennas: 2,
    protection: "hot-standby",
    protects: [UNIT, "antenna and feeder"],
    doesNotProtect: ["propagation"],
  }),
  row("1+1 space-diversity", "hot standby with space diversity", {
    transceivers: 2,
    antennas: 2,
    protection: "space-diversity",
    protects: [UNIT, "antenna and feeder", "multipath"],
    doesNotProtect: ["rain", "an obstruction of both"],
  }),
  row("1+1 frequency-diversity", "frequency diversity on one antenna", {
    transceivers: 2,
    radiating: 2,
    frequencyPairs: 2,
    coupler: "hybrid",
    protection: "frequency-diversity",
    protects: [UNIT, "multipath"],
    doesNotProtect: ["rain", "antenna, coupler, feeder"],
  }),
  row("1+1 space-and-frequency-diversity", "frequency diversity, an antenna each", {
    transceivers: 2,
    radiating: 2,
    frequencyPairs: 2,
    antennas: 2,
    spaceDiversity: true,
    protection: "frequency-diversity",
    protects: [UNIT, "antenna and feeder", "multipath"],
    doesNotProtect: ["rain"],
  }),
  // "1+1 XPIC" means either of these two in the trade: the number of units parts them.
  row("1+1 xpic two-units", "one carrier, protected by its twin on the other polarization", {
    ...dual(2),
    workingCarriers: 1,
    frequencyPairs: 1,
    xpicPairs: 1,
    protection: "twin",
    protects: [UNIT],
    doesNotProtect: ["antenna, orthomode transducer", "propagation"],
  }),
  row("1+1 xpic four-units", "two carriers on one channel, each polarization with its hot standby", {
    ...dual(4),
    radiating: 2,
    workingCarriers: 2,
    frequencyPairs: 1,
    xpicPairs: 2,
    protection: "hot-standby",
    protects: [`${UNIT} of each polarization`],
    doesNotProtect: ["antenna, coupler", "propagation"],
  }),
  row("2+0 single-polarization", "two carriers in one polarization", {
    ...working(2),
    coupler: "hybrid",
    protects: [AGGREGATED],
    doesNotProtect: ["anything fully"],
  }),
  row("2+0 single-polarization two-antennas", "two carriers, an antenna each", {
    ...working(2),
    antennas: 2,
    protects: [AGGREGATED],
    doesNotProtect: ["anything fully"],
  }),
  ...carriersTogether(2),
  ...range(3, MOST_CARRIERS).flatMap((count) => [
    ...onePlus(count - 1),
    ...carriersTogether(count),
    ...inOnePolarization(count),
  ]),
  row("dual-band low", "the robust carrier of a dual-band pair; the high one is a hop of its own", {
    bandOfPair: "low",
    protects: ["the committed rate, when rain takes the high band"],
    doesNotProtect: ["a common antenna, mast, card or power"],
  }),
  row("dual-band high", "the wide carrier of a dual-band pair; the low one is a hop of its own", {
    construction: "all-outdoor",
    bandOfPair: "high",
    protects: ["best effort, when the low band's equipment fails"],
    doesNotProtect: ["rain"],
  }),
  row("all-outdoor 1+0", "all-outdoor, one carrier", {
    construction: "all-outdoor",
    doesNotProtect: ["anything"],
  }),
  row("all-outdoor 1+1 hot-standby", "all-outdoor hot standby", {
    construction: "all-outdoor",
    transceivers: 2,
    coupler: "hybrid",
    protection: "hot-standby",
    protects: ["outdoor unit with its data and power cable"],
    doesNotProtect: ["antenna, coupler", "propagation"],
  }),
  ...carriersTogether(2, "all-outdoor"),
  row("all-indoor 1+0", "all-indoor, one carrier", {
    construction: "all-indoor",
    doesNotProtect: ["anything"],
  }),
  row("all-indoor 1+1 hot-standby", "all-indoor hot standby: transmit relay, receive splitter", {
    construction: "all-indoor",
    transceivers: 2,
    coupler: "splitter",
    protection: "hot-standby",
    protects: ["transceiver"],
    doesNotProtect: ["feeder, antenna, relay", "propagation"],
  }),
  row("all-indoor 1+1 space-diversity", "all-indoor, two receiving antennas, transmit relay", {
    construction: "all-indoor",
    transceivers: 2,
    antennas: 2,
    protection: "space-diversity",
    protects: ["transceiver", "multipath"],
    doesNotProtect: ["main feeder for transmission", "rain"],
  }),
  ...range(2, MOST_CARRIERS).flatMap((count) => [
    row(`all-indoor ${count}+0`, `all-indoor, ${count} carriers on one branching network`, {
      ...working(count),
      construction: "all-indoor",
      protects: [AGGREGATED],
      doesNotProtect: ["anything fully"],
    }),
    row(
      `all-indoor ${count}+1`,
      `all-indoor, ${count} carriers and a protecting one on one branching network`,
      {
        ...working(count + 1),
        workingCarriers: count,
        construction: "all-indoor",
        protection: "n+1",
        protects: ["any one carrier, by the spare one"],
        doesNotProtect: ["two failures at once", "feeder, antenna, branching network"],
      },
    ),
  ]),
];

const BY_NAME = new Map(ARRANGEMENTS.map((facts) => [facts.name, facts]));

/** One carrier of one unit. */
export const SINGLE = ARRANGEMENTS[0]!;

/** @returns undefined for words that name no arrangement known here. */
export function arrangementByName(name: string): ArrangementFacts | undefined {
  return BY_NAME.get(name);
}

/** Working carriers of one mode each, whose rates add up; 1 for words that are not known here. */
export function carriers(name: string): number {
  return BY_NAME.get(name)?.workingCarriers ?? 1;
}

type Told = Partial<Omit<ArrangementFacts, "name" | "title" | "outdoorUnits" | "ifCables">>;

/** What is not told: one split-mount unit on one single-polarized antenna. */
function row(name: string, title: string, told: Told): ArrangementFacts {
  const construction = told.construction ?? "split-mount";
  const transceivers = told.transceivers ?? 1;
  const protection = told.protection ?? "none";
  const polarizations = told.polarizations ?? 1;
  return {
    radiating: 1,
    workingCarriers: 1,
    frequencyPairs: 1,
    antennas: 1,
    couplers: told.coupler === undefined ? 0 : 1,
    xpicPairs: 0,
    spaceDiversity: protection === "space-diversity",
    hotStandby: protection === "hot-standby" || protection === "space-diversity",
    dualPolarized: polarizations === 2,
    protects: [],
    doesNotProtect: [],
    ...told,
    name,
    title,
    construction,
    protection,
    transceivers,
    polarizations,
    outdoorUnits: construction === "all-indoor" ? 0 : transceivers,
    ifCables: construction === "split-mount" ? transceivers : 0,
  };
}

/** So many carriers, all on, a frequency each. */
function working(count: number): Told {
  return { transceivers: count, radiating: count, workingCarriers: count, frequencyPairs: count };
}

/** Units on both polarizations: an orthomode transducer joins two, a dual-polarized coupler four. */
function dual(units: number): Told {
  const couplers = Math.ceil(units / 4);
  return {
    ...working(units),
    polarizations: 2,
    coupler: units === 2 ? "omt" : "dual-polarized",
    couplers,
    antennas: couplers,
  };
}

/** n + 0 on both polarizations: a channel for each carrier, or for each pair that cancels the other polarization. */
function carriersTogether(count: number, construction: Construction = "split-mount"): ArrangementFacts[] {
  const before = construction === "split-mount" ? "" : `${construction} `;
  const told = {
    ...dual(count),
    construction,
    protects: [AGGREGATED],
    doesNotProtect: ["antenna and what joins the units to it"],
  };
  const pairs = Math.floor(count / 2);
  return [
    row(
      `${before}${count}+0 dual-polarization`,
      `${inWords(count)} carriers on both polarizations, a channel each`,
      told,
    ),
    row(`${before}${count}+0 xpic`, `${inWords(count)} carriers on both polarizations, two on each channel`, {
      ...told,
      frequencyPairs: Math.ceil(count / 2),
      xpicPairs: pairs,
    }),
  ];
}

/** n + 1 on both polarizations. */
function onePlus(count: number): ArrangementFacts[] {
  const told: Told = {
    ...dual(count + 1),
    workingCarriers: count,
    protection: "n+1",
    protects: ["any one carrier, by the spare one"],
    doesNotProtect: ["two failures at once", "antenna, coupler", "rain"],
  };
  const title = `${inWords(count)} carriers and a protecting one on both polarizations`;
  return [
    row(`${count}+1 dual-polarization`, `${title}, a channel each`, told),
    row(`${count}+1 xpic`, `${title}, two on each channel`, {
      ...told,
      frequencyPairs: Math.ceil((count + 1) / 2),
      xpicPairs: Math.floor((count + 1) / 2),
    }),
  ];
}

/** n + 0 and n + 1 in one polarization: a hybrid joins two units to one antenna. */
function inOnePolarization(units: number): ArrangementFacts[] {
  const branching = Math.ceil(units / 2);
  const told: Told = { ...working(units), coupler: "hybrid", couplers: branching, antennas: branching };
  return [
    row(
      `${units - 1}+1 single-polarization`,
      `${inWords(units - 1)} carriers and a protecting one in one polarization`,
      {
        ...told,
        workingCarriers: units - 1,
        protection: "n+1",
        protects: ["any one carrier, by the spare one"],
        doesNotProtect: ["two failures at once", "antenna, coupler", "rain"],
      },
    ),
    row(`${units}+0 single-polarization`, `${inWords(units)} carriers in one polarization`, {
      ...told,
      protects: [AGGREGATED],
      doesNotProtect: ["antenna and what joins the units to it"],
    }),
  ];
}

function inWords(count: number): string {
  return ["no", "one", "two", "three", "four", "five", "six", "seven", "eight"][count] ?? String(count);
}

function range(from: number, to: number): number[] {
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
}
