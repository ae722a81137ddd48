/** Lists and patterns as files beside a design: read by the host, watched, and told where they cannot be used. */

import { appendFileSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, test } from "vitest";
import { judgeFolder } from "../../server/findings/judged-folder.js";
import { openMaps } from "../../server/maps/store.js";
import { patternIn } from "../../server/others/read-tables.js";
import { MAP_PRODUCTS } from "../../shared/propagation/maps.js";
import { readPattern } from "../../shared/radio/pattern-table.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { shownFrom } from "../session/shown.js";

const folder = mkdtempSync(join(tmpdir(), "hopwright-listed-")).replaceAll("\\", "/");
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const LIST = `others "register.csv" {
  latitude "lat"
  longitude "lon"
  frequency "f" in MHz
  bandwidth "b" in MHz
  eirp "p" in dBm
}
`;
const HEAD = "lat,lon,f,b,p\n";
const NEAR = "47.52,-30.45,18715,27.5,60\n";

function write(name: string, text: string): string {
  writeFileSync(`${folder}/${name}`, text);
  return `${folder}/${name}`;
}

beforeEach(() => {
  rmSync(`${folder}/register.csv`, { force: true });
  write("main.hop", `${EXAMPLE_PREAMBLE}${LIST}\n${exampleHop()}\n`);
});

/** What rules of lists and patterns say, each with the text that it stands at. */
async function told(rule: RegExp): Promise<readonly string[]> {
  const { designs } = await judgeFolder(folder, { today: "2026-06-01" });
  const [{ findings, model }] = designs as [(typeof designs)[0]];
  return findings.flatMap(({ rule: id, message, severity, place }) =>
    rule.test(id)
      ? `${severity} ${id} at ${model.file(place!.file)!.text.slice(place!.start, place!.end)}: ${message}`
      : [],
  );
}

describe("a list", () => {
  test("that is there and near says nothing", async () => {
    write("register.csv", HEAD + NEAR);
    expect(await told(/^others-/)).toEqual([]);
  });

  test("that is not there, or a folder", async () => {
    expect(await told(/^others-/)).toEqual([
      "error others-unusable at others: register.csv is not used: there is no such file or folder",
    ]);
    write("main.hop", `${EXAMPLE_PREAMBLE}${LIST.replace("register.csv", ".")}\n${exampleHop()}\n`);
    expect((await told(/^others-/)).join()).toContain("it is a folder");
  });

  test("with a wrong column is told once, at the column, with the nearest", async () => {
    write("register.csv", HEAD + NEAR);
    write("main.hop", `${EXAMPLE_PREAMBLE}${LIST.replace('"lat"', '"latt"')}\n${exampleHop()}\n`);
    expect(await told(/^others-/)).toEqual([
      'error others-column at "latt": register.csv has no column "latt"; did you mean "lat"?',
    ]);
  });

  test("that names no column for what it needs", async () => {
    write("register.csv", HEAD + NEAR);
    write("main.hop", `${EXAMPLE_PREAMBLE}others "register.csv" { }\n${exampleHop()}\n`);
    const [one, ...others] = await told(/^others-/);
    expect(others).toEqual([]);
    for (const lacks of ["latitude", "frequency", "bandwidth", "eirp"]) expect(one).toContain(lacks);
  });

  test("of which some rows are not read, or none", async () => {
    write("register.csv", `${HEAD}${NEAR}47.6,-30.4,high,28,60\n47.6,-30.4,18700,28,loud\n`);
    expect(await told(/^others-/)).toEqual([
      'warning others-rows at others: register.csv: 1 of 3 rows count; no frequency of the fixed service in line 3 ("high"); no EIRP in line 4 ("loud")',
    ]);
    write("register.csv", `${HEAD}47.6,-30.4,18.7,28,60\n`);
    expect(await told(/^others-/)).toEqual([
      'error others-rows at others: register.csv: 0 of 1 rows count; no frequency of the fixed service in line 2 ("18.7")',
    ]);
  });

  test("of which many rows are not read for one reason names the first five lines and counts the rest", async () => {
    const lost = "47.6,-30.4,high,28,60\n";
    const lines = async (count: number) => {
      write("register.csv", `${HEAD}${NEAR}${lost.repeat(count)}`);
      return /fixed service in (.*)$/.exec((await told(/^others-rows$/)).join())?.[1];
    };
    expect(await lines(5)).toBe('lines 3, 4, 5, 6, 7 ("high")');
    expect(await lines(6)).toBe('lines 3, 4, 5, 6, 7 and 1 more ("high")');
    expect(await lines(17)).toBe('lines 3, 4, 5, 6, 7 and 12 more ("high")');
  });

  // The box of the two sites reaches from 47.5 to 47.55 degrees north.
  test.each([
    ["38.6,-30.45", 0],
    ["38.4,-30.45", 1],
    ["56.5,-30.45", 0],
    ["56.6,-30.45", 1],
    // 9 degrees on the ground are 13.32 of longitude there.
    ["47.5,-17.2", 0],
    ["47.5,-17.0", 1],
  ])("%s is far from the network: %i", async (place, count) => {
    write("register.csv", `${HEAD}${place},18700,28,60\n`);
    expect(await told(/^others-far$/)).toHaveLength(count);
  });

  test("whose transmission a second list has too counts once, and so it is told", async () => {
    const second = LIST.replace("register", "second");
    write("main.hop", `${EXAMPLE_PREAMBLE}${LIST}\n${second}\n${exampleHop()}\n`);
    const further = "47.53,-30.44,18715,27.5,60\n";
    write("register.csv", HEAD + NEAR);
    // Written with other digits, and a further one.
    write("second.csv", `${HEAD}${NEAR.replace("47.52,", "47.520001,")}${further}`);
    expect(await told(/^others-/)).toEqual([
      "warning others-rows at others: second.csv: 1 of 2 rows count; line 2 is a transmission that register.csv has too, and counts once",
    ]);
    // Whoever is there twice in one list is two.
    write("register.csv", `${HEAD}${further}`);
    write("second.csv", HEAD + NEAR + NEAR.replace("60", "61"));
    expect(await told(/^others-/)).toEqual([]);
    rmSync(`${folder}/second.csv`);
  });

  test("with its coordinates exchanged", async () => {
    write("register.csv", `${HEAD}-30.45,47.52,18700,28,60\n`);
    expect((await told(/^others-/)).join()).toContain("with latitude and longitude exchanged it would");
    write("register.csv", `${HEAD}-130.45,47.52,18700,28,60\n`);
    expect((await told(/^others-/)).join()).toContain("latitude and longitude look exchanged in line 2");
  });

  test("that an editor holds open is read again when it changes", async () => {
    const path = write("register.csv", HEAD + NEAR);
    const { designs, shown, settled } = shownFrom(folder);
    await settled();
    const said = () => (shown.get(`${folder}/main.hop`) ?? []).filter((text) => /register/.test(text));
    expect(said()).toEqual([]);
    appendFileSync(path, "47.6,-30.4,high,28,60\n");
    utimesSync(path, 1_800_000_000, 1_800_000_000);
    for (const session of designs.allSessions()) await session.refreshGround([path]);
    await settled();
    expect(said().join()).toContain("1 of 2 rows count");
    expect(designs.placesNamed()).toContain(path);
  });
});

describe("a pattern", () => {
  const points = (text: string) => patternIn(new TextEncoder().encode(text));
  const ANTENNA = `antenna DISH60-18X like DISH60-18 {
  pattern-file "dish.csv"
}
`;
  const hop = exampleHop({ keld: "antenna DISH60-18X at 40 m\n    transmits high" });

  const THREE = [
    { angleDeg: 0, copolarDb: 0, crossPolarDb: 30 },
    { angleDeg: 5, copolarDb: 25, crossPolarDb: 40 },
    { angleDeg: 180, copolarDb: 60 },
  ];

  test.each([
    ["with heads", "angle,co,cross\n0,0,30\n5,25,40\n180,60,\n"],
    ["with heads in another order", "Cross [dB];Angle [deg];Co [dB]\n30;0;0\n40;5;25\n;180;60\n"],
    ["without heads", "0,0,30\n5,25,40\n180,60\n"],
    ["with decimal commas", "angle;co;cross\n0,0;0,0;30,0\n5,0;25,0;40,0\n180,0;60,0;\n"],
  ])("%s", (_, text) => {
    expect(points(text)).toEqual({ points: THREE, faults: [] });
  });

  test("of levels relative to boresight has its sign turned, and says so", () => {
    expect(points("0,0,-30\n5,-25,-40\n180,-60\n")).toEqual({ points: THREE, faults: [], turned: true });
  });

  test.each([
    ["180,60", "180.1,60", "angle"],
    ["6,0", "-1,0", "angle"],
    ["90,0", "90,-0.1", "above"],
    ["90,40", "90,low", "unread"],
    ["10,40", "4,40", "order"],
    ["10,40", "5,40", "doubled"],
  ])("behind 5 degrees %s stands, %s is told", (good, bad, code) => {
    const base = "angle,co\n5,25\n";
    expect(points(base + good)).toMatchObject({ faults: [] });
    expect(points(base + bad)).toMatchObject({ faults: [{ code, rows: 1, line: 3 }] });
  });

  test("of two figures for one angle keeps the one that lets more through", () => {
    expect(points("5,30\n5,25\n")).toMatchObject({ points: [{ angleDeg: 5, copolarDb: 25 }] });
  });

  test.each([
    ["", "it has no rows"],
    ["a,b\n1,2\n", "names no angle"],
    ["angle,co\nx,y\n", "no row with an angle"],
  ])("%j is none", (text, reason) => {
    expect(points(text)).toEqual({ unusable: expect.stringContaining(reason) });
  });

  test("is told at the antenna that names it", async () => {
    write("register.csv", HEAD + NEAR);
    write("main.hop", `${EXAMPLE_PREAMBLE}${LIST}${ANTENNA}${hop}\n`);
    expect(await told(/^pattern-/)).toEqual([
      'error pattern-file at "dish.csv": the pattern dish.csv of DISH60-18X is not used: there is no such file or folder',
    ]);
    write("dish.csv", "0,0\n5,25\n4,20\n-5,25\n-10,30\n");
    expect(await told(/^pattern-/)).toEqual([
      'warning pattern-file at "dish.csv": the pattern dish.csv of DISH60-18X: angles below 0 or above 180 degrees are left out (2 rows, first in line 4)',
      'warning pattern-file at "dish.csv": the pattern dish.csv of DISH60-18X: its angles do not ascend (line 3)',
    ]);
  });
});

test("maps of the lapse and of the refractivity at sea level are read from the folder of maps", async () => {
  const { shape } = MAP_PRODUCTS.find(({ fact }) => fact === "lapseNPerKm")!;
  const map = (value: number) =>
    `${Array.from({ length: shape.rows }, () => Array.from({ length: shape.columns }, () => value).join(" ")).join("\n")}\n`;
  write("DN50.TXT", map(41.5));
  write("N050.TXT", map(321));
  const maps = await openMaps([folder], folder);
  const readings = await maps.readings({ latitudeDeg: 47.5, longitudeDeg: -30.5 }, [
    "lapseNPerKm",
    "surfaceRefractivity",
  ]);
  expect(readings.map(({ fact, value }) => [fact, value])).toEqual([
    ["lapseNPerKm", 41.5],
    ["surfaceRefractivity", 321],
  ]);
  expect(maps.problems).toEqual([]);
});

test("a pattern takes no discrimination that no antenna has", () => {
  const rows = (...lines: string[]) =>
    lines.map((line, index) => ({ line: index + 1, cells: line.split(",") }));
  const file = readPattern(rows("0,0,30", "10,120,120", "20,120.1,130", "30,40,3000"));
  if ("unusable" in file) throw new Error(file.unusable);
  expect(file.points.map(({ angleDeg }) => angleDeg)).toEqual([0, 10]);
  expect(file.faults).toEqual([{ code: "beyond", rows: 2, line: 3 }]);
});
