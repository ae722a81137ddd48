/** A waveguide that somebody forgot makes no level better: what a comparison says where one is gone or estimated. */
import { afterEach, describe, expect, test } from "vitest";
import type { ChangeSet } from "../../shared/compare/change-set.js";
import { files } from "./network.js";
import { figuresTold, findingsTold, TestRepository } from "./repository.js";

const made: TestRepository[] = [];
afterEach(() => {
  for (const repository of made.splice(0)) repository.remove();
});

const CATALOGUE = `antenna DISH240-18 {
  band 17.7 GHz to 19.7 GHz
  diameter 2.4 m
  gain 50.5 dBi
  direct-mounting no
}

feeder FLEX-18 {
  kind flexible
  band 17.7 GHz to 19.7 GHz
  loss 1 dB/m
}
`;

/** What changes when the lines of both ends of FELL-TARN change. */
async function changed(before: string, after: string, margin = "margin 20 dB"): Promise<ChangeSet> {
  const repository = TestRepository.create();
  made.push(repository);
  repository.write({ ...files(), "more.hop": CATALOGUE });
  repository.edit("network.hop", "margin 20 dB", margin);
  const south = repository.read("hops/south.hop");
  const write = (lines: string) =>
    repository.write({ "hops/south.hop": south.replaceAll("antenna DISH60-18 at 40 m", lines) });
  write(before);
  repository.commit("before");
  write(after);
  return repository.changes("HEAD");
}

const BIG = "antenna DISH240-18 at 40 m";
const SMALL = "antenna DISH60-18 at 40 m";
const SEPARATE = "\n    mounting separate";
const DIRECT = "\n    mounting direct";
const piece = (length: string) => `\n    feeder FLEX-18 length ${length}`;

const LEVELS = /^(Received level|Fade margin|Availability)/;

/** Level and margin, without their site: `Fade margin +1.4 dB changed`. */
function levelsTold({ hops }: ChangeSet): string[] {
  return hops.flatMap((change) =>
    figuresTold(change)
      .filter((text) => LEVELS.test(text))
      .map((text) => text.replace(/ at \w+/, "")),
  );
}

const remarks = ({ hops }: ChangeSet) => [
  ...new Set(hops.flatMap(({ figures }) => figures.flatMap(({ remark }) => remark ?? []))),
];

describe("never better by a guide that is gone or was estimated", () => {
  test.each([
    ["its line is gone, 2 m of it before", BIG + piece("2 m"), BIG, +1.4, /is an estimate now/],
    [
      "its line is gone, the mounting stays",
      BIG + SEPARATE + piece("2 m"),
      BIG + SEPARATE,
      +1.4,
      /is an estimate now/,
    ],
    ["its line is gone, and nothing is said of a small dish", SMALL + piece("2 m"), SMALL, +4, /is gone/],
    [
      "in its place direct mounting that the dish cannot take",
      BIG + piece("0.9 m"),
      BIG + DIRECT,
      +1.8,
      /is gone/,
    ],
    ["the estimate makes room for a shorter piece", BIG, BIG + piece("0.9 m"), +0.8, /was an estimate/],
    ["the estimate vanishes with the word", SMALL + SEPARATE, SMALL, +2.6, /was an estimate/],
    ["the estimate vanishes with an impossible word", BIG, BIG + DIRECT, +2.6, /was an estimate/],
  ])("%s", async (_case, before, after, byDb, remark) => {
    const changes = await changed(before, after);
    const by = changes.hops[0]!.figures.find(({ kind }) => kind === "margin")!.by;
    expect(by).toBeCloseTo(byDb, 6);
    expect(levelsTold(changes).filter((text) => /better/.test(text))).toEqual([]);
    expect(remarks(changes).join(" ")).toMatch(remark);
  });
});

describe("nothing is fixed by it", () => {
  test.each([
    ["with an estimate in its place", BIG + piece("3 m"), BIG],
    ["with nothing in its place", SMALL + piece("3 m"), SMALL],
    ["with a word that the dish cannot take", BIG + piece("3 m"), BIG + DIRECT],
  ])("neither what was wrong with it, nor the margin that it took: %s", async (_case, before, after) => {
    const plain = await changed(before, after);
    const margin = plain.hops[0]!.figures.find(({ kind }) => kind === "margin")!;
    // Between what it was and what it is.
    const asked = (Number.parseFloat(margin.was!) + Number.parseFloat(margin.is!)) / 2;
    const changes = await changed(before, after, `margin ${asked} dB`);
    const told = findingsTold(changes.hops[0]!);
    expect(told).toContain("no longer judged flexible-guide-long");
    expect(told).toContain("no longer judged fade-margin");
    expect(told.filter((text) => text.startsWith("fixed"))).toEqual([]);
    expect(changes.counts.fixedFindings).toBe(0);
  });

  test("a decision fixes what it fixes", async () => {
    const shorter = await changed(BIG + piece("3 m"), BIG + piece("0.9 m"));
    expect(findingsTold(shorter.hops[0]!)).toContain("fixed flexible-guide-long");
    const mounted = await changed(SMALL + piece("3 m"), SMALL + DIRECT);
    expect(findingsTold(mounted.hops[0]!)).toContain("fixed flexible-guide-long");
  });
});

test("what is worse stays worse, and the finding tells the cause", async () => {
  // 0.5 dB at each end before, 1.3 dB estimated after.
  const changes = await changed(BIG + piece("0.5 m"), BIG);
  expect(levelsTold(changes)).toContain("Fade margin: -1.6 dB worse");
  expect(findingsTold(changes.hops[0]!)).toContain("new waveguide-missing");
  expect(changes.worse).toBe(true);
});

test("a decision is worth what it is worth: a dish that takes it, mounted directly; a shorter piece of the same", async () => {
  expect(levelsTold(await changed(SMALL + piece("0.9 m"), SMALL + DIRECT))).toContain(
    "Fade margin: +1.8 dB better",
  );
  expect(levelsTold(await changed(BIG + piece("0.9 m"), BIG + piece("0.6 m")))).toContain(
    "Fade margin: +0.6 dB better",
  );
});

test("of two antennas the one that takes the unit needs no feeder where the other has its own", async () => {
  const two = `${SMALL}\n    arrangement 1+1 space-diversity\n    diversity-antenna DISH240-18 at 30 m`;
  const changes = await changed(
    two + piece("0.9 m"),
    `${two}${DIRECT}\n    second-feeder FLEX-18 length 0.9 m`,
  );
  expect(levelsTold(changes)).toContain("Fade margin: +1.8 dB better");
  expect(remarks(changes)).toEqual([]);
});

test("an estimate on both sides hides no larger dish", async () => {
  // 50.5 against 38.5 dBi at both ends, both mounted apart without a guide.
  const changes = await changed(SMALL + SEPARATE, BIG + SEPARATE);
  expect(levelsTold(changes)).toContain("Fade margin: +24.0 dB better");
  expect(remarks(changes).join(" ")).toMatch(/at FELL is an estimate on both sides; .* at TARN/);
});

test("what is to be chosen is ordered where it came up, and never returned", async () => {
  const part = "feeder waveguide, to be chosen";
  const orders = async (before: string, after: string) =>
    (await changed(before, after)).orders.filter((one) => one.part === part).map(({ count }) => count);
  expect(await orders(BIG + piece("0.9 m"), BIG)).toEqual([2]);
  expect(await orders(BIG, BIG + piece("0.9 m"))).toEqual([]);
  expect(await orders(BIG, BIG.replace("40 m", "41 m"))).toEqual([]);
});
