/** Sheets of a hop say what was computed, in the language asked for, and run nothing that a name smuggles in. */
import { describe, expect, test } from "vitest";
import { expectedLevels } from "../../shared/as-built/expected.js";
import { heldReadings } from "../../shared/as-built/held.js";
import { magneticField } from "../../shared/geodesy/magnetic.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { acceptanceSheet } from "../../shared/report/sheets/acceptance.js";
import { lineUpSheet } from "../../shared/report/sheets/line-up.js";
import { signedDegrees } from "../../shared/report/sheets/norths.js";
import { ENGLISH } from "../../shared/report/sheets/words/english.js";
import { GERMAN } from "../../shared/report/sheets/words/german.js";
import type { SheetWords } from "../../shared/report/sheets/words/sheet-words.js";
import { measuredStandby } from "../../shared/rules/as-built/example-reading.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { evaluated } from "../as-built/support.js";
import { fixture } from "../support/fixture.js";

const MEASURED = measuredStandby(
  "-44.6 dBm at TARN on 2026-05-02",
  '-60.0 dBm at TARN branch standby on 2026-05-03 by "<script>alert(1)</script>"',
);

function sheetsOf(words: SheetWords, text = MEASURED, magneticDay?: string) {
  const { hop, result } = evaluated(text);
  const base = {
    hop,
    result,
    design: "Example",
    name: "hop",
    words,
    magneticDay: magneticDay === undefined ? undefined : { day: magneticDay },
    colophon: words.common.colophon("0", "-"),
  };
  const findings = [
    {
      rule: "clearance",
      severity: "error",
      message: "trees",
      accepted: { reason: "felled", until: "2027-05-01" },
    },
    { rule: "fade-margin", severity: "warning", message: "low" },
  ] as const;
  return {
    hop,
    result,
    lineUp: lineUpSheet({ ...base, findings: [] }),
    acceptance: acceptanceSheet({ ...base, findings }),
  };
}

const EMPTY = { name: "p", title: "T", keyFigures: [], colophon: "" };

const plain = (html: string) =>
  html
    .replace(/<style>.*?<\/style>/s, "")
    .replace(/<[^>]+>/g, " ")
    .replace(/\u00a0/g, " ")
    .replace(/\u2212/g, "-");

describe.each([
  ["English", ENGLISH],
  ["German", GERMAN],
])("in %s", (_, words) => {
  test("the sheet for line-up has every way through the branches with level and window", () => {
    const { hop, result, lineUp } = sheetsOf(words);
    const text = plain(printHtml(lineUp).text);
    for (const { modes } of expectedLevels(hop, result)) {
      const { levelDbm } = modes.at(-1)!;
      expect(text).toContain(words.figure(`${levelDbm.toFixed(1)} dBm`));
      expect(text).toContain(words.figure(`${(levelDbm + 3).toFixed(1)} dBm`));
    }
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
  });

  test("the sheet for acceptance has readings, exceptions with reason and end, open points, places to sign", () => {
    const text = plain(printHtml(sheetsOf(words).acceptance).text);
    for (const said of [
      words.figure("-44.6 dBm"),
      words.day("2026-05-02"),
      words.acceptance.readings.agrees,
      words.acceptance.readings.low,
      "felled",
      words.day("2027-05-01"),
      "fade-margin",
      ...words.acceptance.roles,
      words.common.signature,
    ])
      expect(text).toContain(said);
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
  });

  test("nothing in a name or reading becomes markup", () => {
    for (const page of Object.values(sheetsOf(words)).filter((one) => "sections" in one)) {
      const { text } = printHtml(page);
      expect(text).not.toContain("<script>alert");
      expect(text).toContain(`<html lang="${words.language}">`);
      expect(printMarkdown(page)[0]!.text).not.toContain("<script>");
    }
  });
});

test.each([
  ["nothing at all", 0, "0.0 dB"],
  ["what a computation left behind, above", 1e-13, "0.0 dB"],
  ["what a computation left behind, below", -1e-13, "0.0 dB"],
  ["less than is written", 0.04, "0.0 dB"],
  ["more", 0.3, "+0.3 dB"],
  ["less", -0.3, "-0.3 dB"],
])("a reading that is off its promise by %s", (_, moreDb, written) => {
  const { hop, result } = evaluated(measuredStandby("-44.6 dBm at TARN on 2026-05-02"));
  const [promised] = heldReadings(hop, result)!.readings;
  const levelDbm = promised!.mode!.levelDbm + moreDb;
  const read = { ...hop, measured: hop.measured!.map((one) => one && { ...one, levelDbm }) };
  const input = { hop: read, result, name: "hop", words: ENGLISH, colophon: "", findings: [] };
  const { blocks } = acceptanceSheet(input).sections.find(({ id }) => id === "levels")!;
  const table = blocks.find((block) => block.type === "table")!;
  expect(table.rows[0]!.cells[6]).toBe(written);
});

test("an azimuth on a compass that points true has a declination without a sign", () => {
  expect(signedDegrees(0.04, 1)).toBe("0.0°");
  expect(signedDegrees(-0.04, 1)).toBe("0.0°");
  expect(signedDegrees(1.25, 2)).toBe("+1.25°");
});

/** All texts of a table of words, by their places. */
function textsOf(words: unknown, place = ""): [string, string][] {
  if (typeof words === "string") return [[place, words]];
  if (typeof words !== "object" || words === null) return [];
  return Object.entries(words).flatMap(([key, value]) => textsOf(value, `${place}/${key}`));
}

/** Words that are the same in both languages. */
const ALIKE: ReadonlySet<string> = new Set([
  "/common/name",
  "/installation/antennas/polarization",
  "/lineUp/sender",
  "/roles/diversity",
  "/polarizations/horizontal",
  "/facts/elevation",
  "/facts/polarization",
  "/desk/licences/figures/EIRP",
  "/desk/frequencies/band",
]);

test("the second language says everything, and nothing in the words of the first", () => {
  const [english, german] = [ENGLISH, GERMAN].map(
    // What the design itself says in English is a piece in the other language alone.
    (words) => new Map(textsOf(words).filter(([place]) => !place.startsWith("/installation/pieces/"))),
  );
  expect([...german!.keys()].sort()).toEqual([...english!.keys()].sort());
  const same = [...english!].filter(([place, text]) => german!.get(place) === text && !ALIKE.has(place));
  expect(same).toEqual([]);
});

test("German figures have a comma and days their own order, and no English is left on a German sheet", () => {
  const { lineUp, acceptance } = sheetsOf(GERMAN);
  for (const page of [lineUp, acceptance]) {
    const text = plain(printHtml(page).text);
    expect(text).not.toMatch(/\d\.\d+ (dBm|dB|m|V|GHz|km|%)/);
    const words = text.split(/[^A-Za-z]+/);
    for (const english of [
      "the",
      "and",
      "with",
      "less",
      "level",
      "levels",
      "standby",
      "promised",
      "measured",
      "planned",
      "year",
      "most",
      "asked",
      "out",
      "true",
      "unit",
      "coupler",
    ])
      expect(
        words.filter((word) => word === english && !(english === "measured" && page === lineUp)),
      ).toEqual([]);
  }
});

test("fields are empty boxes on paper, lines in Markdown", () => {
  const { lineUp, acceptance } = sheetsOf(ENGLISH);
  const html = printHtml(lineUp).text;
  expect(html.match(/<td class="fill"/g)!.length).toBe(2 * 8 + ENGLISH.lineUp.steps.length + 1);
  expect(html.match(/<span class="box"><\/span>/g)!.length).toBeGreaterThan(8);
  expect(printHtml(acceptance).text.match(/class="signatures"/g)!.length).toBe(1);
  expect(printMarkdown(acceptance)[0]!.text).toContain("- Signature: …");
});

test("a compass shows the azimuth less the declination of the day that is stated; without one that is said", () => {
  const { result, lineUp } = sheetsOf(ENGLISH, MEASURED, "2026-05-02");
  const text = plain(printHtml(lineUp).text);
  // KELD of the examples; the model itself is held against its published values in tests/geodesy.
  const { declinationDeg } = magneticField({ latitudeDeg: 47.5, longitudeDeg: -30.5 }, 0, 2026 + 121 / 365)!;
  const shown = (result.geometry![0].azimuthDeg - declinationDeg).toFixed(1);
  expect(text).toContain(`${shown}° magnetic (declination ${declinationDeg.toFixed(1)}°)`);
  expect(text).toContain("World Magnetic Model 2025");
  expect(plain(printHtml(sheetsOf(ENGLISH).lineUp).text)).toContain(
    "states no day for them (magnetic-date) and no commit of git has one",
  );
  const later = plain(printHtml(sheetsOf(ENGLISH, MEASURED, "2031-01-01").lineUp).text);
  expect(later).toContain("outside the years of the World Magnetic Model 2025");
});

test("the day of compass bearings is a fact of the network", () => {
  const text = (day: string) => `network "N" {\n  magnetic-date ${day}\n}\n`;
  expect(fixture(text("2026-05-02")).model.design().magneticDay).toBe("2026-05-02");
  expect(fixture(text("2026-02-30")).model.design().magneticDay).toBeUndefined();
  const { model, file: path } = fixture(text("2026-02-30"));
  expect(model.problemsOf(path).length).toBeGreaterThan(0);
});

test("what was built is on the sheet for acceptance, as planned or not, and agrees only where there was a plan to agree with", () => {
  const builtOf = (facts: string) => {
    const text = exampleHop({
      tarn: `antenna DISH60-18 at 40 m\n    transmits low\n    as-built on 2026-05-02 by "M.K." {\n      ${facts}\n    }`,
    });
    const section = sheetsOf(ENGLISH, text).acceptance.sections.find(({ id }) => id === "built")!;
    return plain(printMarkdown({ ...EMPTY, sections: [section] })[0]!.text);
  };
  const { asPlanned, withinReason } = ENGLISH.acceptance;
  for (const [facts, told, not] of [
    ["height 40.4 m", ["40.4 m", "40.0 m", withinReason], [asPlanned]],
    ["height 44 m", ["44.0 m", "40.0 m"], [asPlanned, withinReason]],
    ['serial "A81" of unit', ["A81", asPlanned], [withinReason]],
    ["cable-length 31 m", ["31.0 m", asPlanned], [withinReason]],
  ] as const) {
    const text = builtOf(facts);
    for (const one of told) expect(text).toContain(one);
    for (const one of not) expect(text).not.toContain(one);
  }
});

test("a hop that misses what is asked of it says so on the sheet for line-up, and no other does", () => {
  const textOf = (heightM: number) => {
    const text = exampleHop({
      tarn: `antenna DISH60-18 at ${heightM} m\n    transmits low`,
    });
    return plain(printHtml(sheetsOf(ENGLISH, text).lineUp).text);
  };
  const said = ENGLISH.lineUp.missed("").slice(0, 40);
  expect(textOf(1)).toContain(said);
  expect(textOf(1)).toContain(ENGLISH.acceptance.criteria.clearance);
  expect(textOf(55)).not.toContain(said);
});
