/** The sheets of a whole design say what lists, licences and rules say, in both languages, and run nothing. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { merged, partsOfEnd, partsOfNetwork } from "../../shared/equipment/parts-list.js";
import { runsOf } from "../../shared/equipment/runs.js";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { heldHop, licencesFor } from "../../shared/licence/held.js";
import { rastersOf, siteHalves } from "../../shared/licence/rasters.js";
import { transmissionsOf } from "../../shared/licence/transmissions.js";
import { channelList } from "../../shared/lists/subjects/channels.js";
import { partList } from "../../shared/lists/subjects/parts.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import type { Page, Table } from "../../shared/report/document/document.js";
import { spansOf } from "../../shared/report/document/document.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { eirpDigits, printedLossDb } from "../../shared/report/sheets/desk/eirp-terms.js";
import { frequenciesSheet } from "../../shared/report/sheets/desk/frequencies.js";
import { licencesSheet } from "../../shared/report/sheets/desk/licences.js";
import { typeWords } from "../../shared/report/sheets/desk/part-words.js";
import { partsSheet } from "../../shared/report/sheets/desk/parts.js";
import { ENGLISH } from "../../shared/report/sheets/words/english.js";
import { GERMAN } from "../../shared/report/sheets/words/german.js";
import type { SheetWords } from "../../shared/report/sheets/words/sheet-words.js";
import { EXAMPLE_PREAMBLE, exampleHop } from "../../shared/rules/example-preamble.js";
import { channelFrequencies } from "../../shared/spectrum/channel-plan.js";
import { CATALOGUE, textOf } from "../equipment/arrangement-texts.js";
import { designOf } from "../equipment/designs.js";
import { exampleGround, judgeExample } from "../rules/example-design.js";

const DAY = "2026-06-01";

function sheetsOf(text: string, words: SheetWords = ENGLISH) {
  const model = new DesignModel("/example");
  model.setFile(readSource("/example/example.hop", `${EXAMPLE_PREAMBLE}\n${text}`));
  const design = model.design();
  const judged = [...design.hops.values()].map((hop) => ({
    hop,
    result: evaluateHop(hop, exampleGround(hop)),
  }));
  const base = {
    title: "Example",
    errors: 0,
    name: "sheet",
    words,
    colophon: words.common.colophon("0", "-"),
  };
  const licences = licencesSheet({
    ...base,
    day: DAY,
    licences: design.licences,
    hops: judged.map(({ hop, result }) => ({
      held: heldHop(hop, result, licencesFor(design, hop.name), DAY),
      result,
    })),
  });
  const sent = judged.map(({ hop, result }) => ({ hop, sent: transmissionsOf(hop, result) }));
  const frequencies = frequenciesSheet({ ...base, plans: model.lookup.plans(), hops: sent });
  return {
    design,
    judged,
    sent,
    plans: model.lookup.plans(),
    licences,
    frequencies,
    parts: partsSheet({ ...base, design }),
  };
}

const plain = (page: Page) =>
  printHtml(page)
    .text.replace(/<style>.*?<\/style>/s, "")
    .replace(/<[^>]+>/g, " ")
    .replace(/\u00a0/g, " ")
    .replace(/\u2212/g, "-")
    .replace(/ +/g, " ");

const cell = (inline: Table["rows"][number]["cells"][number]) =>
  spansOf(inline)
    .map((span) => (typeof span === "string" ? span : span.text))
    .join("");

const tablesIn = (page: Page, section: string) =>
  page.sections
    .filter(({ id }) => id === section)
    .flatMap(({ blocks }) => blocks.filter((block) => block.type === "table"));

const TWO = textOf("2+0 xpic", [4], "KELD", "TARN");
const PARTS = `${CATALOGUE}${TWO}
`;

describe("licence schedule", () => {
  const LICENSED = `${exampleHop()}
licence "F-1" of KELD-TARN from KELD { frequency 18.93 GHz; polarization horizontal; eirp 20 dBW; antenna DISH120-7; height 30 m; at 47.501 -30.5; until 2026-07-01 }
licence "F-2" of KELD-TARN from TARN { frequency 17.92 GHz; until 2026-05-01 }
licence "F-3" of KELD-MOSS from KELD { frequency 7 GHz }
`;

  test("has every transmission of the list with its figures, and power, loss and gain make the EIRP", () => {
    const { licences, sent, judged, design } = sheetsOf(PARTS);
    const list = channelList({
      design,
      last: design,
      hopNames: [],
      findings: [],
      today: DAY,
      results: new Map(judged.map((one) => [one.hop.name, one])),
    });
    const all = sent.flatMap((one) => one.sent);
    expect(all).toHaveLength(list.rows.length);
    const text = plain(licences);
    for (const one of all) {
      expect(one.powerDbm! - one.lossDb! + one.gainDbi!).toBeCloseTo(one.greatestEirpDbm!, 9);
      // The orthomode transducer O18 of the preamble.
      expect(one.lossDb).toBeCloseTo(0.4, 9);
      for (const said of [
        `${one.frequencyHz / 1e9} GHz`,
        one.emission!,
        `${one.powerDbm!.toFixed(1)} dBm`,
        `${one.greatestEirpDbm!.toFixed(1)} dBm`,
        `${one.azimuthDeg!.toFixed(2)}° true`,
      ])
        expect(text).toContain(said);
    }
    for (const said of [
      `47°30&#39;00.0&quot;N`,
      "47.500000° / -30.500000°",
      ENGLISH.desk.licences.noneStated,
    ])
      expect(text).toContain(said);
  });

  test("granted stands beside designed, figure by figure, and differs where the licence's rule says so", () => {
    const { licences, design, judged } = sheetsOf(LICENSED);
    const { hop, result } = judged[0]!;
    const held = heldHop(hop, result, licencesFor(design, hop.name), DAY).held;
    const [table] = tablesIn(licences, `hop-${hop.name}`).filter(({ caption }) => caption !== undefined);
    const { figures, differs, agrees } = ENGLISH.desk.licences;
    for (const [at, { departures, licence }] of held.entries()) {
      expect(table!.columns[2 + 3 * at]!.title).toContain(licence!.number);
      const stands = new Map(
        table!.rows.map(({ cells }) => [cell(cells[0]!).replaceAll("\u00a0", " "), cell(cells[3 + 3 * at]!)]),
      );
      expect([...stands.keys()]).toEqual(expect.arrayContaining(Object.values(figures)));
      for (const [figure, word] of Object.entries(figures)) {
        const departs = departures.some((one) => one.figure === figure);
        expect([figure, stands.get(word)!.startsWith(differs)]).toEqual([figure, departs]);
        if (!departs) expect([agrees, "–", ENGLISH.desk.licences.notCompared]).toContain(stands.get(word));
      }
    }
    expect(held[0]!.departures.map(({ figure }) => figure)).toEqual(
      expect.arrayContaining(["polarization", "EIRP", "antenna", "height", "position"]),
    );
    const text = plain(licences);
    for (const said of [
      "horizontal",
      "≤ 50.0 dBm, 20.0 dBW",
      "DISH120-7",
      "30.0 m",
      "m away",
      ENGLISH.desk.licences.ended,
      ENGLISH.desk.licences.notSent,
      "30 days",
    ])
      expect(text).toContain(said);
    expect(tablesIn(sheetsOf(PARTS).licences, "hop-KELD-TARN").filter(({ caption }) => caption)).toEqual([]);
  });

  test("what was built otherwise than granted differs, though the plan keeps it", () => {
    const of = (builtM: number) => {
      const hop = exampleHop().replace(
        "transmits high",
        `transmits high\n    as-built on 2026-05-02 {\n      height ${builtM} m\n    }`,
      );
      return plain(
        sheetsOf(`${hop}\nlicence "F-1" of KELD-TARN from KELD { frequency 18.93 GHz; height 40 m }`)
          .licences,
      );
    };
    const { differs, held, asBuilt, figures } = ENGLISH.desk.licences;
    // The tolerance of the rule is a metre.
    expect(of(40.9)).toContain(held);
    expect(of(40.9)).not.toContain(differs);
    expect(of(36.5)).toContain(`${differs} ${asBuilt("36.5 m")}`);
    expect(of(36.5)).toContain(`${differs} ${asBuilt(figures.height)}`);
    expect(of(36.5)).not.toContain(held);
  });

  test("letters that the design leaves open are held against none that were granted", () => {
    const text = (letters: string) =>
      plain(
        sheetsOf(LICENSED.replace("frequency 18.93 GHz;", `frequency 18.93 GHz; emission 55M0${letters};`))
          .licences,
      );
    expect(text("G7W")).toContain(ENGLISH.desk.licences.notCompared);
    expect(text("D7W")).not.toContain(ENGLISH.desk.licences.notCompared);
  });

  test("printed power, less printed loss, plus printed gain is the printed EIRP, for any figures", () => {
    const decibels = fc.double({ min: -40, max: 80, noNaN: true });
    fc.assert(
      fc.property(
        decibels,
        fc.double({ min: 0, max: 30, noNaN: true }),
        decibels,
        (powerDbm, lossDb, gainDbi) => {
          const sent = { powerDbm, lossDb, gainDbi, greatestEirpDbm: powerDbm - lossDb + gainDbi };
          const digits = eirpDigits(sent);
          const printed = (value: number) => Math.round(Number(value.toFixed(digits)) * 10 ** digits);
          const lossAsPrinted = printedLossDb(sent, digits)!;
          const sum = printed(powerDbm) - printed(lossAsPrinted) + printed(gainDbi);
          expect(Math.abs(sum - printed(sent.greatestEirpDbm))).toBe(0);
          expect(Math.abs(lossAsPrinted - lossDb)).toBeLessThanOrEqual(digits < 4 ? 0 : 2e-4);
        },
      ),
      { numRuns: 2000 },
    );
  });

  test("what a sheet says of antenna and power control is what the design states", () => {
    const catalogue = `antenna A18 like DISH60-18 { xpd 33 dB; pattern-file "folder/made.csv" }\nradio R18P like R18 { power-control 20 dB }\n`;
    const hop = exampleHop()
      .replaceAll("DISH60-18", "A18")
      .replace("radio R18\n", "radio R18P\n")
      .replace("transmits high", "transmits high\n    power-control 12 dB");
    const text = plain(sheetsOf(catalogue + hop).licences);
    for (const said of [
      "A18, 0.6 m, 40.0 m",
      "33.0 dB, file made.csv",
      "control takes off 12.0 dB, range of the radio 20.0 dB",
      "control not used, range of the radio 20.0 dB",
      "Modes: 128QAM",
    ])
      expect(text).toContain(said);
    expect(text).not.toContain("folder");
  });

  test("a hop without a channel is told as open and has no figures", () => {
    const { licences, frequencies } = sheetsOf(exampleHop().replace(" / 4", ""));
    expect(plain(licences)).toContain(ENGLISH.desk.licences.openTold);
    expect(plain(frequencies)).toContain(`number open, 17 to choose from`);
  });
});

describe("frequency plan", () => {
  test("each transmission is on the row of its channel once, halves from who sends them", () => {
    const { sent, frequencies } = sheetsOf(PARTS);
    const rasters = rastersOf(sent, []);
    for (const { hop, sent: those } of sent)
      for (const one of those) {
        const rows = rasters
          .flatMap(({ uses }) => uses)
          .filter((use) => use.hop === hop && use.channel?.number === one.channel?.number);
        expect(rows).toHaveLength(1);
        const [row] = rows;
        expect(one.half === "low" ? row!.lowFrom : row!.highFrom).toBe(one.site);
        expect(one.half === "low" ? row!.lowHz : row!.highHz).toBe(one.frequencyHz);
        expect(row!.polarizations).toContain(one.polarization);
      }
    // 17 channels of the plan of the examples, one in use.
    expect(plain(frequencies)).toContain("in which no hop of this design sends: 1–3, 5–17.");
  });

  test("no channel is told as one in which nobody sends, if a hop sends in part of it, whatever the widths", () => {
    const channel = fc.oneof(
      fc.record({ width: fc.constant("55 MHz"), number: fc.integer({ min: 1, max: 17 }) }),
      fc.record({ width: fc.constant("27.5 MHz"), number: fc.integer({ min: 1, max: 35 }) }),
    );
    fc.assert(
      fc.property(channel, channel, (one, other) => {
        const on = ({ width, number }: typeof one, name: string) =>
          exampleHop()
            .replace("P18 / 55 MHz / 4", `Q18 / ${width} / ${number}`)
            .replace(/^hop \S+/m, `hop ${name}`);
        const plan = `plan Q18 {
  centre 18.7 GHz
  row 55 MHz go -1000 MHz return 10 MHz channels 1 to 17
  row 27.5 MHz go -1000 MHz return 10 MHz channels 1 to 35
}`;
        const { sent, plans } = sheetsOf(`${plan}\n${on(one, "ONE")}\n${on(other, "OTHER")}`);
        const all = sent.flatMap(({ sent: those }) => those);
        expect(all).toHaveLength(4);
        for (const { plan, widthHz = 0, uses, unused, overlapped } of rastersOf(sent, plans)) {
          const free = (number: number) => {
            const found = channelFrequencies(plan!, widthHz, number, plans);
            if ("what" in found) throw new Error(found.message);
            return [found.lowHz, found.highHz].every((centreHz) =>
              all.every(
                ({ frequencyHz, bandwidthHz = 0 }) =>
                  Math.abs(frequencyHz - centreHz) >= (bandwidthHz + widthHz) / 2 - 1e4,
              ),
            );
          };
          expect(unused.every(free)).toBe(true);
          expect(overlapped.some(({ number }) => free(number))).toBe(false);
          const used = new Set(uses.map(({ channel: on }) => on!.number));
          expect(used.size + unused.length + overlapped.length).toBe(widthHz === 55e6 ? 17 : 35);
        }
      }),
      { numRuns: 40 },
    );
  });

  test("a site with both halves is told where the rule tells it, and nowhere else", () => {
    const mixed = `site MOSS {\n  at 47.45 -30.45\n}\n${exampleHop()}\n${exampleHop()
      .replaceAll("TARN", "MOSS")
      .replace("transmits high", "transmits x")
      .replace("transmits low", "transmits high")
      .replace("transmits x", "transmits low")}`;
    for (const text of [mixed, exampleHop()]) {
      const { design, frequencies } = sheetsOf(text);
      const told = judgeExample(text).findings.filter(({ rule }) => rule === "site-high-and-low");
      const sites = siteHalves(design.hops.values()).filter(({ low, high }) => low.length * high.length > 0);
      expect(sites).toHaveLength(told.length);
      expect(printHtml(frequencies).text.includes('<span class="badge error">')).toBe(told.length > 0);
    }
  });
});

describe("parts and cables", () => {
  const arrangements = fc.constantFrom(...ARRANGEMENTS.map(({ name }) => name));
  const channels = fc.uniqueArray(fc.integer({ min: 1, max: 17 }), { minLength: 1, maxLength: 8 });
  const feeders = "feeder GUIDE { kind flexible; band 17.7 GHz to 19.7 GHz; loss 1 dB/m }\n";

  test("runs have the lengths and pieces of the list, boxes those of the bill, whatever the arrangement", () => {
    fc.assert(
      fc.property(arrangements, channels, fc.boolean(), (name, numbers, separate) => {
        const text = textOf(name, numbers, "KELD", "TARN");
        const guided = separate ? text.replaceAll(" direct", " separate") : text;
        const design = designOf(
          CATALOGUE +
            feeders +
            guided.replaceAll(
              "cable COAX",
              separate ? "feeder GUIDE length 1.5 m\n    cable COAX" : "cable COAX",
            ),
        );
        const list = partList({ design, last: design, hopNames: [], findings: [], results: new Map() });
        const listed = list.rows.map((row) =>
          Object.fromEntries(list.columns.map(({ head }, index) => [head, row.values[index]])),
        );
        const runs = [...sitePlans(design).values()].flatMap((plan) => runsOf(plan, design));
        const cables = runs.filter(({ kind }) => kind === "cable");
        const metres = cables.reduce((sum, { lengthM }) => sum + lengthM!, 0);
        const ofList = (kind: string, column: string) =>
          listed.filter((row) => row.kind === kind).reduce((sum, row) => sum + Number(row[column] ?? 0), 0);
        expect([cables.length, metres]).toEqual([ofList("cable", "pieces"), ofList("cable", "length_m")]);
        expect(runs.filter(({ kind }) => kind === "guide")).toHaveLength(ofList("feeder", "pieces"));

        const boxes = [...sitePlans(design).values()].length;
        const page = partsSheet({ design, errors: 0, name: "p", words: ENGLISH, colophon: "" });
        const [bill] = tablesIn(page, "bill");
        expect(bill!.rows).toHaveLength(partsOfNetwork(design).length);
        expect(tablesIn(page, "boxes")).toHaveLength(boxes);
        const pieces = (tables: readonly Table[], column: number) =>
          tables
            .flatMap(({ rows }) => rows)
            .reduce((sum, { cells }) => sum + Number.parseInt(cell(cells[column]!), 10), 0);
        const total = merged(partsOfNetwork(design)).reduce((sum, { quantity }) => sum + quantity, 0);
        expect([pieces([bill!], 2), pieces(tablesIn(page, "boxes"), 2)]).toEqual([total, total]);
      }),
      { numRuns: 60 },
    );
  });

  test("of a hop that stands nothing is left to order, of one that does not everything", () => {
    fc.assert(
      fc.property(arrangements, channels, fc.boolean(), (name, numbers, built) => {
        const text = textOf(name, numbers, "KELD", "TARN");
        const design = designOf(
          CATALOGUE + (built ? text.replace("hop KELD-TARN {", "hop KELD-TARN {\n  state built") : text),
        );
        expect(design.hops.get("KELD-TARN")!.state?.word).toBe(built ? "built" : undefined);
        const [bill] = tablesIn(
          partsSheet({ design, errors: 0, name: "p", words: ENGLISH, colophon: "" }),
          "bill",
        );
        const heads = bill!.columns.map(({ title }) => title);
        expect(heads.includes("Still to order")).toBe(built);
        if (!built) return;
        const ofHop = ["unit", "antenna", "coupler", "cable", "connector", "grounding kit"];
        for (const { cells } of bill!.rows)
          if (ofHop.includes(cell(cells[0]!))) expect(cell(cells.at(-1)!)).toBe("–");
      }),
      { numRuns: 40 },
    );
  });

  test("what is measured, or has the serial number of a unit, is there, and marked where no state says so", () => {
    const marks = fc.constantFrom(
      { ends: 2, state: "", fact: "measured -40 dBm at KELD on 2026-05-01" },
      { ends: 1, state: "", fact: 'KELD { as-built on 2026-05-01 { serial "1" of unit } }' },
      { ends: 0, state: "", fact: 'KELD { as-built on 2026-05-01 { serial "1" of antenna } }' },
      { ends: 2, state: "built", fact: "measured -40 dBm at KELD on 2026-05-01" },
      { ends: 2, state: "planned 2027-01-01", fact: "measured -40 dBm at KELD on 2026-05-01" },
    );
    fc.assert(
      fc.property(arrangements, channels, marks, (name, numbers, { ends, state, fact }) => {
        const stated = state === "" ? "" : `  state ${state}\n`;
        const [end, inner] = fact.startsWith("KELD {") ? ["  KELD {", fact.slice(6, -1)] : ["", fact];
        const text = textOf(name, numbers, "KELD", "TARN");
        const found =
          end === ""
            ? text.replace("hop KELD-TARN {", `hop KELD-TARN {\n${stated}  ${inner}`)
            : text.replace(end, `${end}\n${inner}`);
        const design = designOf(CATALOGUE + found);
        const page = partsSheet({ design, errors: 0, name: "p", words: ENGLISH, colophon: "" });
        const [bill] = tablesIn(page, "bill");
        const atKeld = merged(
          [...sitePlans(design).values()]
            .filter(({ site }) => ends === 2 || (ends === 1 && site.name === "KELD"))
            .flatMap((plan) => plan.ends.flatMap((one) => partsOfEnd(one, plan, design))),
        );
        const isMarked = ends > 0 && state !== "built";
        const paragraphs = JSON.stringify(page.sections.find(({ id }) => id === "bill")!.blocks);
        expect(paragraphs.includes("measured or built, but its state is not stated as built")).toBe(isMarked);
        for (const { cells } of bill!.rows) {
          const [kind, type] = [cell(cells[0]!), cell(cells[1]!)];
          const there = atKeld
            .filter((part) => part.kind === kind && typeWords(part, ENGLISH) === type && !part.toChoose)
            .reduce((sum, { quantity }) => sum + quantity, 0);
          const left = Number.parseInt(cell(cells[2]!), 10) - there;
          if (ends === 0) continue;
          expect([kind, type, Number.parseInt(cell(cells.at(-1)!), 10) || 0]).toEqual([kind, type, left]);
          expect(cell(cells.at(-1)!).includes("†")).toBe(isMarked && there > 0);
        }
      }),
      { numRuns: 60 },
    );
  });

  test("the longest run of each type stands beside the length of all", () => {
    const design = designOf(CATALOGUE + textOf("1+1 hot-standby", [], "KELD", "TARN"));
    const runs = [...sitePlans(design).values()].flatMap((plan) => runsOf(plan, design));
    const [totals] = tablesIn(
      partsSheet({ design, errors: 0, name: "p", words: ENGLISH, colophon: "" }),
      "totals",
    );
    for (const { cells } of totals!.rows) {
      const lengths = runs.filter(({ entry }) => entry === cell(cells[0]!)).map(({ lengthM }) => lengthM!);
      expect(Number.parseFloat(cell(cells[2]!))).toBeCloseTo(
        lengths.reduce((sum, one) => sum + one, 0),
        1,
      );
      expect(Number.parseFloat(cell(cells[3]!))).toBeCloseTo(Math.max(...lengths), 1);
    }
    expect(totals!.rows.length).toBeGreaterThan(0);
  });
});

describe("in both languages", () => {
  const HOSTILE = `site MOSS "<img src=x onerror=alert(1)>" { at 47.45 -30.45 }
${PARTS}
${textOf("1+1 hot-standby", [], "MOSS", "KELD").replace("hop MOSS-KELD {", 'hop MOSS-KELD "<script>alert(1)</script>" {')}
licence "<script>alert(2)</script>" of KELD-TARN from KELD { frequency 18.9 GHz; until 2026-05-01 }
`;

  test.each([
    ["English", ENGLISH],
    ["German", GERMAN],
  ])("%s: nothing becomes markup, nothing is no figure", (_, words) => {
    const { licences, frequencies, parts } = sheetsOf(HOSTILE, words);
    for (const page of [licences, frequencies, parts]) {
      const { text } = printHtml(page);
      expect(text).toContain(`<html lang="${words.language}">`);
      expect(text).not.toMatch(/<script>|<img/);
      expect(text).not.toMatch(/NaN|undefined|Infinity|\[object/);
      expect(printMarkdown(page)[0]!.text).not.toMatch(/(?<!\\)<(script|img)/);
    }
  });

  test("a German sheet has commas, and none of our English words", () => {
    const { licences, frequencies, parts } = sheetsOf(PARTS, GERMAN);
    // What is the design's own, or is on the cables, is as it stands there.
    const own = /unit:IF|carrier \d|coupler:\w+|antenna:\w+|\b2\+0 xpic\b|\bto\b/g;
    for (const page of [licences, frequencies, parts]) {
      const text = plain(page).replace(own, " ");
      expect(text).not.toMatch(/\d\.\d+ (dBm|dBi|dB|m|GHz|MHz|km|%)/);
      const words = new Set(text.split(/[^A-Za-z]+/));
      const english = ["the", "and", "of", "for", "half", "high", "low", "unit", "card", "channel", "stated"];
      expect(english.filter((word) => words.has(word))).toEqual([]);
    }
  });
});
