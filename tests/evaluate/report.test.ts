import { expect, test } from "vitest";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { explainHop } from "../../shared/report/explain.js";
import { levelTables, modeTables } from "../../shared/report/level-diagram.js";
import { STEP_WORDS } from "../../shared/report/step-words.js";
import { shown } from "../../shared/words/message.js";
import { methodShown } from "../../shared/words/methods.js";
import { levelGround, makeHop, notFinite, QAM128, QPSK } from "./builders.js";

const HOP = makeHop({ modes: [QPSK, QAM128] });
const LENGTH_M = evaluateHop(HOP, levelGround(9000)).distanceM!;
const RESULT = evaluateHop(HOP, levelGround(LENGTH_M));

test("a level table has a cell for each column, first and last level being those of the diagram", () => {
  const tables = levelTables(RESULT);
  expect(tables.map(({ title }) => title)).toEqual(["KELD to TARN, 18.93 GHz", "TARN to KELD, 17.92 GHz"]);
  for (const table of [...tables, ...modeTables(RESULT)]) {
    for (const row of table.rows) expect(row).toHaveLength(table.columns.length);
  }
  expect(tables[0]!.rows[0]).toEqual(["KELD", "transmitter output", "R18, 55 MHz 128QAM", "", "20.0 dBm"]);
  expect(tables[0]!.rows[1]).toEqual(["KELD", "transmit antenna", "DISH60-18", "+38.5 dBi", "58.5 dBm"]);
  expect(tables[0]!.rows.at(-1)![4]).toBe(`${RESULT.directions[0]!.receivedLevelDbm.toFixed(1)} dBm`);
});

test("each figure is explained with its method, its inputs and its steps", () => {
  const told = explainHop(HOP, RESULT);
  expect(notFinite(told)).toEqual([]);
  const of = (figure: string) => told.find((one) => one.figure.startsWith(figure))!;
  expect(of("rain attenuation").value).toBe(`${RESULT.rainAttenuation001Db!.toFixed(1)} dB`);
  // The steps end in the figure itself.
  const a001 = of("rain attenuation").steps.find(({ key }) => key === "A001Db")!;
  expect(Number(a001.value.replace(" dB", ""))).toBeCloseTo(RESULT.rainAttenuation001Db!, 3);
  expect(of("rain attenuation").inputs).toContainEqual({
    code: "rain-rate",
    rateMmPerH: 34,
    origin: "network climate",
  });
  expect(of("multipath outage").methods).toEqual(["multipath", "fade-distribution", "annual-conversion"]);
  expect(of("multipath outage").steps).toContainEqual(
    expect.objectContaining({ name: "mean clearance over the terrain at k 4/3, hc", key: "hcM" }),
  );
  expect(of("fade margin KELD to TARN, QPSK").steps[2]).toEqual({
    name: "threshold (catalogue)",
    value: "-86.0 dBm",
  });
});

test("every method of the result stands in some explanation, with its status", () => {
  const cited = new Set(explainHop(HOP, RESULT).flatMap(({ methods }) => methods));
  expect(RESULT.methods.filter((id) => !cited.has(id))).toEqual([]);
  for (const id of RESULT.methods) expect(shown(methodShown(id).standing)).not.toBe("");
});

test("what is missing is explained as missing", () => {
  const bare = makeHop({ climate: {} });
  const told = explainHop(bare, evaluateHop(bare, levelGround(LENGTH_M)));
  expect(
    told
      .filter(({ figure }) => figure === "not computed")
      .map(({ value }) => value)
      .join(" "),
  ).toContain("rain rate");
});

test("no step speaks in names of the code: words, symbols of the method, and a unit where there is one", () => {
  for (const { figure, steps } of explainHop(HOP, RESULT)) {
    for (const { name, value } of steps) {
      expect(name, figure).not.toMatch(/\b[a-z]+[a-z]*[A-Z][a-z]+/);
      expect(name.length, name).toBeGreaterThan(4);
      expect(value, name).not.toMatch(/e[+-]\d/);
    }
  }
  const units = STEPS_WITH_UNITS.map((key) => STEP_WORDS[key][1]);
  expect(units).toEqual(["mrad", "m", "dB/km", "km", "dB", "%"]);
});

test("a margin in a mode of more power says that the power is assumed to rise", () => {
  const of = (figure: string) => explainHop(HOP, RESULT).find((one) => one.figure.startsWith(figure))!;
  expect(of("fade margin KELD to TARN, QPSK").steps[0]!.value).toBe(
    "24.0 dBm, assumed to rise by 4.0 dB over 128QAM on fallback",
  );
  expect(of("fade margin KELD to TARN, 128QAM").steps[0]!.value).toBe("20.0 dBm");
  expect(of("received level KELD").figure).toBe("received level KELD to TARN, 128QAM, the mode at line-up");
});

const STEPS_WITH_UNITS = ["epMrad", "hcM", "gammaRDbPerKm", "deffKm", "A001Db", "p0Percent"] as const;
