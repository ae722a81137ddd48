/** Designs: the samples and the examples of the rules, mutated, through every command and format. */
import { join } from "node:path";
import { readSource, type SourceFile } from "../../language/model/source-file.js";
import { slashed } from "../../server/files/slashed.js";
import { type JudgedFolder, judgedDesign } from "../../server/findings/judged-folder.js";
import { DesignSession } from "../../server/session/design-session.js";
import { loadProject } from "../../server/session/load.js";
import { openTerrain, type TerrainStore } from "../../server/terrain/store.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { SAMPLE_TEXTS } from "../support/reworded.js";
import type { Chance } from "./chance.js";
import { type Fuzzer, Watch } from "./fuzzer.js";
import { GENTLE, MUTATIONS, mutated } from "./mutate.js";
import { faultsOfOutputs, OUTPUTS } from "./outputs.js";

const TODAY = "2026-06-01";
const SAMPLES = slashed(join(process.cwd(), "samples"));
const EXAMPLES = [...RULES.values()].flatMap(({ good, bad }) => [good, bad]);

type Texts = ReadonlyMap<string, string>;

export const designs: Fuzzer = {
  name: "designs",
  what: "designs through every command and format",
  begin(chance) {
    const outputs = chance.some(Object.keys(OUTPUTS), 0.5);
    const { folder, was } = baseOf(chance);
    const is = new Map(was);
    const kinds = chance.likely(0.5) ? chance.some(GENTLE, 0.4) : chance.some(Object.keys(MUTATIONS), 0.3);
    for (let left = 1 + chance.below(2); left > 0; left--) {
      const path = chance.of([...was.keys()]);
      is.set(path, mutated(is.get(path)!, kinds, 1 + chance.below(chance.likely(0.1) ? 30 : 4), chance));
    }
    const changed = [...is].filter(([path, text]) => text !== was.get(path));
    const lines = changed.flatMap(([path, text]) => text.split("\n").map((line) => ({ path, line })));
    const textsOf = (kept: readonly number[]): Texts => {
      const texts = new Map(is);
      for (const [path] of changed)
        texts.set(path, kept.flatMap((at) => (lines[at]!.path === path ? lines[at]!.line : [])).join("\n"));
      return texts;
    };
    return {
      parts: lines.length,
      counts: 1,
      async run(kept, watch) {
        const texts = textsOf(kept);
        const before = await Watch.time(() => judged(folder, was));
        const now = await Watch.time(() => judged(folder, texts));
        const fuzzed = { was: before.value, is: now.value, today: TODAY, texts: [...texts.values()] };
        watch.command("reading and judging", now.ms);
        return faultsOfOutputs(fuzzed, outputs, (name, ms) =>
          watch.command(name, now.ms + (/^(diff|history)/.test(name) ? before.ms : 0) + ms),
        );
      },
      tell: (kept) =>
        changed
          .map(([path]) => `--- ${folder}/${path}\n${textsOf(kept).get(path)!.slice(0, 4000)}`)
          .join("\n"),
    };
  },
};

/** Of the hop that most examples have; in those that have none it is one of a hop that is gone. */
const LICENCE = `licences required notice 30 d
licence "F-1" of KELD-TARN from TARN {
  frequency 17.92 GHz
  emission 28M0D7W
  polarization horizontal
  eirp 31.5 dBW
  antenna DISH60-18
  height 30 m
  at 47°33'00"N 30°24'00"W
  since 2026-01-01
  until 2026-08-01
}`;

/** Mostly small designs, so that there are many. */
function baseOf(chance: Chance): { folder: string; was: Texts } {
  if (chance.likely(0.08)) {
    const folder = chance.likely(0.7) ? "learning" : "eskerfold";
    const was = new Map(
      [...SAMPLE_TEXTS].filter(([path]) => path.startsWith(folder) || path.startsWith("catalogue")),
    );
    return { folder, was };
  }
  const preamble = chance.likely(0.5)
    ? EXAMPLE_PREAMBLE.replace('"Example" {', '"Example" {\n  terrain "../terrain"')
    : EXAMPLE_PREAMBLE;
  const demands = chance.likely(0.3) ? [["fuzz/demands.hop", demandsOf(chance)] as const] : [];
  const examples = Array.from({ length: 1 + chance.below(2) }, () => chance.of(EXAMPLES));
  if (chance.likely(0.15)) examples.push(LICENCE);
  return {
    folder: "fuzz",
    was: new Map([["fuzz/network.hop", preamble], ["fuzz/hops.hop", examples.join("\n")], ...demands]),
  };
}

const DEMANDED = [
  "committed 20 Mbit/s", "peak 100 Mbit/s", "E1 2", "STM-1 1", "tdm-packet 256 B", "frame 512 B", "frame-overhead 8 B",
  "availability 99.95 %", "availability-with-equipment 99.9 %", "latency 5 ms", "priority 1", "growth 10 % for 5 y",
  "clock one-feed", "clock two-feeds", "route via KELD-TARN", "route via KELD, KELD-TARN", "second-route disjoint hop",
  "second-route disjoint site via TARN", "second-route disjoint structure", "state planned 2027-03-01",
  'accept availability until 2027-05-01 because "it is known"',
]; // biome-ignore format: a list

/** Between the sites of the preamble, by way of its hops or of what a mutation makes of them. */
function demandsOf(chance: Chance): string {
  const ends = () =>
    `from ${chance.of(["KELD", "TARN"])} to ${chance.of(["KELD", "TARN", "TARN", "handover"])}`;
  const each = Array.from(
    { length: 1 + chance.below(3) },
    (_, at) => `demand D${at} {\n${[ends(), ...chance.some(DEMANDED, 0.4)].join("\n")}\n}`,
  );
  const terms = chance.likely(0.5)
    ? ["traffic {\nrerouting none\nswitching 50 ms\nhop-latency 200 us\nclock-hops 4\n}"]
    : [];
  return `${[...each, ...terms, "defaults demand {\npriority 3\n}"].join("\n")}\n`;
}

const read = new Map<string, SourceFile>();
const ofSamples = new Set([...SAMPLE_TEXTS.values(), EXAMPLE_PREAMBLE]);

function source(path: string, text: string): SourceFile {
  if (!ofSamples.has(text)) return readSource(path, text);
  const key = `${path}\n${text}`;
  let file = read.get(key);
  if (!file) read.set(key, (file = readSource(path, text)));
  return file;
}

let terrain: Promise<TerrainStore> | undefined;

/** The tile of the samples is read once. What else a mutated path names is not looked for outside the samples. */
const terrainOfSamples: typeof openTerrain = (roots, options) => {
  if (roots.every((root) => root === `${SAMPLES}/terrain`)) return (terrain ??= openTerrain(roots, options));
  return openTerrain(
    roots.filter((root) => root.startsWith(`${SAMPLES}/`)),
    options,
  );
};

async function judged(folder: string, texts: Texts): Promise<JudgedFolder> {
  const all = [...texts].map(([path, text]) => ({ path: `${SAMPLES}/${path}`, text }));
  const { project, unreadable } = loadProject(`${SAMPLES}/${folder}`, {
    read: (at) => ({ texts: all.filter(({ path }) => path.startsWith(`${at}/`)), unreadable: [] }),
    exists: (at) => all.some(({ path }) => path.startsWith(`${at}/`)),
    source,
  });
  const seen = new Set<string>();
  const found = [];
  for (const model of project.designs()) {
    const session = new DesignSession(model, { today: TODAY, openTerrain: terrainOfSamples });
    await session.update();
    session.updateNetwork();
    found.push(judgedDesign(model, session, seen));
  }
  return { root: project.root, designs: found, unreadable };
}
