/** What is signed for stands on the sheets in figures: those of the evaluation, each criterion, each unit, each way. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { expectedLevels, levelWindowDb, unitPlaces } from "../../shared/as-built/expected.js";
import type { Hop } from "../../shared/design/design.js";
import { rssiVoltage } from "../../shared/equipment/rssi.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { withinReason } from "../../shared/evaluate/reason.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import type { FormField, Page, Table } from "../../shared/report/document/document.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { acceptanceSheet } from "../../shared/report/sheets/acceptance.js";
import { askedRows } from "../../shared/report/sheets/acceptance-asked.js";
import { lineUpSheet } from "../../shared/report/sheets/line-up.js";
import { ENGLISH } from "../../shared/report/sheets/words/english.js";
import { GERMAN } from "../../shared/report/sheets/words/german.js";
import type { SheetWords } from "../../shared/report/sheets/words/sheet-words.js";
import { measuredStandby } from "../../shared/rules/as-built/example-reading.js";
import { criteriaOf } from "../../shared/rules/asked.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { evaluated } from "../as-built/support.js";
import { CATALOGUE, textOf, wanted } from "../equipment/arrangement-texts.js";

const arrangements = fc.constantFrom(...ARRANGEMENTS.map(({ name }) => name));

/** What an objective may ask; absurd figures too, which are asked all the same and judged by nobody. */
const objectives = fc.record(
  {
    availability: fc.constantFrom("99 %", "99.99 %", "99.9999 %"),
    capacity: fc.constantFrom("1 Mbit/s", "300 Mbit/s", "900 Mbit/s"),
    margin: fc.constantFrom("1 dB", "20 dB", "44.5 dB", "300 dB"),
    "standby-margin": fc.constantFrom("5 dB", "40 dB"),
    clearance: fc.constantFrom("1 F1 at k 1.33", "9 F1 at k 0.7"),
    "diversity-clearance": fc.constantFrom("0.3 F1 at k 1.33"),
    "availability-class": fc.constantFrom("access", "short-haul"),
    quality: fc.constantFrom("access", "short-haul"),
  },
  { requiredKeys: [] },
);

const hops = fc
  .record({
    name: arrangements,
    channels: fc.uniqueArray(fc.integer({ min: 1, max: 17 }), { minLength: 1, maxLength: 8 }),
    asked: fc.option(objectives, { nil: undefined }),
    repair: fc.boolean(),
    heightM: fc.constantFrom(4, 12, 40),
    lossDb: fc.constantFrom(0, 25, 60),
    modes: fc.boolean(),
  })
  .map(({ name, channels, asked, repair, heightM, lossDb, modes }) => {
    const objective = Object.entries(asked ?? {}).map(([fact, value]) => `  ${fact} ${value}`);
    const text = textOf(name, channels, "KELD", "TARN")
      .replaceAll("at 40 m", `at ${heightM} m\n    extra-loss ${lossDb} dB`)
      .replace("  mode 55 MHz 128QAM", modes ? "  modes 55 MHz QPSK to 128QAM" : "  mode 55 MHz 128QAM")
      .replace(
        "  polarization vertical",
        `  polarization vertical${asked ? "\n  objective wanted" : ""}${repair ? "\n  repair-time 6 h" : ""}`,
      );
    const radio = repair
      ? CATALOGUE.replace("radio R18S like R18 {", "radio R18S like R18 {\n  mtbf 400000 h")
      : CATALOGUE;
    return evaluated(`${radio}objective wanted {\n${objective.join("\n")}\n}\n${text}`);
  });

function sheets(hop: Hop, result: HopResult, words: SheetWords) {
  const base = { hop, result, name: "p", words, colophon: "", findings: [] };
  return { acceptance: acceptanceSheet(base), lineUp: lineUpSheet(base) };
}

const figureIn = (text: string | undefined) => Number(/-?\d+(\.\d+)?/.exec(text ?? "")?.[0]);
const tablesIn = (page: Page, id: string): readonly Table[] =>
  page.sections.find((one) => one.id === id)!.blocks.filter((block) => block.type === "table");

test("each criterion of the objective is there with its verdict, whatever is asked of whichever arrangement", () => {
  fc.assert(
    fc.property(hops, ({ hop, result }) => {
      const rows = askedRows({ hop, result, words: ENGLISH });
      const criteria = hop.objective === undefined ? [] : criteriaOf(hop, withinReason(hop).hop, result);
      for (const { rule, verdict } of criteria) {
        const verdicts = rows.flatMap((row) => (row.rule === rule ? [row.verdict] : []));
        expect([rule, (["missed", "open", "met"] as const).find((one) => verdicts.includes(one))]).toEqual([
          rule,
          verdict,
        ]);
      }
      // And nothing is judged that nobody asks.
      const asked = new Set(criteria.map(({ rule }) => rule));
      expect(rows.filter(({ rule }) => rule !== undefined && !asked.has(rule))).toEqual([]);
    }),
    { numRuns: 150 },
  );
});

test("its figures are those of the evaluation, and what is missed never reads as met", () => {
  fc.assert(
    fc.property(hops, ({ hop, result }) => {
      const rows = askedRows({ hop, result, words: ENGLISH });
      const margins = rows
        .filter(({ what }) => what === "Fade margin")
        .filter(({ where }) => where !== undefined);
      for (const row of margins) {
        const mode = result.directions
          .find(({ to }) => row.where!.startsWith(to))!
          .modes.find(({ modulation }) => row.where!.endsWith(modulation))!;
        expect(Math.abs(figureIn(row.promised) - mode.fadeMarginDb)).toBeLessThanOrEqual(0.05 + 1e-9);
        if (row.verdict === "missed") expect(figureIn(row.promised)).toBeLessThan(figureIn(row.asked));
        if (row.asked !== undefined) expect(figureIn(row.asked)).toBe(hop.objective!.fadeMarginDb);
      }
      const { availability } = result;
      const available = rows.find(({ what }) => what === "Availability, propagation");
      expect(available !== undefined).toBe(availability !== undefined);
      if (availability) {
        expect(
          Math.abs(figureIn(available!.promised) - availability.availabilityPercent),
        ).toBeLessThanOrEqual((100 - availability.availabilityPercent) / 10 + 1e-5);
        if (available!.verdict === "missed" && availability.bound === undefined)
          expect(figureIn(available!.promised)).toBeLessThan(figureIn(available!.asked));
        expect(rows.some(({ what }) => what === ENGLISH.acceptance.outBy.equipment)).toBe(
          availability.equipment !== undefined,
        );
      }
      const clearances = rows.filter(({ what, where }) => what === "Clearance" && where !== undefined);
      expect(clearances).toHaveLength(result.clearance.length);
      for (const [at, { fraction }] of result.clearance.entries())
        expect(Math.abs(figureIn(clearances[at]!.promised) - fraction)).toBeLessThanOrEqual(0.005 + 1e-9);
    }),
    { numRuns: 150 },
  );
});

describe.each([
  ["English", ENGLISH],
  ["German", GERMAN],
])("in %s", (_, words) => {
  test("no figure is none, and each way through the branches has a place to write its level in", () => {
    fc.assert(
      fc.property(hops, ({ hop, result }) => {
        const { acceptance, lineUp } = sheets(hop, result, words);
        for (const page of [acceptance, lineUp])
          for (const { text } of [printHtml(page), ...printMarkdown(page)])
            expect(text).not.toMatch(/NaN|undefined|Infinity|\[object/);
        const expected = expectedLevels(hop, result);
        const [blank] = tablesIn(acceptance, "levels");
        expect(blank?.rows.length ?? 0).toBe(expected.length);
      }),
      { numRuns: 60 },
    );
  });
});

test("cautions stand before all else, and places to sign behind it", () => {
  const { hop, result } = evaluated(exampleHop());
  const ids = sheets(hop, result, ENGLISH).acceptance.sections.map(({ id }) => id);
  expect([ids[0], ids.at(-1)]).toEqual(["safety", "signatures"]);
});

test("a reading that agrees takes its blank row away, one outside its window, with power control or of before a change does not", () => {
  const blanks = (...readings: readonly string[]) => {
    const { hop, result } = evaluated(measuredStandby(...readings));
    return tablesIn(sheets(hop, result, ENGLISH).acceptance, "levels").find(
      ({ caption }) => caption === ENGLISH.acceptance.toRead,
    )!.rows.length;
  };
  const all = blanks();
  expect(all).toBe(8);
  expect(blanks("-44.6 dBm at TARN on 2026-05-02")).toBe(7);
  expect(blanks("-60 dBm at TARN on 2026-05-02")).toBe(8);
  expect(blanks("-44.6 dBm at TARN on 2026-05-02 power-control active")).toBe(8);
  expect(blanks("-44.6 dBm at TARN on 2026-05-02 promised -50 dBm")).toBe(8);
});

test("a reading that agrees stands in its box at line-up already, one outside its window is told there, no other", () => {
  const boxes = (reading: string) => {
    const { hop, result } = evaluated(measuredStandby(reading));
    return tablesIn(sheets(hop, result, ENGLISH).lineUp, "levels")
      .filter(({ columns }) => columns.some(({ fill }) => fill))
      .flatMap(({ columns, rows }) => rows.map(({ cells }) => cells[columns.findIndex(({ fill }) => fill)]))
      .filter((cell) => cell !== "");
  };
  expect(boxes("-44.6 dBm at TARN on 2026-05-02")).toEqual([
    expect.stringMatching(/^[-−]44.6 dBm, 2026-05-02$/),
  ]);
  expect(boxes("-60 dBm at TARN on 2026-05-02")).toEqual([
    { text: expect.stringMatching(/^last read: [-−]60.0 dBm, 2026-05-02$/), mark: "quiet" },
  ]);
  expect(boxes("-44.6 dBm at TARN on 2026-05-02 promised -50 dBm")).toEqual([]);
});

test("the steps and checks of standby and of both polarizations are there for hops that have them, and for no other", () => {
  fc.assert(
    fc.property(arrangements, (name) => {
      const { hop, result } = evaluated(CATALOGUE + textOf(name, [1, 3, 5, 7], "KELD", "TARN"));
      const { acceptance, lineUp } = sheets(hop, result, ENGLISH);
      const { standbyStep, polarizationStep } = ENGLISH.lineUp;
      const { switchCheck, polarizationCheck } = ENGLISH.acceptance;
      const cellsOf = (page: Page, id: string) =>
        tablesIn(page, id).flatMap(({ rows }) => rows.flatMap(({ cells }) => cells));
      const [steps, checks] = [cellsOf(lineUp, "order"), cellsOf(acceptance, "checks")];
      // By the words of the name alone: `1+1`, `2+2` and diversity have units that wait, `xpic` both polarizations.
      const waits = /\+[1-9]|sd|fd|diversity/.test(name);
      expect([name, steps.includes(standbyStep), checks.includes(switchCheck)]).toEqual([name, waits, waits]);
      const both =
        unitPlaces(hop, hop.ends[0]).some(({ polarization }) => polarization === "horizontal") &&
        unitPlaces(hop, hop.ends[0]).some(({ polarization }) => polarization === "vertical");
      expect([name, steps.includes(polarizationStep), checks.includes(polarizationCheck)]).toEqual([
        name,
        both,
        both,
      ]);
      // What the step asks to be written down has its boxes: at each end, for each sender.
      const form = lineUp.sections.find(({ id }) => id === "fields")!.blocks[0] as {
        readonly fields: readonly FormField[];
      };
      const read = form.fields.filter(({ label }) => label.startsWith("Discrimination read at"));
      expect([name, new Set(read.map(({ label }) => label)).size]).toEqual([name, both ? 4 : 0]);
    }),
  );
});

test("an accepted criterion says so beside its verdict, with its last day", () => {
  const { hop, result } = evaluated(exampleHop({ keld: "antenna DISH60-18 at 1 m\n    transmits high" }));
  const findings = [
    {
      rule: "clearance",
      severity: "error",
      message: "m",
      accepted: { reason: "r", until: "2027-05-01" },
    },
  ] as const;
  const page = acceptanceSheet({ hop, result, name: "p", words: ENGLISH, colophon: "", findings });
  expect(printMarkdown(page)[0]!.text).toContain("missed accepted until 2027-05-01");
});

test("each unit has a field for its serial number, filled in where the design states it", () => {
  fc.assert(
    fc.property(arrangements, (name) => {
      const { hop, result } = evaluated(CATALOGUE + textOf(name, [1, 3, 5, 7], "KELD", "TARN"));
      const form = sheets(hop, result, ENGLISH).lineUp.sections.find(({ id }) => id === "fields")!.blocks[0]!;
      const fields = (form as { readonly fields: readonly FormField[] }).fields;
      const serials = fields.filter(({ label }) => /^Serial number, unit\b/.test(label));
      const each = hop.ends.map((end) => unitPlaces(hop, end).length);
      expect(serials).toHaveLength(each[0]! + each[1]!);
      expect(each).toEqual([wanted(name).units, wanted(name).units]);
      expect(new Set(serials.map(({ label }) => label)).size).toBe(serials.length);
    }),
  );
  const { hop, result } = evaluated(
    measuredStandby().replace(
      "transmits high",
      'transmits high\n    as-built {\n      serial "A1" of unit\n      serial "A2" of unit branch standby\n      height 39.5 m\n    }',
    ),
  );
  const text = printMarkdown(sheets(hop, result, ENGLISH).lineUp)[0]!.text;
  for (const said of [
    "Serial number, unit main, KELD: A1",
    "Serial number, unit standby, KELD: A2",
    "Height as built, KELD: 39.5 m",
    "Serial number, unit main, TARN: …",
  ])
    expect(text).toContain(said);
});

test("the window in volts is that of the curve, and columns of volts are left out without one", () => {
  const curve = "rssi -90 dBm 1.1 V\n  rssi -43 dBm 2.0 V\n  rssi -20 dBm 2.4 V\n";
  const radio = `radio R18V like R18 {\n  ${curve}}\n`;
  const { hop, result, problems } = evaluated(radio + exampleHop().replace("radio R18\n", "radio R18V\n"));
  expect(problems).toEqual([]);
  const points = hop.radio!.unit!.rssi;
  const volts = (levelDbm: number) => {
    const found = rssiVoltage(points, levelDbm);
    if (!found.ok) throw new Error("off the curve");
    return found.voltageV.toFixed(2);
  };
  const text = printMarkdown(sheets(hop, result, ENGLISH).lineUp)[0]!.text;
  const windowDb = levelWindowDb(hop);
  for (const { modes } of expectedLevels(hop, result)) {
    const { levelDbm } = modes.at(-1)!;
    expect(text).toContain(`${volts(levelDbm - windowDb)} to ${volts(levelDbm + windowDb)} V`);
  }
  const without = evaluated(exampleHop());
  const page = sheets(without.hop, without.result, ENGLISH).lineUp;
  expect(printMarkdown(page)[0]!.text).not.toContain(ENGLISH.lineUp.voltageWindow);
});
