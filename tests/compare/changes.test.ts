import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { formatText } from "../../language/format/format.js";
import { hopHistory } from "../../server/compare/hop-history.js";
import { repositoryOf, revisionOf } from "../../server/git/repository.js";
import type { ChangeSet, HopChange } from "../../shared/compare/change-set.js";
import { isEmpty } from "../../shared/compare/change-set.js";
import { causeWords } from "../../shared/compare/words.js";
import { CATALOGUE, files, hop, INDOOR, terrain } from "./network.js";
import { decisionsTold, figuresTold, findingsTold, TestRepository, TODAY } from "./repository.js";

/**
 * A repository of typical changes, one a commit. What each of them does is worked out by hand: gains, losses and
 * powers add up in decibels, and both ends count for each direction.
 */
const repository = TestRepository.create();
const commits: Record<string, string> = {};
const before: Record<string, string> = {};

function step(name: string, change: () => void): void {
  const last = Object.values(commits).at(-1);
  change();
  commits[name] = repository.commit(name);
  if (last !== undefined) before[name] = last;
}

/** Who, and what was decided there. */
function causesOf(causes: HopChange["causes"]): string[] {
  return causes.map((cause) => `${cause.kind} ${cause.text}: ${causeWords(cause)}`);
}

function changesOf(name: string): Promise<ChangeSet> {
  return repository.changes(before[name]!, commits[name]!);
}

beforeAll(() => {
  step("base", () => repository.write(files()));
  step("antenna swap", () =>
    repository.edit("hops/south.hop", "FELL {\n    antenna DISH60-18", "FELL {\n    antenna DISH120-18"),
  );
  step("untidy", () => {
    const text = repository
      .read("hops/north.hop")
      .replace("hop KELD-TARN {", "// measured in centimetres\nhop KELD-TARN  {")
      .replace("antenna DISH60-18 at 40 m", "transmits high ;  antenna DISH60-18 at 4000cm")
      .replace("    transmits high\n  }", "  }");
    repository.write({ "hops/north.hop": text });
  });
  step("formatter run", () => {
    const formatted = formatText(repository.read("hops/north.hop"));
    repository.write({ "hops/north.hop": formatted.ok ? formatted.text : "" });
  });
  step("coupler late", () => {
    const parts = { more: "arrangement 1+1 hot-standby", each: "coupler H18-E direct" };
    const north = `${hop("KELD-TARN", "KELD", "TARN", 4)}\n${hop("KELD-MOSS", "KELD", "MOSS", 6, parts)}`;
    repository.write({ "hops/north.hop": north });
  });
  step("catalogue correction", () => repository.edit("catalogue.hop", "gain 38.5 dBi", "gain 37.5 dBi"));
  step("terrain update", () => repository.write(terrain(38)));
  step("rename", () => repository.edit("hops/south.hop", "hop FELL-TARN", "hop FELL-TARN-S"));
  step("file split", () => {
    const [first, second] = repository.read("hops/north.hop").split(/\n(?=hop )/);
    repository.write({ "hops/north.hop": `${first}\n`, "hops/moss.hop": second! });
  });
  step("two hops more", () =>
    repository.write({
      "hops/peak.hop": `${hop("KELD-FELL", "KELD", "FELL", 10, { heightM: 45 })}\n${hop("PEAK-FELL", "PEAK", "FELL", 12, { heightM: 50 })}`,
    }),
  );
  step("two hops less", () => repository.write({ "hops/peak.hop": "" }));
  step("heavier rain", () => repository.edit("network.hop", "rain 34 mm/h", "rain 60 mm/h"));
  step("higher demand", () => repository.edit("network.hop", "margin 20 dB", "margin 60 dB"));
  step("acceptance", () =>
    repository.edit(
      "hops/south.hop",
      "  FELL {",
      '  accept fade-margin until 2030-01-01 because "agreed with the customer"\n  FELL {',
    ),
  );
  step("position corrected", () => repository.edit("sites.hop", "47.6 -30.34", "47.6 -30.341"));
  step("site renamed", () => {
    repository.edit("sites.hop", "site MOSS", "site MOSSY");
    repository.edit("hops/moss.hop", "  MOSS {", "  MOSSY {");
  });
  step("default instead of own", () => {
    repository.edit("hops/moss.hop", "  arrangement 1+1 hot-standby\n", "");
    repository.edit("network.hop", "    radio R18\n", "    radio R18\n    arrangement 1+0\n");
  });
  step("indoor unit", () => {
    repository.write({ "indoor.hop": INDOOR });
    repository.edit(
      "sites.hop",
      "at 47.5 -30.5\n",
      "at 47.5 -30.5\n  plant 120 W\n  chassis COPSE {\n    slot 3 MIST\n    slot 4 MIST\n  }\n",
    );
  });
  step("one hop too many", () =>
    repository.write({ "hops/abc.hop": hop("KELD-PEAK", "KELD", "PEAK", 14, { heightM: 50 }) }),
  );
  step("standby at one end", () =>
    repository.edit(
      "hops/south.hop",
      "antenna DISH120-18 at 40 m\n",
      "antenna DISH120-18 at 40 m\n    arrangement 1+1 hot-standby\n    coupler H18-E direct\n",
    ),
  );
});

afterAll(() => repository.remove());

describe("a commit", () => {
  test("that swaps an antenna: 5.5 dB more both ways, one to order, one to return, the licence amended", async () => {
    const { hops, orders, licences, shared, worse } = await changesOf("antenna swap");
    expect(hops.map(({ hop, edited }) => [hop, edited])).toEqual([["FELL-TARN", true]]);
    const [change] = hops;
    expect(decisionsTold(change!)).toEqual([
      "FELL antenna: antenna DISH60-18 at 40 m -> antenna DISH120-18 at 40 m",
    ]);
    expect(figuresTold(change!).slice(0, 2)).toEqual([
      expect.stringMatching(/^Received level at (FELL|TARN), judged mode: \+5\.5 dB changed$/),
      expect.stringMatching(/^Fade margin at (FELL|TARN): \+5\.5 dB better$/),
    ]);
    expect(change!.figures.filter(({ kind }) => kind === "clearance")).toEqual([]);
    expect(orders.map(({ part, count }) => [part, count])).toEqual([
      ["antenna DISH120-18", 1],
      ["antenna DISH60-18", -1],
    ]);
    expect(licences.map(({ site, action }) => [site, action])).toEqual([["FELL", "amend"]]);
    // 20 dBm and 38.5 dBi, then 44 dBi.
    expect(licences[0]!.figures).toEqual([
      { label: "greatest EIRP", was: "58.5 dBm", is: "64.0 dBm" },
      { label: "antenna", was: "DISH60-18", is: "DISH120-18" },
    ]);
    expect(shared).toEqual([]);
    expect(worse).toBe(false);
  });

  test.each(["untidy", "formatter run", "file split"])(
    "that changes the text alone (%s): no change",
    async (name) => {
      const changes = await changesOf(name);
      expect(isEmpty(changes), JSON.stringify(changes)).toBe(true);
      expect(changes.worse).toBe(false);
    },
  );

  test("that puts couplers in late: 3.5 dB at each end, and a unit more at each", async () => {
    const { hops, orders, worse } = await changesOf("coupler late");
    expect(hops.map(({ hop }) => hop)).toEqual(["KELD-MOSS"]);
    expect(decisionsTold(hops[0]!)).toEqual([
      "arrangement: – -> arrangement 1+1 hot-standby",
      "KELD coupler: – -> coupler H18-E direct",
      "MOSS coupler: – -> coupler H18-E direct",
    ]);
    expect(figuresTold(hops[0]!)).toContainEqual(
      expect.stringMatching(/^Fade margin at \w+: -7\.0 dB worse$/),
    );
    expect(orders.map(({ part, count }) => [part, count])).toEqual([
      ["coupler H18-E", 2],
      ["unit R18, high half", 1],
      ["unit R18, low half", 1],
    ]);
    expect(worse).toBe(true);
  });

  test("that gives one end a standby: told at the end, 3.5 dB less both ways, a unit and a coupler there", async () => {
    const { hops, orders, licences } = await changesOf("standby at one end");
    expect(hops.map(({ hop }) => hop)).toEqual(["FELL-TARN-S"]);
    expect(decisionsTold(hops[0]!)).toEqual([
      "FELL arrangement: – -> arrangement 1+1 hot-standby",
      "FELL coupler: – -> coupler H18-E direct",
    ]);
    const margins = figuresTold(hops[0]!).filter((told) => told.startsWith("Fade margin"));
    expect(margins).toEqual([
      expect.stringMatching(/^Fade margin at \w+: -3\.5 dB worse$/),
      expect.stringMatching(/^Fade margin at \w+: -3\.5 dB worse$/),
    ]);
    expect(orders.map(({ part, count }) => [part, count])).toEqual([
      ["coupler H18-E", 1],
      ["unit R18, high half", 1],
    ]);
    expect(licences.map(({ site, action }) => [site, action])).toEqual([["FELL", "amend"]]);
  });

  test("that corrects the catalogue: each hop by its number of such antennas, none of them edited", async () => {
    const { hops, shared, orders, counts } = await changesOf("catalogue correction");
    const margins = Object.fromEntries(
      hops.map(({ hop, figures }) => [hop, figures.find(({ kind }) => kind === "margin")?.difference]),
    );
    expect(margins).toEqual({ "KELD-TARN": "-2.0 dB", "KELD-MOSS": "-2.0 dB", "FELL-TARN": "-1.0 dB" });
    expect(hops.at(-1)!.hop).toBe("FELL-TARN");
    for (const { edited, causes } of hops) {
      expect(edited).toBe(false);
      expect(causesOf(causes)).toEqual(["catalogue antenna DISH60-18: gain 38.5 dBi → 37.5 dBi"]);
    }
    expect(
      shared.map(({ entry, usedBy, affects, decisions }) => [entry, usedBy, affects, decisions.length]),
    ).toEqual([["antenna DISH60-18", 3, 3, 1]]);
    expect(shared[0]!.decisions[0]).toMatchObject({ was: "gain 38.5 dBi", is: "gain 37.5 dBi" });
    expect(orders).toEqual([]);
    expect(counts).toMatchObject({ edited: 0, affected: 3, added: 0, removed: 0 });
  });

  test("that updates the terrain: the one hop over the ridge, because of the terrain", async () => {
    const { hops, shared, licences } = await changesOf("terrain update");
    expect(hops.map(({ hop, edited }) => [hop, edited])).toEqual([["KELD-MOSS", false]]);
    // 10 and 38 m of ridge on 200 m of land; the path crosses it a little below its top.
    expect(causesOf(hops[0]!.causes)).toEqual([
      "terrain terrain: highest ground 209.7 m → 236.9 m; mean ground 200.6 m → 202.4 m",
    ]);
    expect(hops[0]!.decisions).toEqual([]);
    const clearance = hops[0]!.figures.find(({ kind }) => kind === "clearance")!;
    expect(clearance.verdict).toBe("worse");
    expect(findingsTold(hops[0]!)).toContain("new clearance");
    expect([shared, licences]).toEqual([[], []]);
  });

  test("that renames a hop: said as such, and nothing else", async () => {
    const { hops, orders, licences, counts, worse } = await changesOf("rename");
    expect(hops).toMatchObject([
      {
        hop: "FELL-TARN-S",
        renamedFrom: "FELL-TARN",
        status: "changed",
        decisions: [],
        figures: [],
        findings: [],
      },
    ]);
    expect([orders, licences]).toEqual([[], []]);
    expect(counts).toMatchObject({ renamed: 1, added: 0, removed: 0, newFindings: 0, fixedFindings: 0 });
    expect(worse).toBe(false);
  });

  test("that adds hops which harm another: the finding stands there, with the cause", async () => {
    const { hops, orders, licences, worse } = await changesOf("two hops more");
    expect(hops.map(({ hop, status, edited }) => [hop, status, edited])).toEqual([
      ["FELL-TARN-S", "changed", false],
      ["KELD-FELL", "added", true],
      ["PEAK-FELL", "added", true],
    ]);
    expect(findingsTold(hops[0]!)).toEqual(["new site-high-and-low"]);
    expect(causesOf(hops[0]!.causes)).toEqual([
      "neighbour hop KELD-FELL: added",
      "neighbour hop PEAK-FELL: added",
    ]);
    expect(orders.map(({ part, count }) => [part, count])).toEqual([
      ["antenna DISH60-18", 4],
      ["unit R18, high half", 2],
      ["unit R18, low half", 2],
    ]);
    expect(licences.map(({ action, hop, site }) => `${action} ${hop} ${site}`).sort()).toEqual([
      "license KELD-FELL FELL",
      "license KELD-FELL KELD",
      "license PEAK-FELL FELL",
      "license PEAK-FELL PEAK",
    ]);
    expect(worse).toBe(true);
  });

  test("that takes them away again: what they harmed is fixed, what they were made of comes back", async () => {
    const { hops, orders, licences, worse } = await changesOf("two hops less");
    expect(hops.map(({ hop, status }) => [hop, status])).toEqual([
      ["KELD-FELL", "removed"],
      ["PEAK-FELL", "removed"],
      ["FELL-TARN-S", "changed"],
    ]);
    expect(findingsTold(hops[2]!)).toEqual(["fixed site-high-and-low"]);
    expect(orders.every(({ count }) => count < 0)).toBe(true);
    expect(licences.every(({ action }) => action === "cancel")).toBe(true);
    expect(worse).toBe(false);
  });

  test("that changes the climate: less available everywhere, margins as they were", async () => {
    const { hops } = await changesOf("heavier rain");
    expect(hops.map(({ hop }) => hop).sort()).toEqual(["FELL-TARN-S", "KELD-MOSS", "KELD-TARN"]);
    for (const { figures, causes, edited } of hops) {
      expect(figures.map(({ kind, verdict }) => [kind, verdict])).toEqual([["availability", "worse"]]);
      expect(causesOf(causes)).toEqual(["climate climate: rain 34 mm/h → 60 mm/h"]);
      expect(edited).toBe(false);
    }
  });

  test("that raises the objective: findings without a figure, because of the objective", async () => {
    const { hops } = await changesOf("higher demand");
    const told = hops.find(({ hop }) => hop === "FELL-TARN-S")!;
    expect(findingsTold(told)).toContain("new fade-margin");
    expect(told.figures).toEqual([]);
    expect(causesOf(told.causes)).toEqual(["objective objective trunk: margin 20 dB → 60 dB"]);
  });

  test("that accepts a finding: newly accepted, not worse", async () => {
    const { hops, worse, counts } = await changesOf("acceptance");
    expect(hops.map(({ hop }) => hop)).toEqual(["FELL-TARN-S"]);
    expect(decisionsTold(hops[0]!)).toEqual([
      'accept: – -> accept fade-margin until 2030-01-01 because "agreed with the customer"',
    ]);
    const accepted = hops[0]!.findings.filter(({ status }) => status === "newly accepted");
    expect(accepted.map(({ rule }) => rule)).toEqual(["fade-margin"]);
    expect(accepted[0]!.is!.accepted).toEqual({ reason: "agreed with the customer", until: "2030-01-01" });
    expect(counts.newlyAccepted).toBe(1);
    expect(worse).toBe(false);
  });

  test("that corrects a position: length, azimuths and licences of the hops there", async () => {
    const { hops, sites, licences } = await changesOf("position corrected");
    expect(hops.map(({ hop }) => hop)).toEqual(["FELL-TARN-S"]);
    expect(causesOf(hops[0]!.causes)).toEqual(["site site FELL: at 47.6 -30.34 → 47.6 -30.341"]);
    expect(hops[0]!.figures.map(({ kind }) => kind)).toContain("length");
    expect(sites).toMatchObject([
      { site: "FELL", status: "changed", decisions: [{ is: "at 47.6 -30.341" }] },
    ]);
    const labels = licences.map(({ site, figures }) => [site, figures.map(({ label }) => label)]);
    expect(labels).toEqual([
      ["FELL", ["azimuth", "position"]],
      ["TARN", ["azimuth"]],
    ]);
  });

  test("that renames a site: the site is told, its hops are not", async () => {
    const { hops, sites, licences, orders } = await changesOf("site renamed");
    expect(sites).toMatchObject([{ site: "MOSSY", status: "renamed", renamedFrom: "MOSS", decisions: [] }]);
    expect([hops, licences, orders]).toEqual([[], [], []]);
  });

  test("that lets a default hold: the arrangement goes back, and who decided is told", async () => {
    const { hops, shared } = await changesOf("default instead of own");
    expect(hops.map(({ hop, edited }) => [hop, edited])).toEqual([["KELD-MOSS", true]]);
    expect(decisionsTold(hops[0]!)).toEqual(["arrangement: arrangement 1+1 hot-standby -> arrangement 1+0"]);
    expect(shared.map(({ entry }) => entry)).toEqual(["defaults hop"]);
  });
});

test("one hop too many overruns ports and power of a site: its neighbour and the site are told, with the cause", async () => {
  const equipped = await changesOf("indoor unit");
  expect(equipped.worse, JSON.stringify([equipped.hops, equipped.sites, equipped.shared])).toBe(false);
  expect(equipped.orders.map(({ part, count }) => [part, count])).toEqual([
    ["card MIST", 2],
    ["chassis COPSE", 1],
  ]);
  const { hops, sites, orders, worse } = await changesOf("one hop too many");
  expect(worse).toBe(true);
  // Two ports for three hops; 3 units of 40 W, chassis and cards against 120 W.
  const harmed = hops.filter((change) => findingsTold(change).includes("new if-ports-short"));
  expect(harmed.map(({ hop, edited, causes }) => [hop, edited, causesOf(causes)])).toEqual([
    ["KELD-MOSS", false, ["neighbour hop KELD-PEAK: added"]],
  ]);
  expect(
    sites.map(({ site, because, findings }) => [
      site,
      because,
      findings.map(({ rule, status }) => `${status} ${rule}`),
    ]),
  ).toEqual([
    ["KELD", ["KELD-PEAK"], ["new plant-power"]],
    // Of the sites that state no chassis the first that has a hop is told: it is another one now.
    ["MOSSY", [], ["fixed chassis-unstated"]],
    ["PEAK", ["KELD-PEAK"], ["new chassis-unstated", "fixed site-unused"]],
  ]);
  expect(orders.map(({ part }) => part)).toContain("unit R18, high half");
});

test("the history of a hop follows it through its old name, with its margin at each commit", async () => {
  const at = await repositoryOf(repository.root);
  const head = await revisionOf(at, "HEAD");
  const history = (limit: number) =>
    hopHistory(at, repository.root, "FELL-TARN-S", head, { today: TODAY, limit });
  const entries = await history(20);
  const told = entries.map(({ commit, status, decisions, shared }) => [
    commit!.title,
    status,
    [...decisions.map(({ word }) => word), ...shared.map(({ entry }) => entry)].join(),
  ]);
  expect(told).toEqual([
    ["standby at one end", "changed", "arrangement,coupler"],
    ["position corrected", "changed", "site FELL"],
    ["acceptance", "changed", "accept"],
    ["higher demand", "changed", "objective trunk"],
    ["heavier rain", "changed", "climate"],
    ["rename", "renamed", ""],
    ["catalogue correction", "changed", "antenna DISH60-18"],
    ["antenna swap", "changed", "antenna"],
    ["base", "added", ""],
  ]);
  const margins = entries.map(({ judged }) => judged!.result.directions[0]!.modes[0]!.fadeMarginDb);
  // The swap brings 5.5 dB, the correction of the one old antenna left takes 1 dB, a shorter path a little.
  expect(margins[7]! - margins[8]!).toBeCloseTo(5.5, 6);
  expect(margins[6]! - margins[7]!).toBeCloseTo(-1, 6);
  expect(entries[0]!.commit!.date).toBe("2026-01-01");
  expect(await history(2)).toHaveLength(2);
});

test("the history of a hop that is gone ends with its removal; terrain counts, the work tree too", async () => {
  const at = await repositoryOf(repository.root);
  const head = await revisionOf(at, "HEAD");
  const history = (name: string) => hopHistory(at, repository.root, name, head, { today: TODAY, limit: 20 });
  const gone = await history("PEAK-FELL");
  expect(gone.map(({ commit, status }) => [commit!.title, status])).toEqual([
    ["two hops less", "removed"],
    ["two hops more", "added"],
  ]);
  const moss = await history("KELD-MOSS");
  expect(moss.find(({ commit }) => commit!.title === "terrain update")).toMatchObject({
    terrainChanged: true,
  });
  await expect(history("NOWHERE")).rejects.toThrow("no commit up to HEAD has a hop of this name");
  repository.edit("hops/moss.hop", "at 40 m", "at 41 m");
  const [first] = await history("KELD-MOSS");
  repository.edit("hops/moss.hop", "at 41 m", "at 40 m");
  expect(first!.commit).toBeUndefined();
  expect(first!.decisions.map(({ is }) => is)).toEqual([
    "antenna DISH60-18 at 41 m",
    "antenna DISH60-18 at 41 m",
  ]);
});

test("the sample network is in order", () => {
  expect(formatText(CATALOGUE)).toEqual({ ok: true, text: CATALOGUE });
});
