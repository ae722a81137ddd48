/**
 * A cold check taken apart: reading, parsing, resolving, the ground, evaluating and judging, one after the
 * other over all hops, in a process of its own so that memory and warm-up are its own.
 */

import { Project } from "../../language/model/project.js";
import { readSource } from "../../language/model/source-file.js";
import { readHopFiles } from "../../server/files/hop-files.js";
import { ground } from "../../server/session/ground.js";
import { openTerrain } from "../../server/terrain/store.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import { judgeHop } from "../../shared/rules/judge.js";
import { judgeNetwork } from "../../shared/rules/judge-network.js";

export interface Phases {
  readonly hops: number;
  readonly textBytes: number;
  /** In the order in which they ran. */
  readonly ms: Readonly<
    Record<"read" | "parse" | "resolve" | "ground" | "evaluate" | "judge" | "network", number>
  >;
  readonly findings: number;
  readonly profilePoints: number;
  readonly peakRssMb: number;
}

const TODAY = "2026-01-01";

export async function phasesOf(folder: string): Promise<Phases> {
  const ms = { read: 0, parse: 0, resolve: 0, ground: 0, evaluate: 0, judge: 0, network: 0 };
  const timed = <T>(phase: keyof typeof ms, work: () => T): T => {
    const start = performance.now();
    const result = work();
    ms[phase] += performance.now() - start;
    return result;
  };
  const { texts } = timed("read", () => readHopFiles(folder));
  const sources = timed("parse", () => texts.map(({ path, text }) => readSource(path, text)));
  const model = timed("resolve", () => {
    const project = new Project(folder);
    project.setFiles(sources);
    return project.designs()[0]!;
  });
  const hops = timed("resolve", () => model.names("hop").flatMap((name) => model.hop(name)?.hop ?? []));

  let start = performance.now();
  const store = await openTerrain(model.terrain(), { baseDir: folder });
  const grounds: GroundInput[] = [];
  for (const hop of hops) grounds.push(await ground(hop, store));
  ms.ground = performance.now() - start;
  const results = new Map<string, HopResult>();
  let findings = 0;
  // Hop by hop, as it is done in use: what a hop needed is in the processor's cache when it is judged.
  hops.forEach((hop, index) => {
    start = performance.now();
    const result = evaluateHop(hop, grounds[index]!);
    const evaluated = performance.now();
    ms.evaluate += evaluated - start;
    findings += judgeHop(hop, result, TODAY).length;
    ms.judge += performance.now() - evaluated;
    results.set(hop.name, result);
  });
  findings += timed("network", () => judgeNetwork(model.design(), results, TODAY)).length;
  return {
    hops: hops.length,
    textBytes: texts.reduce((sum, { text }) => sum + Buffer.byteLength(text), 0),
    ms,
    findings,
    profilePoints: grounds.reduce((sum, { profile }) => sum + (profile?.heightM.length ?? 0), 0),
    peakRssMb: process.resourceUsage().maxRSS / 1024,
  };
}
