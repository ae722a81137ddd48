/** Each way in which a hop is affected that nobody edited, and what is no cause for it. */
import { afterEach, describe, expect, test } from "vitest";
import type { ChangeSet } from "../../shared/compare/change-set.js";
import { files, INDOOR } from "./network.js";
import { figuresTold, findingsTold, TestRepository } from "./repository.js";

const made: TestRepository[] = [];

/** Commits the network with some edits, then makes others, and compares. */
async function changed(before: readonly Edit[], after: readonly Edit[]): Promise<ChangeSet> {
  const repository = TestRepository.create();
  made.push(repository);
  repository.write(files());
  for (const edit of before) edit(repository);
  repository.commit("before");
  for (const edit of after) edit(repository);
  return repository.changes("HEAD");
}

type Edit = (repository: TestRepository) => void;

function edit(path: string, from: string, to: string): Edit {
  return (repository) => repository.edit(path, from, to);
}

/** Hop, whether it was edited, causes. */
function causesTold({ hops }: ChangeSet): (readonly [string, string[]])[] {
  for (const { edited } of hops) expect(edited).toBe(false);
  return hops
    .map(({ hop, causes }) => [hop, causes.map(({ kind, text }) => `${kind}: ${text}`)] as const)
    .toSorted(([a], [b]) => (a < b ? -1 : 1));
}

const OWN_MODE = edit(
  "hops/north.hop",
  "channel P18 / 55 MHz / 6\n",
  "channel P18 / 55 MHz / 6\n  mode 55 MHz 128QAM\n",
);

afterEach(() => {
  for (const repository of made.splice(0)) repository.remove();
});

describe("a hop that nobody edited is affected by", () => {
  test("a default, unless it states the fact itself", async () => {
    const changes = await changed(
      [OWN_MODE],
      [edit("network.hop", "mode 55 MHz 128QAM", "mode 55 MHz QPSK")],
    );
    expect(causesTold(changes)).toEqual([
      ["FELL-TARN", ["defaults: defaults hop"]],
      ["KELD-TARN", ["defaults: defaults hop"]],
    ]);
    // 24 instead of 20 dBm, a threshold of -86 instead of -69 dBm; 78 instead of 310 Mbit/s.
    const told = figuresTold(changes.hops[0]!);
    expect(told).toContainEqual(
      expect.stringMatching(/^Received level at \w+, judged mode: \+4\.0 dB changed$/),
    );
    expect(told).toContainEqual(expect.stringMatching(/^Fade margin at \w+: \+21\.0 dB changed$/));
    expect(told).toContainEqual("Capacity of the highest mode: -232.0 Mbit/s worse");
    // The three have other defaults of that block in common.
    expect(changes.shared).toMatchObject([{ entry: "defaults hop", usedBy: 3, affects: 2 }]);
  });

  test("the climate; a site that changed at the same time in what no result rests on is no cause", async () => {
    const changes = await changed(
      [],
      [
        edit("network.hop", "rain 34 mm/h", "rain 60 mm/h"),
        edit("sites.hop", "at 47.5 -30.5\n", "at 47.5 -30.5\n  plant 500 W\n"),
      ],
    );
    expect(causesTold(changes)).toEqual([
      ["FELL-TARN", ["climate: climate"]],
      ["KELD-MOSS", ["climate: climate"]],
      ["KELD-TARN", ["climate: climate"]],
    ]);
    expect(changes.sites).toMatchObject([{ site: "KELD", decisions: [{ is: "plant 500 W" }], findings: [] }]);
  });

  test("a structure: antennas at 40 m on a mast of 30 m", async () => {
    const changes = await changed(
      [],
      [edit("sites.hop", "at 47.55 -30.4\n  structure mast 60 m", "at 47.55 -30.4\n  structure mast 30 m")],
    );
    expect(causesTold(changes)).toEqual([
      ["FELL-TARN", ["site: site TARN"]],
      ["KELD-TARN", ["site: site TARN"]],
    ]);
    for (const hop of changes.hops) {
      expect(findingsTold(hop)).toEqual(["new antenna-above-structure"]);
      expect([hop.figures, hop.worse]).toEqual([[], true]);
    }
  });

  const indoors: Edit = (repository) => {
    repository.write({ "indoor.hop": INDOOR });
    repository.edit(
      "sites.hop",
      "at 47.5 -30.5\n",
      "at 47.5 -30.5\n  plant 120 W\n  chassis COPSE {\n    slot 3 MIST\n    slot 4 MIST\n  }\n",
    );
  };

  test("ports of the site: one card less for two hops", async () => {
    const changes = await changed([indoors], [edit("sites.hop", "    slot 4 MIST\n", "")]);
    const [[hop, causes] = [], ...others] = causesTold(changes);
    expect(["KELD-TARN", "KELD-MOSS"]).toContain(hop);
    expect([causes, others]).toEqual([["site: site KELD"], []]);
    expect(findingsTold(changes.hops[0]!)).toEqual(["new if-ports-short"]);
    expect(changes.orders.map(({ part, count }) => [part, count])).toEqual([["card MIST", -1]]);
  });

  test("power of the site: 2 units of 40 W, 10 W of the chassis and two cards of 5 W against 90 W", async () => {
    const changes = await changed([indoors], [edit("sites.hop", "plant 120 W", "plant 90 W")]);
    expect(changes.hops).toEqual([]);
    expect(changes.sites).toMatchObject([
      {
        site: "KELD",
        decisions: [{ was: "plant 120 W", is: "plant 90 W" }],
        findings: [{ status: "new", rule: "plant-power" }],
      },
    ]);
    expect(changes.worse).toBe(true);
  });

  test("an agreement of the network: a finding weighs more", async () => {
    const agreed = edit("network.hop", "  climate {", "  severity overload info\n  climate {");
    const changes = await changed(
      [edit("catalogue.hop", "overload -10 dBm", "overload -60 dBm"), agreed],
      [edit("network.hop", "  severity overload info\n", "")],
    );
    expect(causesTold(changes)).toEqual(
      ["FELL-TARN", "KELD-MOSS", "KELD-TARN"].map((hop) => [hop, ["network: policy"]]),
    );
    expect(changes.shared).toMatchObject([{ entry: "policy", status: "removed", usedBy: 3, affects: 3 }]);
    for (const { findings, worse } of changes.hops) {
      const graver = findings.filter(({ status }) => status !== "still there");
      // At either end.
      expect(new Set(graver.map(({ rule, status }) => `${rule} ${status}`))).toEqual(
        new Set(["overload graver"]),
      );
      expect(worse).toBe(true);
    }
  });
});

describe("no noise", () => {
  test("a remark that is said once for many and moves from hop to hop is no change", async () => {
    const plan = (path: string, own: number, number: number) =>
      edit(path, `P18 / 55 MHz / ${own}`, `F.595 / 55 MHz / ${number}`);
    const changes = await changed(
      [plan("hops/north.hop", 4, 4), plan("hops/south.hop", 8, 6)],
      [
        // The hops stand in another order now, and one of them differs, so that all beside it are judged.
        (repository) => {
          repository.write({ "hops/a.hop": repository.read("hops/south.hop"), "hops/south.hop": "" });
          repository.edit("hops/a.hop", "at 40 m", "at 41 m");
        },
      ],
    );
    expect(changes.hops.map(({ hop }) => hop)).toEqual(["FELL-TARN"]);
    const all = [...changes.hops, ...changes.sites, ...changes.shared].flatMap(({ findings }) => findings);
    expect(all.filter(({ status }) => status === "new" || status === "fixed")).toEqual([]);
    expect(changes.findings).toEqual([]);
    // It is there on both sides, or this would show nothing.
    expect(all.map(({ rule, status }) => `${status} ${rule}`)).toContain(
      "still there channel-plan-unconfirmed",
    );
  });

  test("names that are not known are told one by one, each at its place", async () => {
    const repository = TestRepository.create();
    made.push(repository);
    repository.write(files());
    repository.commit("before");
    repository.edit("hops/south.hop", "DISH60-18", "DISH600-18");
    const { hops } = await repository.changes("HEAD");
    const unknown = hops[0]!.findings.filter(({ rule }) => rule === "unknown-name");
    expect(unknown.map(({ is }) => is!.at)).toEqual([
      "hop FELL-TARN / FELL / antenna",
      "hop FELL-TARN / TARN / antenna",
    ]);
  });
});

describe("licences", () => {
  test("two carriers on one channel use both polarizations", async () => {
    const { licences } = await changed(
      [],
      [
        edit(
          "hops/south.hop",
          "channel P18 / 55 MHz / 8\n",
          "channel P18 / 55 MHz / 8\n  arrangement 2+0 xpic\n",
        ),
      ],
    );
    // Plan P18 counts n x 55 MHz from 18.7 GHz + 10 MHz, and from 18.7 GHz - 1000 MHz; the vertical one stays.
    expect(licences.map(({ site, action, transmission }) => [site, action, transmission])).toEqual([
      ["FELL", "license", "19.15 GHz, 55 MHz, horizontal"],
      ["TARN", "license", "18.14 GHz, 55 MHz, horizontal"],
    ]);
  });

  test("a channel more is a licence more at each end", async () => {
    const { licences } = await changed(
      [],
      [
        edit(
          "hops/south.hop",
          "channel P18 / 55 MHz / 8\n",
          "channel P18 / 55 MHz / 8\n  channel P18 / 55 MHz / 10\n  arrangement 2+0 dual-polarization\n",
        ),
      ],
    );
    // Plan P18 counts n x 55 MHz from 18.7 GHz + 10 MHz, and from 18.7 GHz - 1000 MHz.
    expect(licences.map(({ site, action, transmission }) => [site, action, transmission])).toEqual([
      ["FELL", "license", "19.26 GHz, 55 MHz, horizontal"],
      ["TARN", "license", "18.25 GHz, 55 MHz, horizontal"],
    ]);
  });
});
