/**
 * Counts, branches and losses of each arrangement against tests/vectors/equipment/arrangements.json (common practice)
 * and branching.json (added by hand from example arm losses).
 */
import { describe, expect, test } from "vitest";
import type { Coupler } from "../../shared/design/catalogue.js";
import { armLossDb, branchingLossDb } from "../../shared/equipment/branch-loss.js";
import { branchesOf, type PathState } from "../../shared/equipment/branches.js";
import { ARRANGEMENTS, arrangementByName } from "../../shared/radio/arrangements.js";
import { loadVectors, testRows } from "../support/vectors.js";
import { pathsOf } from "./paths-of.js";

interface Table {
  readonly status: string;
  readonly arrangements: readonly {
    readonly id: string;
    readonly perEnd: {
      outdoorUnits: number;
      radiating: number;
      workingCarriers: number;
      antennas: { count: number; kind: string }[];
      couplers: { count: number; kind: string }[];
      ifCables: number | string;
      ifPorts: number | string;
      indoorTransceivers?: number;
    };
    readonly perHop: { frequencyPairs: number | string; polarizations: number | string };
    readonly xpicPairsPerEnd?: number;
    readonly branches: { radiatesInNormalState: string }[];
    readonly paths: { state: string; loss: string }[];
  }[];
}

const TABLE = loadVectors<Table>("equipment/arrangements.json");

/** Words of the language for each arrangement of the table; where channels may be shared or not, both. */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  "1+0": ["1+0"],
  "1+1-hsb-1ant-equal": ["1+1 hot-standby"],
  "1+1-hsb-1ant-unequal": ["1+1 hot-standby"],
  "1+1-hsb-2ant": ["1+1 hot-standby two-antennas"],
  "1+1-fd": ["1+1 frequency-diversity"],
  "1+1-sd": ["1+1 space-diversity"],
  "2+0-sp-coupler": ["2+0 single-polarization"],
  "2+0-sp-2ant": ["2+0 single-polarization two-antennas"],
  "2+0-dp": ["2+0 dual-polarization"],
  "2+0-xpic": ["2+0 xpic"],
  "1+1-xpic": ["1+1 xpic four-units"],
  "3+1": ["3+1 xpic", "3+1 dual-polarization"],
  "4+0": ["4+0 xpic", "4+0 dual-polarization"],
  "all-outdoor-1+0": ["all-outdoor 1+0"],
  "all-outdoor-1+1": ["all-outdoor 1+1 hot-standby"],
  "all-indoor-1+0": ["all-indoor 1+0"],
  "all-indoor-1+1-hsb": ["all-indoor 1+1 hot-standby"],
  "all-indoor-1+1-sd": ["all-indoor 1+1 space-diversity"],
};

const COUPLER_IN_TABLE: Readonly<Record<string, string>> = {
  hybrid: "hybrid coupler",
  omt: "orthomode transducer",
  "dual-polarized": "dual-polarized coupler",
  splitter: "receive splitter",
};

const ROWS = TABLE.arrangements.flatMap((row) => (WORDS[row.id] ?? []).map((name) => ({ name, ...row })));

testRows("what hangs at each end", TABLE.status, ROWS, (row, is) => {
  const facts = arrangementByName(row.name)!;
  is.same("outdoor units", facts.outdoorUnits, row.perEnd.outdoorUnits);
  is.same("transceivers", facts.transceivers, row.perEnd.indoorTransceivers ?? row.perEnd.outdoorUnits);
  is.same("radiating", facts.radiating, row.perEnd.radiating);
  is.same("working carriers", facts.workingCarriers, row.perEnd.workingCarriers);
  is.same("IF cables", facts.ifCables, row.perEnd.ifCables);
  is.same("IF ports", facts.ifCables, row.perEnd.ifPorts);
  is.same("antennas", facts.antennas, row.perEnd.antennas[0]!.count);
  is.same("dual-polarized", facts.dualPolarized, row.perEnd.antennas[0]!.kind.startsWith("dual-polarized"));
  is.same("polarizations", facts.polarizations, row.perHop.polarizations);
  const pairs = row.perHop.frequencyPairs;
  is.same(
    "frequency pairs",
    facts.frequencyPairs,
    typeof pairs === "number" ? pairs : row.name.endsWith("xpic") ? 2 : 4,
  );
  if (row.xpicPairsPerEnd !== undefined && row.name.includes("xpic"))
    is.same("XPIC pairs", facts.xpicPairs, row.xpicPairsPerEnd);
  const [coupler] = row.perEnd.couplers;
  // The relay of the all-indoor space diversity is inside the terminal: nothing is mounted for it.
  if (row.id === "all-indoor-1+1-sd") return;
  is.same("couplers", facts.couplers, coupler?.count ?? 0);
  is.same("kind", coupler?.kind.startsWith(COUPLER_IN_TABLE[facts.coupler ?? ""] ?? "-") ?? true, true);
});

testRows("branches, and the paths between them", TABLE.status, ROWS, (row, is) => {
  const facts = arrangementByName(row.name)!;
  const branches = branchesOf(facts);
  is.same("branches", branches.length, row.branches.length);
  is.same(
    "radiating ones",
    branches.map(({ radiates }) => radiates).join(),
    row.branches.map(({ radiatesInNormalState }) => radiatesInNormalState.startsWith("yes")).join(),
  );
  // The table names only the switched states that an all-indoor terminal has with losses of their own.
  if (!row.name.startsWith("all-indoor")) is.same("paths", pathsOf(facts).length, row.paths.length);
  is.same("names are different", new Set(branches.map(({ name }) => name)).size, branches.length);
});

test("every arrangement of the table has words; those with N in it, and pairs of hops, go by rule", () => {
  const without = TABLE.arrangements.filter(({ id }) => WORDS[id] === undefined).map(({ id }) => id);
  expect(without).toEqual(["N+1", "dual-band"]);
  for (const count of [3, 4, 5, 6, 7]) {
    const facts = arrangementByName(`${count}+1 dual-polarization`)!;
    expect(facts).toMatchObject({
      outdoorUnits: count + 1,
      radiating: count + 1,
      workingCarriers: count,
      frequencyPairs: count + 1,
      couplers: Math.ceil((count + 1) / 4),
      antennas: Math.ceil((count + 1) / 4),
      ifCables: count + 1,
    });
    expect(arrangementByName(`${count}+1 xpic`)!.frequencyPairs).toBe(Math.ceil((count + 1) / 2));
    expect(arrangementByName(`all-indoor ${count}+1`)).toMatchObject({ outdoorUnits: 0, ifCables: 0 });
  }
});

test("words that mean two things in the trade name nothing", () => {
  for (const vague of ["1+1", "2+0", "1+1 xpic", "3+1", "4+0", "dual-band", "all-indoor 1+1"])
    expect(arrangementByName(vague), vague).toBeUndefined();
});

describe("losses of the branches", () => {
  const EQUAL: Coupler = { name: "E", kind: "hybrid", mainLossDb: 3.5 };
  const IDEAL: Coupler = { name: "I", kind: "hybrid", mainLossDb: 3.0103 };
  const UNEQUAL: Coupler = { name: "U", kind: "hybrid", mainLossDb: 1.6, standbyLossDb: 6.4 };
  const OMT: Coupler = { name: "O", kind: "omt", mainLossDb: 0.4 };
  const DUAL_EQUAL: Coupler = { name: "DE", kind: "dual-polarized", mainLossDb: 0.4 + 3.5 };
  const DUAL: Coupler = {
    name: "DU",
    kind: "dual-polarized",
    mainLossDb: 0.4 + 1.6,
    standbyLossDb: 0.4 + 6.4,
  };
  const RELAY: Coupler = { name: "S", kind: "splitter", mainLossDb: 1.6, transmitLossDb: 0.5 };

  /** Case of branching.json: what is mounted, and which path it speaks of. */
  const CASES: Readonly<Record<string, readonly [string, Coupler | undefined, PathState, number?]>> = {
    "1+0, direct mounting": ["1+0", undefined, "normal"],
    "1+0, separate, flexible waveguide 0.3 dB at each end": ["1+0", undefined, "normal", 0.6],
    "1+1-hsb-1ant-equal, ideal": ["1+1 hot-standby", IDEAL, "normal"],
    "1+1-hsb-1ant-equal, usual": ["1+1 hot-standby", EQUAL, "both on standby"],
    "1+1-hsb-1ant-unequal, normal": ["1+1 hot-standby", UNEQUAL, "normal"],
    "1+1-hsb-1ant-unequal, receiver standby": ["1+1 hot-standby", UNEQUAL, "receiver on standby"],
    "1+1-hsb-1ant-unequal, sender standby": ["1+1 hot-standby", UNEQUAL, "sender on standby"],
    "1+1-hsb-1ant-unequal, both": ["1+1 hot-standby", UNEQUAL, "both on standby"],
    "1+1-fd, each carrier, equal": ["1+1 frequency-diversity", EQUAL, "normal"],
    "1+1-fd, each carrier, unequal crossed": ["1+1 frequency-diversity", UNEQUAL, "normal"],
    "1+1-sd, any of four paths": ["1+1 space-diversity", undefined, "both on standby"],
    "2+0-sp-coupler, each carrier": ["2+0 single-polarization", EQUAL, "normal"],
    "2+0-dp, each carrier": ["2+0 dual-polarization", OMT, "normal"],
    "2+0-xpic, each carrier": ["2+0 xpic", OMT, "normal"],
    "1+1-xpic, normal, unequal": ["1+1 xpic four-units", DUAL, "normal"],
    "1+1-xpic, sender standby": ["1+1 xpic four-units", DUAL, "sender on standby"],
    "1+1-xpic, both": ["1+1 xpic four-units", DUAL, "both on standby"],
    "1+1-xpic, normal, equal": ["1+1 xpic four-units", DUAL_EQUAL, "normal"],
    "3+1, each carrier": ["3+1 xpic", DUAL_EQUAL, "normal"],
    "4+0, each carrier": ["4+0 dual-polarization", DUAL_EQUAL, "normal"],
    "dual-band, each band": ["dual-band low", undefined, "normal"],
    "all-indoor-1+1-hsb, relay 0.5, branching 1.0, feeder 3.0 each end, rx main 1.6": [
      "all-indoor 1+1 hot-standby",
      RELAY,
      "normal",
      2 * (1 + 3),
    ],
  };

  interface Branching {
    readonly source: string;
    readonly vectors: readonly { arrangement: string; case: string; loss_dB: number }[];
  }
  const { source, vectors } = loadVectors<Branching>("equipment/branching.json");
  const ofCouplers = vectors.filter(({ arrangement }) => arrangement !== "N+1");

  testRows("sum of sender's and receiver's branch", source, ofCouplers, (row, is) => {
    const [name, coupler, state, besideDb = 0] = CASES[`${row.arrangement}, ${row.case}`]!;
    const paths = pathsOf(arrangementByName(name)!).filter((path) => path.state === state);
    for (const { from, to } of paths) {
      const out = coupler ? armLossDb(coupler, from, "transmit")! : 0;
      const back = coupler ? armLossDb(coupler, to, "receive")! : 0;
      is.close(`${from.name} to ${to.name}`, out + back + besideDb, row.loss_dB, { absolute: 1e-9 });
    }
  });

  testRows(
    "branching network: position and its reverse",
    source,
    vectors.filter(({ arrangement }) => arrangement === "N+1"),
    (row, is) => {
      const [at, far] = row.case.startsWith("position 3") ? [3, 2] : [1, 4];
      const network = { filterDb: 0.7, passDb: 0.15 };
      is.close("sum", branchingLossDb(network, at) + branchingLossDb(network, far), row.loss_dB, {
        absolute: 1e-9,
      });
    },
  );

  test("in a branching network every channel loses the same over the hop", () => {
    const paths = pathsOf(arrangementByName("all-indoor 3+1")!);
    expect(paths.map(({ from, to }) => from.position + to.position)).toEqual([5, 5, 5, 5]);
  });
});

test("nothing is counted twice or not at all", () => {
  expect(new Set(ARRANGEMENTS.map(({ name }) => name)).size).toBe(ARRANGEMENTS.length);
  for (const facts of ARRANGEMENTS) {
    const branches = branchesOf(facts);
    expect(branches.length, facts.name).toBe(facts.transceivers);
    expect(branches.filter(({ radiates }) => radiates).length, facts.name).toBe(facts.radiating);
    // A hybrid takes two units a polarization, an orthomode transducer one.
    for (const branch of branches) {
      const beside = branches.filter(
        (other) =>
          other.antenna === branch.antenna &&
          other.polarization === branch.polarization &&
          other.arm === branch.arm,
      );
      if (facts.construction !== "all-indoor") expect(beside.length, `${facts.name} ${branch.name}`).toBe(1);
    }
  }
});
