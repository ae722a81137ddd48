/** What a reader finds on the pages, in the words of the page. */
import { expect, test } from "vitest";
import type { Hop } from "../../shared/design/design.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { ESTIMATE_REMARK } from "../../shared/format/bounds.js";
import type { Page, ReportFinding } from "../../shared/report/document/document.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { overviewPage } from "../../shared/report/pages/overview-page.js";
import { judgeHop } from "../../shared/rules/judge.js";
import {
  end,
  groundOf,
  KELD,
  levelGround,
  makeHop,
  NO_GROUND,
  QAM128,
  QPSK,
  TARN,
  TRUNK,
} from "../evaluate/builders.js";
import { plainText } from "./plain-text.js";

const LENGTH_M = evaluateHop(makeHop(), levelGround(9000)).distanceM!;
const GROUND = levelGround(LENGTH_M);

function pageOf(hop: Hop): Page {
  const result = evaluateHop(hop, GROUND);
  return hopPage({ hop, result, profile: GROUND.profile, findings: [], name: "hops/A", colophon: "" });
}

function overviewOf(hop: Hop, others: readonly ReportFinding[] = []): Page {
  const result = evaluateHop(hop, GROUND);
  return overviewPage({
    name: "index",
    design: { sites: new Map([KELD, TARN].map((site) => [site.name, site])), hops: new Map() } as never,
    hops: [{ hop, result, findings: [] }],
    others,
    unresolved: [],
    colophon: "",
  });
}

test("the head of the overview says of which errors and warnings nothing stands at a hop", () => {
  const finding = (severity: "error" | "warning", more: object = {}) =>
    ({ rule: "site-load", severity, at: "site KELD", message: "m", ...more }) as unknown as ReportFinding;
  const accepted = { accepted: { reason: "r" } };
  const page = overviewOf(makeHop(), [finding("error"), finding("error"), finding("warning", accepted)]);
  expect(figureOf(page, "Errors")).toMatchObject({
    value: "2",
    note: "2 not of hops: at the end of the page",
  });
  expect(figureOf(page, "Warnings").note).toBeUndefined();
  expect(figureOf(overviewOf(makeHop()), "Errors").note).toBeUndefined();
});

test("where there is no profile a sentence says why, and what would give one", () => {
  const hop = makeHop();
  const textOf = (ground: GroundInput) => {
    const result = evaluateHop(hop, ground);
    const { profile } = ground;
    return printMarkdown(hopPage({ hop, result, profile, findings: [], name: "a", colophon: "" }))[0]!.text;
  };
  expect(textOf(NO_GROUND)).toContain("The path is not drawn: ");
  expect(textOf(groundOf([null, null, null], LENGTH_M))).toContain(
    "The path is not drawn: no terrain has a height anywhere along it. Name terrain that covers it with `terrain`",
  );
});

/** Label and value of every key figure, and its note. */
function figureOf(page: Page, label: string) {
  return page.keyFigures.find((one) => one.label === label)!;
}

/** Asks little enough that the lower mode is the judged one. */
const STRONG = makeHop({ modes: [QPSK, QAM128], objective: { ...TRUNK, capacityBps: 50e6 } });

test("the headline shows the level that the installer measures, the judged mode stands at the margin", () => {
  const page = pageOf(STRONG);
  const { directions } = evaluateHop(STRONG, GROUND);
  const level = figureOf(page, "Received level at line-up");
  expect(level.value).toBe(directions.map(({ receivedLevelDbm }) => receivedLevelDbm.toFixed(1)).join(" / "));
  expect(level.note).toBe("highest mode 128QAM, at TARN / KELD");
  expect(figureOf(page, "Fade margin").note).toMatch(/QPSK, -\d+\.\d dBm at (KELD|TARN)$/);
});

test("that the lowest mode is judged for want of a capacity stands beside its figures and in its findings", () => {
  const lowest = makeHop({
    modes: [QPSK, QAM128],
    objective: { ...TRUNK, capacityBps: undefined, fadeMarginDb: 80 },
  });
  const why = "QPSK is judged, the lowest mode: objective trunk asks no";
  expect(figureOf(pageOf(lowest), "Fade margin").note).toContain("; QPSK, the lowest mode, -");
  expect(printMarkdown(pageOf(lowest))[0]!.text).toContain(why);
  const told = (hop: Hop) =>
    judgeHop(hop, evaluateHop(hop, GROUND), "2026-06-01").find(({ rule }) => rule === "fade-margin")!.help;
  expect(told(lowest)).toContain(why);
  // With a capacity, or with one mode alone, nothing is chosen for want of a demand.
  for (const hop of [
    makeHop({ modes: [QPSK, QAM128], objective: { ...TRUNK, fadeMarginDb: 80, capacityBps: 50e6 } }),
    makeHop({ modes: [QAM128], objective: { ...TRUNK, capacityBps: undefined, fadeMarginDb: 80 } }),
  ]) {
    expect(figureOf(pageOf(hop), "Fade margin").note).not.toContain("lowest");
    expect(told(hop) ?? "").not.toContain("lowest mode:");
  }
});

test("margins of lower modes say that they count on more power", () => {
  // 24 dBm of QPSK against 20 dBm of 128QAM.
  const text = printMarkdown(pageOf(STRONG))[0]!.text;
  expect(text).toContain(
    "the radio raises its power when it falls back, here from 20.0 dBm in 128QAM to 24.0 dBm in QPSK",
  );
  expect(text).toContain("up to 4.0 dB smaller");
  const level = makeHop({ modes: [QPSK, { ...QAM128, transmitPowerDbm: 24 }] });
  expect(printMarkdown(pageOf(level))[0]!.text).not.toContain("falls back");
});

test("the table of the two ends leads up the mast, from the ground over the unit to where the antenna looks", () => {
  const cable = { name: "CAB", title: "cable", loss: [] };
  const ends = [
    end({ ...KELD, structure: { kind: "mast", heightM: 40 } }, "high", {
      extraLossDb: 0.5,
      coupler: { name: "H18-U", kind: "hybrid", mainLossDb: 1.6, standbyLossDb: 6.4 },
      installation: { cable, cableLengthM: 60, ifPorts: [] },
    }),
    end(TARN, "low"),
  ] as const;
  const page = pageOf(makeHop({ ends, arrangement: { name: "1+1 hot-standby" } }));
  const table = page.sections.find(({ id }) => id === "ends")!.blocks[0]!;
  if (table.type !== "table") throw new Error("no table");
  expect(table.rows.map(({ cells }) => plainText(cells[0]!).replace(/ at k .*/, ""))).toEqual([
    "Position (WGS84)",
    "Ground height a.s.l.",
    "Structure",
    "Cable",
    "Outdoor unit",
    "Transmits",
    "Coupler",
    "Further loss",
    "Antenna",
    "Antenna height above ground",
    "Azimuth, true north",
    "Elevation",
    "Polarization",
  ]);
  expect(plainText(table.rows[3]!.cells[1]!)).toBe("2 x cable, 60.0 m");
});

test("EIRP of the highest mode and the greatest EIRP stand apart, each named", () => {
  const level = pageOf(STRONG).sections.find(({ id }) => id === "level")!;
  const table = level.blocks.find(({ type }) => type === "table")!;
  if (table.type !== "table") throw new Error("no table");
  const row = (label: string) =>
    table.rows.find(({ cells }) => plainText(cells[0]!) === label)?.cells.map(plainText);
  expect(row("EIRP, highest mode")![1]).toBe("58.5 dBm");
  expect(row("Greatest EIRP, licensed")![1]).toBe("62.5 dBm in QPSK");
});

test("a hop without an objective is neither passed nor failed", () => {
  const bare = makeHop({ objective: undefined });
  const page = overviewOf(bare);
  const [text] = printMarkdown(page);
  expect(text!.text).toContain("not judged: no objective");
  expect(page.keyFigures[0]!.note).toContain("1 without an objective");
  expect(printHtml(page).text).toContain('class="hop unjudged"');
  expect(printHtml(page).text).not.toContain('class="hop good"');
  expect(printHtml(overviewOf(makeHop())).text).toContain('class="hop good"');
  expect(printMarkdown(pageOf(bare))[0]!.text).toContain("The hop has no objective");
});

test("a page names an estimate at each figure, with its bound, and says once what it means", () => {
  const dry = makeHop({
    ends: [
      end(KELD, "high", { antenna: { ...KELD_ANTENNA, gain: [{ gainDbi: 48 }] } }),
      end(TARN, "low", { antenna: { ...KELD_ANTENNA, gain: [{ gainDbi: 48 }] } }),
    ],
  });
  const page = pageOf(dry);
  expect(figureOf(page, "Availability").value).toMatch(/^99\.999\d+ \(est\., ≥ 99\.99\d+\)$/);
  expect(figureOf(page, "Availability").note).toMatch(/\(est\., at most 5\.\d min a year\) out/);
  const text = printMarkdown(page)[0]!.text;
  expect(text).not.toMatch(/(?<!\()\b100 %/);
  const figures = text.match(/99\.999[\d.]* %( \(est\.)?/g) ?? [];
  expect(figures.length).toBeGreaterThan(3);
  for (const figure of figures) expect(figure).toMatch(/\(est\.$|^99\.9990? %$/);
  expect(text).toContain("≤ 0.001 %");
  expect(text).toContain(ESTIMATE_REMARK);
  // With the bound insisted on, no page has more nines than it.
  const bounded = pageOf({ ...dry, climate: { ...dry.climate, rareRain: "bound" } });
  expect(figureOf(bounded, "Availability").value).toBe("≥ 99.999");
  expect(figureOf(bounded, "Availability").note).toMatch(/at most 5\.\d min a year out/);
  const text2 = printMarkdown(bounded)[0]!.text;
  expect(text2).not.toMatch(/(?<!\()\b100 %|99\.9999|\| 0 s a year/);
  expect(text2).not.toContain("est.");
});

const KELD_ANTENNA = makeHop().ends[0].antenna!;
