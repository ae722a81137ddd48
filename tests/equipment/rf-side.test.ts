/** A feeder of a further antenna's own, arms exchanged at an end, and polarizations that lose different amounts: level, parts, wiring. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { branchesOf, type Join } from "../../shared/equipment/branches.js";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { structureLoad } from "../../shared/equipment/structure-load.js";
import { turnedAt } from "../../shared/equipment/turning.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { inverse } from "../../shared/geodesy/geodesic.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { levelGround } from "../evaluate/builders.js";
import { judgeExample } from "../rules/example-design.js";
import { designOf } from "./designs.js";
import { partsOfHop } from "./parts-of-hop.js";
import { wiringFaults } from "./wiring-faults.js";

const CATALOGUE = `
antenna VH like DISH60-18 { polarizations dual }
feeder FLEX { kind flexible; loss 1 dB/m }
feeder LINE { kind elliptical; loss 2 dB/m; weight-per-length 1 kg/m }
coupler DP { kind dual-polarized; main-loss 2 dB; standby-loss 7 dB }
coupler DQ { kind dual-polarized; main-loss 2 dB; standby-loss 7 dB; second-main-loss 2.4 dB; second-standby-loss 7.9 dB }
`;

function hopOf(arrangement: string, keld: string, tarn: string = keld) {
  const text = `${CATALOGUE}
hop KELD-TARN {
  channel P18 / 55 MHz / 4
  polarization vertical
  arrangement ${arrangement}
  radio R18
  mode 55 MHz 128QAM
  KELD {
    ${keld}
    transmits high
  }
  TARN {
    ${tarn}
    transmits low
  }
}`;
  const design = designOf(text);
  const hop = design.hops.get("KELD-TARN")!;
  const [from, to] = hop.ends.map(({ site }) => site.position!);
  const result = evaluateHop(hop, levelGround(inverse({ from: from!, to: to! }).distanceM));
  return { text, design, hop, result };
}

/** Received level of each path from KELD to TARN: by its state and the branch that sends. */
function levels(...given: Parameters<typeof hopOf>): Map<string, number> {
  const there = hopOf(...given).result.directions.find(({ from }) => from === "KELD")!;
  return new Map(there.paths!.map((path) => [`${path.state}, ${path.from}`, path.receivedLevelDbm]));
}

const told = (rule: string, text: string) =>
  judgeExample(text)
    .findings.filter((one) => one.rule === rule)
    .map(({ severity, message }) => `${severity}: ${message}`);

describe("a feeder of a further antenna's own", () => {
  const TWO = "1+1 hot-standby two-antennas";
  const ends = (more: string) =>
    `antenna DISH60-18 at 40 m\n    second-antenna DISH60-18 at 36 m\n    feeder FLEX length 0.9 m\n    ${more}`;

  test("its loss counts for the units on that antenna, that of the end for the others", () => {
    const same = levels(TWO, ends(""));
    const own = levels(TWO, ends("second-feeder FLEX length 1.9 m"));
    expect([...own.keys()]).toEqual([...same.keys()]);
    const lost = (path: string) => same.get(path)! - own.get(path)!;
    expect(lost("normal, main")).toBeCloseTo(0, 9);
    // A metre more of 1 dB/m at the sender, at the receiver, at both.
    expect(lost("receiver on standby, main")).toBeCloseTo(1, 9);
    expect(lost("sender on standby, standby")).toBeCloseTo(1, 9);
    expect(lost("both on standby, standby")).toBeCloseTo(2, 9);
  });

  test("of a diversity antenna too", () => {
    const div = (more: string) =>
      `antenna DISH60-18 at 40 m\n    diversity-antenna DISH60-18 at 30 m\n    feeder FLEX length 0.9 m\n    ${more}`;
    const at = (more: string) => levels("1+1 space-diversity", div(more));
    const path = "receiver on standby, main";
    expect(at("").get(path)! - at("second-feeder FLEX length 1.4 m").get(path)!).toBeCloseTo(0.5, 9);
  });

  test("pieces in the parts list, guides in the wiring and what hangs on the structure are those stated", () => {
    fc.assert(
      fc.property(fc.boolean(), fc.boolean(), (first, second) => {
        const lines = [
          "antenna DISH60-18 at 40 m",
          "second-antenna DISH60-18 at 36 m",
          "mounting separate",
          ...(first ? ["feeder FLEX length 0.9 m"] : []),
          ...(second ? ["second-feeder LINE length 1.9 m"] : []),
        ].join("\n    ");
        const { design, hop } = hopOf(TWO, lines);
        const pieces = partsOfHop(hop, design)
          .filter(({ kind }) => kind === "feeder")
          .map(({ name, detail, quantity }) => `${quantity} ${name} ${detail ?? ""}`.trim());
        // Two ends with two antennas each; what nothing leads to has its guide to be chosen.
        const own = [...(first ? [`${second ? 2 : 4} FLEX 0.9 m`] : []), ...(second ? ["2 LINE 1.9 m"] : [])];
        const open = first ? 0 : second ? 2 : 4;
        expect(pieces.toSorted()).toEqual(
          [...own, ...(open > 0 ? [`${open} waveguide, to be chosen`] : [])].toSorted(),
        );
        for (const plan of sitePlans(design).values()) {
          const wiring = siteWiring(plan);
          expect(wiringFaults(wiring)).toEqual([]);
          const guides = wiring.joints.flatMap(({ by }) => (by.kind === "waveguide" ? [by.feeder] : []));
          expect(guides.toSorted()).toEqual(
            [first ? "FLEX" : undefined, second ? "LINE" : first ? "FLEX" : undefined].toSorted(),
          );
          const hung = structureLoad(plan)!.parts.filter(({ name }) => name === "LINE");
          expect(hung.map(({ weightKg }) => weightKg)).toEqual(second ? [1.9] : []);
        }
      }),
    );
  });

  test("the rules of feeders look at it at its own line", () => {
    const { text } = hopOf(
      TWO,
      ends("second-feeder FLEX length 2.1 m"),
      ends("second-feeder FLEX length 2 m"),
    );
    const found = judgeExample(text).findings.filter(({ rule }) => rule === "flexible-guide-long");
    expect(found.map(({ at }) => at)).toEqual(["hop KELD-TARN / KELD / second-feeder.length"]);
  });
});

describe("arms exchanged at an end", () => {
  const HSB = "1+1 hot-standby";
  const end = (more = "", coupler = "H18-U") =>
    `antenna DISH60-18 at 40 m\n    coupler ${coupler} direct\n    ${more}`;
  /** Of H18-U: 1.6 and 6.4 dB. */
  const APART_DB = 4.8;

  test("the normal state loses the difference of the arms there, the standby gains it", () => {
    const [as, one] = [levels(HSB, end()), levels(HSB, end("arms exchanged"), end())];
    const lost = (path: string) => as.get(path)! - one.get(path)!;
    expect(lost("normal, main")).toBeCloseTo(APART_DB, 9);
    expect(lost("sender on standby, standby")).toBeCloseTo(-APART_DB, 9);
    const both = levels(HSB, end("arms exchanged"));
    expect(as.get("normal, main")! - both.get("normal, main")!).toBeCloseTo(2 * APART_DB, 9);
  });

  test("carriers that share a coupler are uncrossed by it at one end, and crossed again at both", () => {
    const spread = (...ends: [string, string]) => {
      const all = [...levels("2+0 single-polarization", ...ends).values()];
      return Math.max(...all) - Math.min(...all);
    };
    expect(spread(end(), end())).toBeCloseTo(0, 9);
    expect(spread(end("arms exchanged"), end())).toBeCloseTo(2 * APART_DB, 9);
    expect(spread(end("arms exchanged"), end("arms exchanged"))).toBeCloseTo(0, 9);
  });

  test("is told with what it costs, and not where it costs nothing", () => {
    const found = (...given: Parameters<typeof hopOf>) => told("arms-exchanged", hopOf(...given).text);
    expect(found(HSB, end(), end())).toEqual([]);
    expect(found(HSB, end("arms exchanged", "H18-E"))).toEqual([]);
    expect(found(HSB, end("arms exchanged"), end())).toEqual([
      "warning: main and standby are on each other's arms at KELD: in the normal state the hop loses 4.8 dB more there",
    ]);
    expect(found("2+0 single-polarization", end(), end("arms exchanged"))).toEqual([
      "warning: with the arms exchanged at TARN carriers stand on like arms at both ends: one loses 9.6 dB more than another",
    ]);
    expect(found("2+0 single-polarization", end("arms exchanged"))).toEqual([]);
    expect(
      found("1+0", "antenna DISH60-18 at 40 m\n    arms exchanged", "antenna DISH60-18 at 40 m"),
    ).toEqual(["warning: there are no main and standby arms to exchange at KELD"]);
  });

  test("in the wiring each unit is on the arm that its level counts", () => {
    const { design } = hopOf(HSB, end("arms exchanged"), end());
    const arms = (site: string) =>
      siteWiring(sitePlans(design).get(site)!)
        .joints.filter(({ ends }) => ends[0].part.startsWith("unit "))
        .map(({ ends: [from, to] }) => `${from.part.split(" ").at(-1)}: ${to.port}`);
    expect(arms("KELD")).toEqual(["main: standby arm", "standby: main arm"]);
    expect(arms("TARN")).toEqual(["main: main arm", "standby: standby arm"]);
  });

  test("of any arrangement and joining nothing else changes, and twice exchanged is as before", () => {
    const join = fc.constantFrom<Join>("none", "hybrid", "omt", "dual-polarized", "splitter", "nothing");
    fc.assert(
      fc.property(
        fc.constantFrom(...ARRANGEMENTS),
        fc.array(join, { minLength: 1, maxLength: 4 }),
        fc.constantFrom(0 as const, 1 as const),
        (facts, joins, side) => {
          const usual = branchesOf(facts, joins, side);
          const other = branchesOf(facts, joins, side, true);
          expect(other.map(({ arm: _, ...rest }) => rest)).toEqual(usual.map(({ arm: _, ...rest }) => rest));
          for (const [index, { arm, antenna }] of usual.entries()) {
            const stays = arm === "none" || joins[antenna - 1] === "omt" || antenna > joins.length;
            expect(other[index]!.arm === arm).toBe(stays);
          }
        },
      ),
    );
  });
});

describe("a dual-polarized coupler whose polarizations lose different amounts", () => {
  const end = (coupler: string) => `antenna VH at 40 m\n    coupler ${coupler} direct`;
  const XPIC = "1+1 xpic four-units";

  test("each path loses what the arm of its own polarization does, at both ends", () => {
    const [alike, apart] = [levels(XPIC, end("DP")), levels(XPIC, end("DQ"))];
    const lost = (path: string) => alike.get(path)! - apart.get(path)!;
    for (const state of ["normal", "receiver on standby"])
      expect(lost(`${state}, first polarization, main`)).toBeCloseTo(0, 9);
    expect(lost("normal, second polarization, main")).toBeCloseTo(0.8, 9);
    expect(lost("sender on standby, second polarization, standby")).toBeCloseTo(0.4 + 0.9, 9);
    expect(lost("both on standby, second polarization, standby")).toBeCloseTo(1.8, 9);
  });

  test("neither polarization gives out more than it takes in", () => {
    const found = (losses: string) => {
      const design = hopOf(XPIC, end("DP")).text.replace(
        "coupler DP { kind dual-polarized; main-loss 2 dB; standby-loss 7 dB }",
        `coupler DP { kind dual-polarized; main-loss 2 dB; standby-loss 7 dB; ${losses} }`,
      );
      return told("coupler-impossible", design);
    };
    expect(found("second-main-loss 1.3 dB; second-standby-loss 7 dB")).toEqual([]);
    expect(found("second-main-loss 0.9 dB")).toHaveLength(1);
    expect(found("second-main-loss 0.9 dB")[0]).toContain("second polarization: DP loses 0.9 dB and 7 dB");
  });
});

describe("what is turned between both polarizations", () => {
  const turned = (antenna: string, radio: string, lines = "", arrangement = "1+0") => {
    const design = designOf(`${CATALOGUE}
antenna TX like DISH60-18 { ${antenna} }
radio RT like R18 { ${radio} }
${exampleHop({ hop: `polarization horizontal\n  radio RT\n  mode 55 MHz 128QAM\n  arrangement ${arrangement}`, keld: `antenna TX at 40 m\n    ${lines}\n    transmits high` })}`);
    const hop = design.hops.get("KELD-TARN")!;
    return turnedAt(hop, hop.ends[0]);
  };

  test("what sits on the antenna, else its feed; as the radio states; where anything is said", () => {
    expect(turned("", "")).toBeUndefined();
    expect(turned("takes either", "")).toBe("unit");
    expect(turned("takes either", "", "coupler H18-U direct", "1+1 hot-standby")).toBe("coupler");
    expect(turned("takes either", "", "feeder FLEX length 0.9 m")).toBe("feed");
    expect(turned("takes either", "turns no")).toBe("feed");
    expect(turned("", "turns yes", "feeder FLEX length 0.9 m")).toBe("unit");
    expect(turned("takes horizontal", "turns yes")).toBeUndefined();
    expect(turned("polarizations dual", "turns yes")).toBeUndefined();
    expect(turned("takes either", "", "coupler O18 direct", "2+0 dual-polarization")).toBeUndefined();
  });
});
