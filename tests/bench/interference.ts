/**
 * Interference of a network among others' transmissions: all of it at once, after an edit of one hop, and beside it a
 * look at all pairs. Run by the bench in a process of its own, with the folder of the network.
 */
import { readdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { readSource } from "../../language/model/source-file.js";
import { slashed } from "../../server/files/slashed.js";
import { DesignSession } from "../../server/session/design-session.js";
import { SessionInterference } from "../../server/session/interference.js";
import { loadProject } from "../../server/session/load.js";
import { openTerrain, type TerrainStore } from "../../server/terrain/store.js";
import { entryOf } from "../../shared/interference/entry.js";
import { entryPath, pathTermsOf } from "../../shared/interference/entry-path.js";
import { Filters, reachHz } from "../../shared/interference/filters.js";
import { StationBook, type StationInputs } from "../../shared/interference/station-book.js";
import { randomNumbers } from "./random.js";

export interface InterferenceFigures {
  readonly hops: number;
  readonly rows: number;
  readonly coldMs: number;
  /** Of it, processor time of all threads. */
  readonly processorMs: number;
  readonly entries: number;
  readonly mostAtOne: number;
  readonly heapMb: number;
  readonly peakRssMb: number;
  /** Of all pairs in reach of each other's filters, from a sample of receivers. */
  readonly bruteMs: number;
  readonly brutePairs: number;
  readonly edits: readonly { readonly what: string; readonly ms: readonly number[] }[];
}

const TODAY = "2026-01-01";
const SAMPLE = 20;
const EDITS = 20;

export async function interferenceOf(folder: string): Promise<InterferenceFigures> {
  const { project } = loadProject(folder);
  const model = project.designs()[0]!;
  const session = new DesignSession(model, { today: TODAY });
  // The hops by themselves first, so that what follows is interference alone.
  await session.update({}, new Set(model.names("hop")));
  const design = model.design();
  const listed = await session.readListed();
  const terrain = await openTerrain(model.terrain(), { baseDir: folder });
  const results = new Map([...session.results()].map(([name, { result }]) => [name, result]));
  const inputs: StationInputs = { design, results, listed, day: TODAY };
  globalThis.gc?.();
  const heapBefore = process.memoryUsage().heapUsed;
  const interference = new SessionInterference();
  const { user, system } = process.cpuUsage();
  let start = performance.now();
  await interference.update({ ...inputs, terrain }, {});
  const coldMs = performance.now() - start;
  const after = process.cpuUsage();
  if (interference.problem !== undefined) throw new Error(interference.problem);
  globalThis.gc?.();
  const heapMb = (process.memoryUsage().heapUsed - heapBefore) / 2 ** 20;
  const peakRssMb = process.resourceUsage().maxRSS / 1024;
  let [entries, mostAtOne] = [0, 0];
  const all = [...design.hops.keys()].flatMap((name) => interference.of(name));
  for (const at of [...all, ...interference.ofOthers()]) {
    entries += at.entries.length;
    mostAtOne = Math.max(mostAtOne, at.entries.length);
  }
  const brute = allPairs(inputs, terrain);
  const edits: { what: string; ms: number[] }[] = [];
  await session.update();
  session.updateNetwork();
  const paths = readdirSync(join(folder, "hops")).map((name) => slashed(resolve(folder, "hops", name)));
  for (const [what, of] of Object.entries(EDIT_OF)) {
    const random = randomNumbers(5);
    const ms: number[] = [];
    for (let i = 0; i < EDITS; i++) {
      const path = paths[Math.floor(random() * paths.length)]!;
      const text = model.file(path)!.text;
      const edited = of(text, random());
      for (const now of [edited, text]) {
        start = performance.now();
        project.setFiles([readSource(path, now)]);
        await session.update();
        session.updateNetwork();
        ms.push(performance.now() - start);
      }
    }
    edits.push({ what, ms });
  }
  const rows = [...listed.others.values()].reduce(
    (sum, file) => sum + ("unusable" in file ? 0 : file.table.count),
    0,
  );
  return {
    hops: design.hops.size,
    rows,
    coldMs,
    processorMs: (after.user + after.system - user - system) / 1000,
    entries,
    mostAtOne,
    heapMb,
    peakRssMb,
    bruteMs: brute.ms,
    brutePairs: brute.pairs,
    edits,
  };
}

/** One of the hops of a file, another each time. */
function inOneHop(text: string, share: number, edit: (hop: string) => string): string {
  const hops = text.split(/^(?=hop )/m);
  const at = Math.floor(share * hops.length);
  hops[at] = edit(hops[at]!);
  return hops.join("");
}

const EDIT_OF: Readonly<Record<string, (text: string, share: number) => string>> = {
  height: (text, share) =>
    inOneHop(text, share, (hop) => hop.replace(/ at (\d+) m/, (_, m) => ` at ${+m + 3} m`)),
  power: (text, share) =>
    inOneHop(text, share, (hop) => hop.replace("\n    transmits ", "\n    power 15 dBm\n    transmits ")),
  channel: (text, share) =>
    inOneHop(text, share, (hop) =>
      hop.replace(/( \/ )(\d+)\n/, (_, slash, n) => `${slash}${n === "1" ? 2 : n - 1}\n`),
    ),
};

/** Each receiver of a sample against each sender in reach of its filter, scaled to all receivers. */
function allPairs(inputs: StationInputs, terrain: TerrainStore): { ms: number; pairs: number } {
  const { hops, foreign, terms } = new StationBook().stateOf(inputs);
  const own = [...hops.values()].flatMap(({ senders }) => senders);
  const ofHops = [...hops.values()].flatMap(({ receivers }) => receivers);
  const filters = new Filters();
  const path = pathTermsOf(terms);
  let [ms, pairs] = [0, 0];
  for (const [receivers, senders] of [
    [ofHops, [...own, ...foreign.senders]],
    [foreign.receivers, own],
  ] as const) {
    if (receivers.length === 0) continue;
    const random = randomNumbers(3);
    const start = performance.now();
    let count = 0;
    for (let i = 0; i < SAMPLE; i++) {
      const receiver = receivers[Math.floor(random() * receivers.length)]!;
      for (const sender of senders) {
        if (
          Math.abs(sender.frequencyHz - receiver.frequencyHz) >
          reachHz(sender.bandwidthHz, receiver.bandwidthHz)
        )
          continue;
        const [from, to] = [sender.place.position, receiver.place.position];
        const profile = terrain.profileSync(from, to, { stepM: 250 });
        entryOf(sender, receiver, entryPath(sender, receiver, path, profile), filters);
        count++;
      }
    }
    const scale = receivers.length / SAMPLE;
    ms += (performance.now() - start) * scale;
    pairs += count * scale;
  }
  return { ms, pairs };
}
