/**
 * What a comparison says against what `check` prints of either side: generated edits of the invented network, each side
 * read, evaluated and judged as a whole beside it.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { compareStates, type DesignState, stateOf } from "../../server/compare/compare-designs.js";
import type { SideGround } from "../../server/compare/side-ground.js";
import { textFindings } from "../../server/compare/text-findings.js";
import { DesignSession } from "../../server/session/design-session.js";
import { openTerrain } from "../../server/terrain/store.js";
import { type ChangeSet, type HopChange, isEmpty } from "../../shared/compare/change-set.js";
import type { FindingChange, FindingStatus } from "../../shared/compare/findings.js";
import { causeWords } from "../../shared/compare/words.js";
import type { Finding } from "../../shared/design/finding.js";
import { RULES } from "../../shared/rules/index.js";
import { files, hop, INDOOR, terrain } from "./network.js";
import { TODAY } from "./repository.js";

type Files = Readonly<Record<string, string>>;

let root: string;

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), "hopwright-truth-"));
  for (const [path, text] of Object.entries(terrain(10))) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

const ON_DISK: SideGround = { openTerrain, fileFor: (path) => path, shown: (file) => file, notes: [] };

function modelOf(texts: Files): DesignModel {
  const model = new DesignModel(root);
  for (const [path, text] of Object.entries(texts))
    if (path.endsWith(".hop")) model.setFile(readSource(`${root}/${path}`, text));
  return model;
}

function stateFor(texts: Files): DesignState {
  return stateOf(modelOf(texts), ON_DISK, TODAY);
}

function compared(was: Files, is: Files): Promise<ChangeSet> {
  return compareStates(stateFor(was), stateFor(is));
}

/** By rule and what it is about, as `check --baseline` knows a finding. */
const keyOf = ({ rule, about, at }: Finding) =>
  // By the names of before: what has another name now is the same finding.
  `${rule} ${about ?? at}`.replaceAll("FELLS", "FELL").replaceAll("H18-EE", "H18-E");

/** How often each is printed: text may be wrong twice at one place. */
async function checked(texts: Files): Promise<Map<string, number>> {
  const session = new DesignSession(modelOf(texts), { today: TODAY });
  await session.update();
  await session.readSpots();
  session.updateNetwork();
  const found = [
    ...[...session.results().values()].flatMap(({ findings }) => findings),
    ...session.networkFindings(),
    ...textFindings(session.model),
  ];
  return counted(found.map(keyOf));
}

function counted(keys: readonly string[]): Map<string, number> {
  return new Map([...Map.groupBy(keys, (key) => key)].map(([key, those]) => [key, those.length]));
}

function allFindings({ hops, sites, shared, findings }: ChangeSet): FindingChange[] {
  return [...hops, ...sites, ...shared].flatMap((change) => change.findings).concat(findings);
}

interface Edit {
  readonly name: string;
  apply(texts: Files): Files;
}

/** Replaces words where they stand; what is not there stays as it is. */
function words(path: string, from: string, to: string): Edit {
  return {
    name: `${path}: ${from} -> ${to}`,
    apply: (texts) => ({ ...texts, [path]: (texts[path] ?? "").replace(from, to) }),
  };
}

function more(path: string, text: string): Edit {
  return {
    name: `${path}: + ${text}`,
    apply: (texts) => ({ ...texts, [path]: `${texts[path] ?? ""}\n${text}` }),
  };
}

const NORTH = "hops/north.hop";
const SOUTH = "hops/south.hop";

const EDITS: readonly Edit[] = [
  // Margins and levels, so that the weaker direction changes too.
  words(NORTH, "KELD {\n    antenna DISH60-18 at 40 m", "KELD {\n    antenna DISH120-18 at 40 m"),
  words(NORTH, "transmits high\n", "transmits high\n    power 2 dBm\n"),
  words(NORTH, "transmits low\n", "transmits low\n    power 1 dBm\n"),
  words(SOUTH, "transmits high\n", "transmits high\n    extra-loss 35 dB\n"),
  words(SOUTH, "transmits low\n", "transmits low\n    power -20 dBm\n"),
  words("catalogue.hop", "gain 38.5 dBi", "gain 30 dBi"),
  words("catalogue.hop", "  gain 38.5 dBi\n", ""),
  words("catalogue.hop", "threshold -69 dBm", "threshold -40 dBm"),
  words("catalogue.hop", "rate 310 Mbit/s power 20 dBm", "rate 200 Mbit/s power 20 dBm"),
  words("catalogue.hop", "overload -10 dBm", "overload -60 dBm"),
  words("network.hop", "margin 20 dB", "margin 29.4 dB"),
  words("network.hop", "margin 20 dB", "margin 60 dB"),
  words("network.hop", "    capacity 300 Mbit/s\n", ""),
  words("network.hop", "rain 34 mm/h", "rain 80 mm/h"),
  words("network.hop", "    logK -4.2\n", ""),
  words("network.hop", "    dN75 12 N/km\n", ""),
  words("network.hop", "    objective trunk\n    polar", "    polar"),
  words("network.hop", "clearance 1 F1 at k 1.33", "clearance 0.6 F1 at k 0.7\n    clearance 1 F1 at k 1.33"),
  words("network.hop", "  climate {", "  severity overload info\n  climate {"),
  words("network.hop", "mode 55 MHz 128QAM", "modes 55 MHz QPSK to 128QAM"),
  words("network.hop", "polarization vertical\n", ""),
  // Heights, sites and obstacles.
  words(NORTH, "antenna DISH60-18 at 40 m", "antenna DISH60-18 at 5 m"),
  words(SOUTH, "antenna DISH60-18 at 40 m", "antenna DISH60-18"),
  words("sites.hop", "structure mast 60 m", "structure mast 30 m"),
  words("sites.hop", "47.55 -30.4", "47.551 -30.401"),
  words("sites.hop", "47.45 -30.42", "57.45 -30.42"),
  words("sites.hop", "47.6 -30.34", "47.6 -30.34\n  ground 260 m"),
  words(NORTH, "KELD {", 'obstacle "spruce" 90 m at 3 km from KELD\n  KELD {'),
  words(NORTH, "KELD {", 'obstacle "mill" 12 m at 90 km from KELD\n  KELD {'),
  words(SOUTH, "FELL {", 'accept fade-margin because "agreed"\n  FELL {'),
  words(SOUTH, "FELL {", 'accept clearance until 2020-01-01 because "felled"\n  FELL {'),
  words(NORTH, "KELD {", 'accept default-inputs because "known"\n  KELD {'),
  // Arrangements, channels, halves.
  words(SOUTH, "FELL {", "arrangement 1+1 hot-standby\n  FELL {"),
  words(SOUTH, "FELL {", "arrangement 2+0 xpic\n  FELL {"),
  words(SOUTH, "channel P18 / 55 MHz / 8", "channel P18 / 55 MHz / 8\n  channel P18 / 55 MHz / 10"),
  words(SOUTH, "channel P18 / 55 MHz / 8", "channel P18 / 55 MHz / 99"),
  words(SOUTH, "transmits low", "transmits high"),
  words(NORTH, "transmits high", "coupler H18-E direct\n    transmits high"),
  // Hops, names, and text that cannot be read.
  more("hops/more.hop", hop("KELD-FELL", "KELD", "FELL", 10)),
  more("hops/more.hop", hop("PEAK-FELL", "PEAK", "FELL", 12, { heightM: 8 })),
  more("hops/more.hop", "hop KELD-PEAK {\n  KELD {\n    antenna DISH60-18 at 40 m\n  }\n}\n"),
  words(SOUTH, "antenna DISH60-18", "antenna DISH600-18"),
  words("sites.hop", "site FELL ", "site FELLS "),
  words("catalogue.hop", "coupler H18-E", "coupler H18-EE"),
  words(SOUTH, "FELL {", "FELL {{"),
  words("network.hop", "climate {", "climate"),
  {
    name: "the southern hop goes",
    apply: (texts) => ({ ...texts, [SOUTH]: "" }),
  },
  {
    name: "an indoor unit with one card",
    apply: (texts) => ({
      ...texts,
      "indoor.hop": INDOOR,
      "sites.hop": texts["sites.hop"]!.replace(
        "at 47.5 -30.5\n",
        "at 47.5 -30.5\n  plant 60 W\n  chassis COPSE {\n    slot 3 MIST\n  }\n",
      ),
    }),
  },
  words("indoor.hop", "ports 1 IF", "ports 2 IF"),
  words("catalogue.hop", "centre 18.7 GHz", "centre 18.71 GHz"),
];

/** Names, so that a counterexample can be read. */
const edits = fc.array(fc.constantFrom(...EDITS.map(({ name }) => name)), { maxLength: 3 });
const twoSides = fc.tuple(edits, edits);

function sidesOf([before, after]: readonly [readonly string[], readonly string[]]): {
  was: Files;
  is: Files;
} {
  const edited = (texts: Files, names: readonly string[]) =>
    names.reduce((now, name) => EDITS.find((edit) => edit.name === name)!.apply(now), texts);
  const was = edited(files(), before);
  return { was, is: edited(was, after) };
}

/** The same number of runs on a busy machine; each reads and judges two small networks three times. */
const RUNS = { numRuns: 60 };

describe("a comparison and a check", () => {
  test("fixed is only what is printed no more, and what is printed anew is told as new", async () => {
    await fc.assert(
      fc.asyncProperty(twoSides, async (names) => {
        const { was, is } = sidesOf(names);
        const [before, now, changes] = [await checked(was), await checked(is), await compared(was, is)];
        const told = allFindings(changes);
        const of = (status: FindingStatus, side: "was" | "is") =>
          counted(told.filter((one) => one.status === status).map((one) => keyOf(one[side]!)));
        for (const [key, count] of of("fixed", "was"))
          expect([key, (before.get(key) ?? 0) - (now.get(key) ?? 0)]).toEqual([key, count]);
        const came = counted(
          told
            .filter(({ status }) => status !== "still there")
            .flatMap(({ is: after }) => (after ? keyOf(after) : [])),
        );
        for (const [key, count] of now) {
          const more = count - (before.get(key) ?? 0);
          if (more > 0) expect([key, came.get(key) ?? 0]).toEqual([key, more]);
        }
        // What is still there stands on both sides, or other hops have it.
        const stays = told.filter(({ status }) => status === "still there");
        expect(stays.map((one) => keyOf(one.is!)).filter((key) => !now.has(key))).toEqual([]);
        // A rule that says nothing of a hop for want of figures is no praise.
        for (const { rule, was: gone } of told.filter(({ status }) => status === "no longer judged")) {
          expect(now.has(keyOf(gone!))).toBe(false);
          expect(["hop", "network"]).toContain(RULES.get(rule)?.scope);
        }
      }),
      RUNS,
    );
  }, 600_000);

  test("a design against itself says nothing", async () => {
    await fc.assert(
      fc.asyncProperty(twoSides, async (names) => {
        const { is } = sidesOf(names);
        const changes = await compared(is, is);
        expect(isEmpty(changes), JSON.stringify(changes)).toBe(true);
        expect([changes.worse, changes.newFindings]).toEqual([false, false]);
      }),
      RUNS,
    );
  }, 600_000);

  test("seen from the other side, worse is better and new is gone", async () => {
    await fc.assert(
      fc.asyncProperty(twoSides, async (names) => {
        const { was, is } = sidesOf(names);
        const [forth, back] = [await compared(was, is), await compared(is, was)];
        // One that cannot be judged on one side has nothing to be held against.
        const lost = new Set(
          [...forth.hops, ...back.hops].flatMap(({ hop, status }) => (status === "not judged" ? hop : [])),
        );
        const changed = ({ hops }: ChangeSet) =>
          hops.filter(({ hop, status }) => status === "changed" && !lost.has(hop)).map(({ hop }) => hop);
        const both = changed(forth);
        expect(changed(back).sort()).toEqual(both.toSorted());
        for (const name of both) {
          const [one, other] = [forth, back].map(({ hops }) => hops.find(({ hop }) => hop === name)!);
          expect(figuresTold(other!, true)).toEqual(figuresTold(one!, false));
          expect(statuses(other!)).toEqual(
            statuses(one!)
              .map((status) => INVERSE[status])
              .sort(),
          );
        }
        // What has another name now goes by the name of the new side.
        const orders = (changes: ChangeSet, sign: 1 | -1) =>
          changes.orders
            .map(({ part, count }) => `${part.replace("H18-EE", "H18-E")} ${sign * count + 0}`)
            .sort();
        expect(orders(back, -1)).toEqual(orders(forth, 1));
        const licences = (changes: ChangeSet) => changes.licences.map(({ action }) => action);
        const turned = { license: "cancel", cancel: "license", amend: "amend" } as const;
        expect(licences(back).sort()).toEqual(
          licences(forth)
            .map((action) => turned[action])
            .sort(),
        );
      }),
      RUNS,
    );
  }, 600_000);

  test("a hop that nobody edited says who changed it, and how", async () => {
    await fc.assert(
      fc.asyncProperty(twoSides, async (names) => {
        const { was, is } = sidesOf(names);
        const { hops } = await compared(was, is);
        const unexplained = hops
          .filter(({ edited, status }) => !edited && (status === "changed" || status === "not judged"))
          .filter(({ causes }) => causes.length === 0 || causes.some((cause) => causeWords(cause) === ""));
        expect(
          unexplained.map(({ hop, causes, figures, findings }) => [hop, causes, figures, findings]),
        ).toEqual([]);
      }),
      RUNS,
    );
  }, 600_000);
});

/** Figures of both sides, in the words of one of them. */
function figuresTold({ figures }: HopChange, turned: boolean): string[] {
  const verdicts = { worse: "better", better: "worse", changed: "changed" } as const;
  return figures
    .filter(({ was, is }) => was !== undefined && is !== undefined)
    .map(({ label, was, is, verdict }) =>
      // Of another mode more is no gain, and less a loss.
      / with \S+QAM| with QPSK/.test(was!)
        ? `${label}: ${[was, is].sort().join(" ")}`
        : turned
          ? `${label}: ${is} ${was} ${verdicts[verdict]}`
          : `${label}: ${was} ${is} ${verdict}`,
    )
    .sort();
}

/** Remarks that other hops still have stay, and a hop of which more is left unjudged is graver: both one way only. */
function statuses({ findings }: HopChange): FindingStatus[] {
  return findings
    .filter(({ rule }) => {
      const known = RULES.get(rule);
      return rule !== "not-judged" && !(known?.scope === "network" && known.ofResults);
    })
    .map(({ status, was }): FindingStatus => {
      if (status === "no longer judged") return "fixed";
      // It was not there, and came with its acceptance.
      return status === "newly accepted" && was === undefined ? "new" : status;
    })
    .sort();
}

const INVERSE: Readonly<Record<FindingStatus, FindingStatus>> = {
  new: "fixed",
  fixed: "new",
  "no longer judged": "new",
  graver: "milder",
  milder: "graver",
  "newly accepted": "no longer accepted",
  "no longer accepted": "newly accepted",
  "still there": "still there",
};
