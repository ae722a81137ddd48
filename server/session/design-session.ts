/**
 * Keeps the results of one design up to date: evaluates the hops that changed, and only those, and holds
 * the findings of all. A hop whose resolved form is the same as before keeps its result.
 */
import type { DesignModel } from "../../language/model/design-model.js";
import type { Hop } from "../../shared/design/design.js";
import type { Finding } from "../../shared/design/finding.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import type { HopResult } from "../../shared/evaluate/result.js";
import { judgeHop, judgeNetwork } from "../../shared/rules/judge.js";
import { openTerrain, type TerrainStore } from "../terrain/store.js";
import { ground, groundNow } from "./ground.js";

export interface JudgedHop {
  readonly hop: Hop;
  readonly result: HopResult;
  readonly findings: readonly Finding[];
}

export interface SessionOptions {
  /** ISO date that acceptances are held against. */
  readonly today: string;
  readonly terrainCacheBytes?: number;
}

/** Lets other work run between hops, and says when this run has become pointless. */
export interface Pace {
  /** Called after each hop; a promise is awaited. */
  pause?(done: number, total: number): Promise<void> | undefined;
  isStale?(): boolean;
}

export class DesignSession {
  private readonly judged = new Map<string, JudgedHop>();
  private readonly content = new Map<string, string>();
  private readonly pending = new Set<string>();
  private network: readonly Finding[] = [];
  private store: TerrainStore | undefined;
  private storeRoots = "";
  /** Hops evaluated since the start, for tests and figures. */
  evaluations = 0;

  constructor(
    readonly model: DesignModel,
    private readonly options: SessionOptions,
  ) {}

  result(name: string): JudgedHop | undefined {
    return this.judged.get(name);
  }

  results(): ReadonlyMap<string, JudgedHop> {
    return this.judged;
  }

  networkFindings(): readonly Finding[] {
    return this.network;
  }

  terrain(): TerrainStore | undefined {
    return this.store;
  }

  /** Hops that wait for evaluation. */
  waiting(): ReadonlySet<string> {
    for (const name of this.model.takeChangedHops()) this.pending.add(name);
    return this.pending;
  }

  /**
   * Brings every result up to date. Stale runs stop between two hops; what they have not done stays waiting.
   * @param first hops to take before the others, for example those of the file being edited
   * @returns names of the hops whose result or findings changed, deleted ones included; undefined when it stopped
   */
  async update(pace: Pace = {}, first: ReadonlySet<string> = new Set()): Promise<Set<string> | undefined> {
    const moved = await this.openTerrain();
    if (moved) this.forgetResults();
    const changed = new Set<string>();
    const names = [...this.waiting()].sort((a, b) => Number(first.has(b)) - Number(first.has(a)));
    for (const [index, name] of names.entries()) {
      if (pace.isStale?.()) return undefined;
      if (await this.updateHop(name)) changed.add(name);
      this.pending.delete(name);
      const pause = pace.pause?.(index + 1, names.length);
      if (pause) await pause;
    }
    if (changed.size > 0 || moved) this.judgeNetwork();
    return changed;
  }

  /** Forgets what was read of the terrain if any of its files changed. @returns whether one did */
  async refreshTerrain(): Promise<boolean> {
    const changed = (await this.store?.refresh()) ?? false;
    if (changed) this.forgetResults();
    return changed;
  }

  private async openTerrain(): Promise<boolean> {
    const roots = this.model.terrain();
    const key = roots.join("\n");
    if (key === this.storeRoots) return false;
    this.storeRoots = key;
    this.store = roots.length === 0 ? undefined : await openTerrain(roots, { cacheBytes: this.options.terrainCacheBytes, baseDir: this.model.root });
    return true;
  }

  private forgetResults(): void {
    this.content.clear();
    for (const name of this.model.names("hop")) this.pending.add(name);
  }

  private async updateHop(name: string): Promise<boolean> {
    const hop = this.model.hop(name)?.hop;
    if (!hop) {
      this.content.delete(name);
      return this.judged.delete(name);
    }
    const content = JSON.stringify(hop);
    if (this.content.get(name) === content && this.judged.has(name)) return false;
    const result = evaluateHop(hop, groundNow(hop, this.store) ?? (await ground(hop, this.store)));
    this.evaluations++;
    this.judged.set(name, { hop, result, findings: judgeHop(hop, result, this.options.today) });
    this.content.set(name, content);
    return true;
  }

  private judgeNetwork(): void {
    const results = new Map([...this.judged].map(([name, { result }]) => [name, result]));
    this.network = judgeNetwork(this.model.design(), results, this.options.today);
  }
}
