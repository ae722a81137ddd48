/**
 * Demands of a network: all of them at once with every failure of one hop or site, and after an edit of one hop. Run by
 * the bench in a process of its own, with the folder of the network.
 */
import { readdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { readSource } from "../../language/model/source-file.js";
import { slashed } from "../../server/files/slashed.js";
import { DesignSession } from "../../server/session/design-session.js";
import { loadProject } from "../../server/session/load.js";
import { Demands } from "../../shared/demands/demands.js";
import { randomNumbers } from "./random.js";

export interface DemandFigures {
  readonly hops: number;
  readonly demands: number;
  readonly failures: number;
  readonly coldMs: number;
  readonly heapMb: number;
  /** Demands alone, and until all findings of the network are there. */
  readonly editMs: readonly number[];
  readonly settledMs: readonly number[];
}

const EDITS = 30;

export async function demandsOf(folder: string): Promise<DemandFigures> {
  const { project } = loadProject(folder);
  const model = project.designs()[0]!;
  const session = new DesignSession(model, { today: "2026-01-01" });
  await session.update();
  const demands = new Demands();
  const look = () => {
    const { hops, sites, demands: asked, traffic, trafficAt } = model.design();
    const results = new Map([...session.results()].map(([name, { result }]) => [name, result]));
    const start = performance.now();
    const found = demands.of({
      hops,
      results,
      sites,
      demands: asked ?? new Map(),
      terms: traffic ?? {},
      atSites: trafficAt ?? new Map(),
    });
    return { found, ms: performance.now() - start };
  };
  globalThis.gc?.();
  const heapBefore = process.memoryUsage().heapUsed;
  const { found, ms: coldMs } = look();
  globalThis.gc?.();
  const heapMb = (process.memoryUsage().heapUsed - heapBefore) / 2 ** 20;
  session.updateNetwork();
  const random = randomNumbers(5);
  const paths = readdirSync(join(folder, "hops")).map((name) => slashed(resolve(folder, "hops", name)));
  const [editMs, settledMs]: [number[], number[]] = [[], []];
  for (let i = 0; i < EDITS; i++) {
    const path = paths[Math.floor(random() * paths.length)]!;
    const text = model.file(path)!.text;
    for (const now of [text.replace(/ at (\d+) m/, (_, metres) => ` at ${+metres + 3} m`), text]) {
      const start = performance.now();
      project.setFiles([readSource(path, now)]);
      await session.update();
      session.updateNetwork();
      settledMs.push(performance.now() - start);
      editMs.push(look().ms);
    }
  }
  return {
    hops: model.design().hops.size,
    demands: found.demands.size,
    failures: found.failures.length,
    coldMs,
    heapMb,
    editMs,
    settledMs,
  };
}
