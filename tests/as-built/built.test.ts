/** What was built beside what was planned: told where it differs, in figures, on the pages. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { builtDifferences, turnDeg } from "../../shared/as-built/differences.js";
import { magneticField } from "../../shared/geodesy/magnetic.js";
import type { Block } from "../../shared/report/document/document.js";
import { asBuiltSection } from "../../shared/report/pages/as-built.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { licensedHop } from "../../shared/rules/licences/example-licence.js";
import { judgeExample } from "../rules/example-design.js";
import { evaluated } from "./support.js";

const built = (facts: string, more = "") =>
  exampleHop({
    tarn: `antenna DISH60-18 at 40 m\n    transmits low\n    as-built on 2026-05-02 by "M.K." {\n      ${facts}\n    }`,
    more,
  });
const differences = (facts: string) => {
  const { hop, result } = evaluated(built(facts));
  return builtDifferences(hop, result);
};

test("what is as planned is told nowhere", () => {
  expect(differences("height 40.4 m")).toEqual([]);
  expect(judgeExample(built("height 40.4 m")).findings).toEqual([]);
});

test("a height, an antenna and an azimuth that are otherwise are told with what they cost", () => {
  // From TARN to KELD: 234 degrees. The catalogue of the examples states no beamwidth: 1 degree is as planned.
  const { result } = evaluated(built("height 40 m"));
  const azimuth = result.geometry![1].azimuthDeg;
  const [height, off] = differences(`height 36.5 m\n      azimuth ${(azimuth + 1.5).toFixed(4)} deg`);
  expect(height).toMatchObject({
    site: "TARN",
    fact: "height",
    planned: { figure: 40 },
    built: { figure: 36.5 },
  });
  expect(off!.fact).toBe("azimuth");
  // 0.6 m at 17.92 GHz: B = 70 * 0.01673/0.6 = 1.952 degrees, 12 (1.5/1.952)^2 = 7.09 dB.
  expect(off!.lessDb).toBeCloseTo(7.09, 1);
  expect(differences(`azimuth ${(azimuth + 0.9).toFixed(4)} deg`)).toEqual([]);
});

test("an azimuth that is off by just the declination is told as that, whichever way it came about", () => {
  // By the model's own formulas at TARN, 47.55 N 30.4 W, ground 200 m, on 2026-05-02; checked in tests/geodesy.
  const declinationDeg = magneticField(
    { latitudeDeg: 47.55, longitudeDeg: -30.4 },
    0,
    2026 + 121 / 365,
  )!.declinationDeg;
  expect(declinationDeg).toBeLessThan(-5);
  const { result } = evaluated(built("height 40 m"));
  const azimuth = result.geometry![1].azimuthDeg;
  const told = (offDeg: number) => {
    const { findings } = judgeExample(built(`azimuth ${(azimuth + offDeg).toFixed(3)} deg`));
    return findings.filter(({ rule }) => rule === "as-built-differs").map(({ message }) => message);
  };
  expect(told(declinationDeg)).toEqual([expect.stringContaining("set on a compass without it")]);
  expect(told(declinationDeg + 0.4)).toEqual([expect.stringContaining("set on a compass without it")]);
  expect(told(-declinationDeg)).toEqual([expect.stringContaining("read off a compass")]);
  for (const offDeg of [declinationDeg + 0.7, declinationDeg - 0.7, 3])
    expect(told(offDeg)).toEqual([expect.not.stringContaining("compass")]);
});

test("another antenna tells what its gain makes", () => {
  const other =
    "antenna DISH30-18 { band 17.7 GHz to 19.7 GHz; diameter 0.3 m; gain 32.5 dBi at 18.7 GHz }\n\n";
  const { hop, result } = evaluated(other + built("antenna DISH30-18"));
  expect(builtDifferences(hop, result)).toEqual([
    {
      site: "TARN",
      fact: "antenna",
      planned: { name: "DISH60-18" },
      built: { name: "DISH30-18" },
      lessDb: 6,
    },
  ]);
});

test("no figure of a hop rests on what was built or measured", () => {
  const plain = evaluated(exampleHop());
  const with_ = evaluated(
    built("height 12 m\n      azimuth 3 deg", "measured -90 dBm at TARN on 2026-05-02"),
  );
  expect(with_.result).toEqual(plain.result);
});

test("a licence is held against what was built, once for each end", () => {
  const text = licensedHop(
    "frequency 18.93 GHz\n  antenna DISH60-18\n  height 40 m\n  since 2020-01-01",
  ).replace("transmits high", "transmits high\n    as-built {\n      height 36.5 m\n    }");
  const { findings } = judgeExample(text);
  expect(findings.map(({ rule }) => rule).sort()).toEqual(["as-built-differs", "as-built-licence"]);
  const { message, at } = findings.find(({ rule }) => rule === "as-built-licence")!;
  expect(at).toBe("hop KELD-TARN / KELD / as-built / height");
  expect(message).toContain("36.5 m");
  expect(message).toContain("40.0 m");
});

test("the shorter way round between azimuths", () => {
  expect(turnDeg(359, 1)).toBeCloseTo(2, 12);
  expect(turnDeg(1, 359)).toBeCloseTo(-2, 12);
  const azimuth = fc.double({ min: 0, max: 360, noNaN: true });
  fc.assert(
    fc.property(azimuth, azimuth, (from, to) => {
      const turn = turnDeg(from, to);
      expect(Math.abs(turn)).toBeLessThanOrEqual(180);
      const there = (((from + turn - to) % 360) + 360) % 360;
      expect(Math.min(there, 360 - there)).toBeLessThan(1e-9);
    }),
  );
});

describe("on the page of a hop", () => {
  const tables = (blocks: readonly Block[]) =>
    blocks.flatMap((block) => (block.type === "table" ? [block] : []));

  test("there is nothing where nothing was measured or built", () => {
    const { hop, result } = evaluated(exampleHop());
    expect(asBuiltSection(hop, result)).toEqual([]);
  });

  test("readings stand beside what is promised, and what was built beside the plan", () => {
    const { hop, result } = evaluated(
      built(
        'height 36.5 m\n      serial "3F-1182" of unit',
        'measured -41.6 dBm at TARN on 2026-05-02 by "M.K." "<b>dry</b>"',
      ),
    );
    const [section] = asBuiltSection(hop, result);
    const [readings, ends] = tables(section!.blocks);
    expect(readings!.rows[0]!.cells).toEqual([
      "TARN",
      "128QAM",
      "-41.0 dBm",
      "-41.6 dBm",
      "–",
      "0.6 dB less",
      { text: "agrees", mark: "good" },
      "2026-05-02",
      "M.K.",
      "<b>dry</b>",
    ]);
    expect(ends!.caption).toBe("TARN as built, on 2026-05-02 by M.K.");
    expect(ends!.rows.map(({ cells }) => cells)).toEqual([
      ["Height of the antenna", "40.0 m", "36.5 m", { text: "-3.5 m", mark: "warning" }],
      ["Serial number, unit", "–", "3F-1182", "–"],
    ]);
    expect(JSON.stringify(section)).toContain("Not measured yet: KELD");
  });
});
