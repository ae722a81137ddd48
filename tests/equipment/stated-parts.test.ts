/**
 * Units against the ports of what is stated at an end: one for an antenna by itself, two for a hybrid or an orthomode
 * transducer, four for a dual-polarized coupler (common practice, the table of arrangements). Every combination of
 * stated antennas and couplers is read from text, judged and counted, and held against a count made here.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Hop } from "../../shared/design/design.js";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { standsOf } from "../../shared/equipment/stands.js";
import { hungAntennas, structureLoad } from "../../shared/equipment/structure-load.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { inverse } from "../../shared/geodesy/geodesic.js";
import { ARRANGEMENTS, arrangementByName } from "../../shared/radio/arrangements.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { levelGround } from "../evaluate/builders.js";
import { designOf } from "./designs.js";
import { partsOfHop } from "./parts-of-hop.js";
import { wiringFaults } from "./wiring-faults.js";

const CATALOGUE = `
antenna D18 { band 17.7 GHz to 19.7 GHz; diameter 0.6 m; gain 38.5 dBi at 18.7 GHz; polarizations dual; weight 10 kg }
antenna S18 { band 17.7 GHz to 19.7 GHz; diameter 0.3 m; gain 33 dBi at 18.7 GHz; polarizations dual; weight 4 kg }
coupler HY { kind hybrid; main-loss 3.5 dB; weight 2 kg }
coupler OM { kind omt; main-loss 0.4 dB; weight 1 kg }
coupler DP { kind dual-polarized; main-loss 3.9 dB; weight 3 kg }
`;

/** One antenna of an end and what joins units to it; a place without an antenna may have a coupler all the same. */
interface Place {
  readonly antenna?: "D18" | "S18";
  readonly coupler?: "HY" | "OM" | "DP";
}

const PLACES = ["", "second-", "third-", "fourth-"];

function endLines(places: readonly Place[], diversity: boolean): string {
  return places
    .flatMap(({ antenna, coupler }, i) => [
      antenna && `${i === 1 && diversity ? "diversity-" : PLACES[i]}antenna ${antenna} at ${40 - 2 * i} m`,
      coupler && `${PLACES[i]}coupler ${coupler} direct`,
    ])
    .filter((line) => line !== undefined)
    .join("\n    ");
}

function hopOf(
  name: string,
  places: readonly Place[],
  more = "",
): { hop: Hop; design: ReturnType<typeof designOf> } {
  const diversity = name.includes("space-");
  const end = (half: string) => `{\n    ${endLines(places, diversity)}\n    transmits ${half}\n  }`;
  const design = designOf(`${CATALOGUE}${more}
hop KELD-TARN {
  channel P18 / 55 MHz / 4
  polarization vertical
  arrangement ${name}
  radio R18
  mode 55 MHz 128QAM
  KELD ${end("high")}
  TARN ${end("low")}
}`);
  return { hop: design.hops.get("KELD-TARN")!, design };
}

function evaluate(hop: Hop) {
  const [from, to] = hop.ends.map(({ site }) => site.position!);
  return evaluateHop(hop, levelGround(inverse({ from: from!, to: to! }).distanceM));
}

const told = (hop: Hop) =>
  judgeHop(hop, evaluate(hop), "2026-01-01").filter(({ rule }) =>
    /^(antenna-ports-short|antenna-not-needed|coupler-(missing|wrong-kind|not-needed)|diversity-incomplete)$/.test(
      rule,
    ),
  );
const rulesOf = (name: string, places: readonly Place[]) => [
  ...new Set(told(hopOf(name, places).hop).map(({ rule }) => rule)),
];

const D: Place = { antenna: "D18" };
const DP: Place = { antenna: "D18", coupler: "DP" };
const OM: Place = { antenna: "D18", coupler: "OM" };
const HY: Place = { antenna: "D18", coupler: "HY" };

describe("what an arrangement needs is stated, on both sides of each limit", () => {
  test.each<[string, readonly Place[], readonly string[]]>([
    ["4+0 xpic", [DP], []],
    ["4+1 xpic", [DP], ["antenna-ports-short"]],
    ["4+1 xpic", [DP, DP], []],
    ["4+1 xpic", [DP, D], []],
    ["5+1 xpic", [DP, D], ["coupler-missing"]],
    ["5+1 xpic", [DP, OM], []],
    ["6+1 xpic", [DP, OM], ["antenna-ports-short"]],
    ["8+0 xpic", [DP], ["antenna-ports-short"]],
    ["8+0 xpic", [DP, D], ["coupler-missing"]],
    ["8+0 xpic", [D, DP], ["coupler-missing"]],
    ["8+0 xpic", [DP, DP], []],
    ["8+0 dual-polarization", [OM, OM, OM], ["antenna-ports-short"]],
    ["8+0 dual-polarization", [OM, OM, OM, OM], []],
    ["4+0 xpic", [OM], ["antenna-ports-short"]],
    ["4+0 xpic", [OM, OM], []],
    ["4+0 xpic", [DP, OM], ["antenna-not-needed", "coupler-not-needed"]],
    ["4+0 xpic", [HY], ["coupler-wrong-kind"]],
    ["2+0 xpic", [D], ["coupler-missing"]],
    ["2+0 xpic", [OM], []],
    ["2+0 xpic", [DP], ["coupler-wrong-kind"]],
    // A pair that cancels each other's polarization goes through one antenna; without XPIC two will do.
    ["2+0 xpic", [D, D], ["coupler-missing", "antenna-not-needed"]],
    ["2+0 dual-polarization", [D, D], []],
    ["2+0 single-polarization", [D], ["coupler-missing"]],
    ["2+0 single-polarization", [HY], []],
    ["2+0 single-polarization", [D, D], []],
    ["3+0 single-polarization", [HY], ["antenna-ports-short"]],
    ["3+0 single-polarization", [HY, D], []],
    ["3+1 single-polarization", [HY, D], ["coupler-missing"]],
    ["3+1 single-polarization", [HY, HY], []],
    ["7+1 single-polarization", [HY, HY, HY], ["antenna-ports-short"]],
    ["7+1 single-polarization", [HY, HY, HY, HY], []],
    ["1+1 hot-standby", [D], ["coupler-missing"]],
    ["1+1 hot-standby", [HY], []],
    ["1+1 hot-standby", [D, D], []],
    ["1+1 hot-standby two-antennas", [D], ["antenna-ports-short"]],
    ["1+1 hot-standby two-antennas", [HY], ["antenna-ports-short"]],
    ["1+1 hot-standby two-antennas", [D, D], []],
    ["1+1 hot-standby two-antennas", [HY, D], ["coupler-not-needed"]],
    ["1+1 space-diversity", [D], ["antenna-ports-short"]],
    ["1+1 space-diversity", [D, D], []],
    // Diversity at one end only: there the hybrid joins both units.
    ["1+1 space-diversity", [HY], ["diversity-incomplete"]],
    ["1+1 xpic four-units", [OM], ["antenna-ports-short"]],
    ["1+1 xpic four-units", [DP], []],
    ["1+1 xpic four-units", [OM, OM], []],
    ["1+0", [D], []],
    ["1+0", [HY], ["coupler-not-needed"]],
    ["1+0", [D, D], ["antenna-not-needed"]],
    ["1+0", [D, { coupler: "HY" }], ["coupler-not-needed"]],
    // Before the first antenna is stated, that is told, and nothing else.
    ["8+0 xpic", [{}], []],
  ])("%s with %j", (name, places, rules) => {
    expect(rulesOf(name, places).toSorted()).toEqual(rules.toSorted());
  });

  test("the messages count, and say what to state", () => {
    const of = (name: string, places: readonly Place[]) =>
      told(hopOf(name, places).hop).map(({ at, message, help }) => [at, message, help])[0];
    expect(of("8+0 xpic", [DP])).toEqual([
      "hop KELD-TARN / KELD / antenna",
      "8+0 xpic has 8 units at KELD; D18 with DP takes 4",
      "State a further antenna as `second-antenna`, and what joins units to it as `second-coupler`.",
    ]);
    expect(of("6+1 xpic", [DP, OM])).toEqual([
      "hop KELD-TARN / KELD / second-antenna",
      "6+1 xpic has 7 units at KELD; D18 with DP and D18 with OM take 6",
      "State a further antenna as `third-antenna`, and what joins units to it as `third-coupler`; or take a dual-polarized coupler, which joins four.",
    ]);
    expect(of("8+0 xpic", [DP, D])).toEqual([
      "hop KELD-TARN / KELD / second-antenna",
      "8+0 xpic needs a dual-polarized coupler for the second antenna at KELD; its loss is not in the level",
      undefined,
    ]);
    expect(of("5+1 xpic", [DP, D])![1]).toContain(
      "needs an orthomode transducer or a dual-polarized coupler for the second antenna",
    );
    expect(of("1+1 hot-standby two-antennas", [D])).toEqual([
      "hop KELD-TARN / KELD / antenna",
      "1+1 hot-standby two-antennas has an antenna for each of its 2 units; KELD states one",
      "State the other as `second-antenna`.",
    ]);
  });

  test("a coupler whose kind nobody knows joins nobody knows how many", () => {
    const { hop } = hopOf("1+1 hot-standby", [HY]);
    const vague = { ...hop.ends[0], coupler: { name: "X", mainLossDb: 3.5 } };
    expect(told({ ...hop, ends: [vague, hop.ends[1]] }).map(({ rule, message }) => [rule, message])).toEqual([
      [
        "coupler-wrong-kind",
        "the catalogue does not say what X at KELD is; 1+1 hot-standby needs a hybrid coupler",
      ],
    ]);
  });

  test("each word has its arrangements: the other one is told, with the right one", () => {
    const { hop } = hopOf("1+1 hot-standby two-antennas", [D, D]);
    const diverse = (end: Hop["ends"][0]) => ({
      ...end,
      further: undefined,
      diversityAntenna: end.antenna,
      diversityHeightM: 38,
    });
    const swapped = { ...hop, ends: [diverse(hop.ends[0]), diverse(hop.ends[1])] as const };
    expect(told(swapped).map(({ rule }) => rule)).toEqual([
      "antenna-ports-short",
      "antenna-ports-short",
      "diversity-incomplete",
      "diversity-incomplete",
    ]);
    expect(told(swapped).at(-1)!.help).toContain("`second-antenna`");
    const { hop: space } = hopOf("1+1 space-diversity", [D, D]);
    const further = (end: Hop["ends"][0]) => ({
      ...end,
      diversityAntenna: undefined,
      diversityHeightM: undefined,
      further: [{ antenna: end.antenna, heightM: 38 }],
    });
    const other = told({ ...space, ends: [further(space.ends[0]), further(space.ends[1])] });
    expect(other.filter(({ rule }) => rule === "antenna-not-needed")[0]!.help).toContain(
      "`diversity-antenna`",
    );
  });
});

const somePlaces = fc.array(
  fc.record(
    {
      antenna: fc.constantFrom("D18" as const, "S18" as const),
      coupler: fc.constantFrom("HY" as const, "OM" as const, "DP" as const),
    },
    { requiredKeys: [] },
  ),
  { minLength: 1, maxLength: 4 },
);
const outdoors = ARRANGEMENTS.filter(({ construction }) => construction === "split-mount");
const someArrangement = fc.constantFrom(...outdoors.map(({ name }) => name));

/** The most units that the stated parts can take, by the sort of units; made without the code that places them. */
function portsOf(name: string, places: readonly Place[]): number {
  const facts = arrangementByName(name)!;
  const paired = facts.xpicPairs > 0;
  let pairs = 0;
  let singles = 0;
  for (const { antenna, coupler } of places) {
    if (antenna === undefined) continue;
    const of = facts.dualPolarized ? { DP: 4, OM: 2, HY: 0 } : { DP: 0, OM: 0, HY: 2 };
    const ports = coupler === undefined ? 1 : of[coupler];
    pairs += paired ? Math.floor(ports / 2) : 0;
    singles += paired ? ports % 2 : ports;
  }
  if (!paired) return singles;
  // A single one of an odd number may take half of a place for two.
  const asked = Math.floor(facts.transceivers / 2);
  const left = pairs - asked;
  return 2 * Math.min(pairs, asked) + (facts.transceivers % 2 === 1 && (left > 0 || singles > 0) ? 1 : 0);
}

describe("over all arrangements and stated parts", () => {
  test("units find ports, or an error says that they do not", () => {
    fc.assert(
      fc.property(someArrangement, somePlaces, (name, places) => {
        fc.pre(places[0]!.antenna !== undefined);
        const facts = arrangementByName(name)!;
        const { hop } = hopOf(name, places);
        const errors = told(hop).filter(({ rule }) => !/not-needed|incomplete/.test(rule));
        const suiting = places.every(
          ({ antenna, coupler }) => antenna !== undefined || coupler === undefined,
        );
        const wrong = errors.some(({ rule }) => rule === "coupler-wrong-kind");
        if (facts.coupler === undefined) {
          const antennas = places.filter(({ antenna }) => antenna !== undefined).length;
          // Only the first place of a diversity antenna is one.
          const there = facts.spaceDiversity ? (places[1]?.antenna ? 2 : 1) : antennas;
          const together = facts.spaceDiversity && there === 1 && places[0]!.coupler === "HY";
          expect(errors.length > 0).toBe(there < facts.antennas && !together);
          return;
        }
        if (!suiting || wrong) return;
        expect(errors.length > 0).toBe(portsOf(name, places) < facts.transceivers);
      }),
      { numRuns: 1500 },
    );
  });

  test("the parts list, the mast and the resolved design hold what is stated and no more", () => {
    fc.assert(
      fc.property(someArrangement, somePlaces, (name, places) => {
        const { hop, design } = hopOf(name, places);
        const count = (kind: string) =>
          partsOfHop(hop, design).reduce((sum, part) => sum + (part.kind === kind ? part.quantity : 0), 0);
        const antennas = places.filter(({ antenna }) => antenna !== undefined);
        const couplers = places.filter(({ coupler }) => coupler !== undefined);
        expect([count("antenna"), count("coupler")]).toEqual([2 * antennas.length, 2 * couplers.length]);
        expect(count("unit")).toBe(2 * arrangementByName(name)!.outdoorUnits);
        const plan = sitePlans(design).get("KELD");
        if (plan === undefined) return;
        expect(hungAntennas(plan)).toHaveLength(antennas.length);
        const weights = { D18: 10, S18: 4, HY: 2, OM: 1, DP: 3 };
        const kg = places.reduce(
          (sum, { antenna, coupler }) =>
            sum + (antenna ? weights[antenna] : 0) + (coupler ? weights[coupler] : 0),
          0,
        );
        expect(structureLoad(plan).weightKg).toBe(kg);
      }),
      { numRuns: 500 },
    );
  });

  test("joints have two ends, no port is joined twice, and each unit has its antenna or is told", () => {
    fc.assert(
      fc.property(someArrangement, somePlaces, (name, places) => {
        const { design } = hopOf(name, places);
        for (const plan of sitePlans(design).values()) {
          const wiring = siteWiring(plan);
          expect(wiringFaults(wiring)).toEqual([]);
          const kinds = [...wiring.parts.values()].map(({ kind }) => kind);
          const antennas = plan.ends.flatMap(({ end, facts }) =>
            standsOf(end, facts!).filter(({ antenna }) => antenna !== undefined),
          );
          expect(kinds.filter((kind) => kind === "antenna")).toHaveLength(antennas.length);
          expect(kinds.filter((kind) => kind === "unit")).toHaveLength(
            plan.ends.reduce((sum, { facts }) => sum + facts!.transceivers, 0),
          );
          const loose = new Set(wiring.loose.map(({ part }) => part));
          const joined = new Set(wiring.joints.map(({ ends: [from] }) => from.part));
          for (const { id, kind } of wiring.parts.values())
            if (kind === "unit" || kind === "coupler") expect(joined.has(id) || loose.has(id), id).toBe(true);
        }
      }),
      { numRuns: 500 },
    );
  });

  test("every carrier hangs on a stated antenna, and its sums are those of the level diagram", () => {
    const gainDbi = { D18: 38.5, S18: 33 };
    const lossDb = { HY: 3.5, OM: 0.4, DP: 3.9 };
    fc.assert(
      fc.property(someArrangement, somePlaces, (name, places) => {
        const { hop } = hopOf(name, places);
        const { carriers, directions } = evaluate(hop);
        if (directions.length === 0) return;
        for (const { ends } of carriers) {
          for (const { antennaNumber, antenna, antennaHeightM, eirp } of ends) {
            const place = places[antennaNumber - 1]!;
            expect(antenna).toBe(place.antenna);
            expect(antennaHeightM).toBe(40 - 2 * (antennaNumber - 1));
            const joinDb = place.coupler === undefined ? 0 : lossDb[place.coupler];
            expect(eirp!.highestDbm).toBeCloseTo(20 + gainDbi[place.antenna!] - joinDb, 9);
          }
        }
        for (const { levels, receivedLevelDbm, to } of directions) {
          const sum = levels.reduce((level, { changeDb }) => level + changeDb, levels[0]!.levelDbm);
          expect(receivedLevelDbm).toBeCloseTo(sum, 9);
          const received = carriers.map(
            ({ ends }) => ends.find(({ site }) => site === to)!.received!.highestDbm,
          );
          expect(receivedLevelDbm).toBeCloseTo(Math.min(...received), 9);
        }
      }),
      { numRuns: 500 },
    );
  });

  test("what a unit has no place for leaves the level open, and never counts as met", () => {
    const objective = `objective asked { margin 1 dB; standby-margin 1 dB }\n`;
    for (const [name, places] of [
      ["8+0 xpic", [DP]],
      ["3+0 single-polarization", [HY]],
      ["2+0 single-polarization two-antennas", [D]],
    ] as const) {
      const { hop } = hopOf(name, places, objective);
      const { directions, missing } = evaluate(hop);
      expect(directions, name).toEqual([]);
      expect(missing, name).toContainEqual(
        expect.objectContaining({
          code: "fact",
          fact: { code: "further-antenna", site: "KELD", property: "second-antenna" },
        }),
      );
    }
    const { hop } = hopOf("1+1 hot-standby two-antennas", [D]);
    expect(evaluate(hop)).toMatchObject({ standby: { verdict: "open" } });
  });
});
