/** Judges one hop: from an earlier run where its result rests on the same as then, otherwise from its ground. */
import type { JudgedHop } from "../../language/editor/results.js";
import type { DesignModel } from "../../language/model/design-model.js";
import type { Stock } from "../../shared/design/change.js";
import type { Hop } from "../../shared/design/design.js";
import { evaluateHop, geometryOf } from "../../shared/evaluate/hop.js";
import type { Standing } from "../../shared/interference/stations.js";
import { judgeHop } from "../../shared/rules/judge.js";
import type { KeptResults } from "../kept/kept-results.js";
import type { GroundSources } from "./ground-sources.js";
import type { SessionInterference } from "./interference.js";
import { notJudged } from "./not-judged.js";

export interface SessionHop extends JudgedHop {
  /** What of the catalogue advice was tried with; undefined: none had to be. */
  readonly stock?: Stock;
}

export class HopJudge {
  constructor(
    private readonly model: DesignModel,
    private readonly ground: GroundSources,
    private readonly interference: SessionInterference,
    private readonly kept: KeptResults | undefined,
  ) {}

  /**
   * A fault of ours in one hop must not cost the judgement of the others.
   * @param day ISO date that acceptances are held against
   */
  async judge(hop: Hop, day: string): Promise<SessionHop> {
    try {
      const { kept } = this;
      const key = this.keyOf(hop, day);
      const known = key === undefined ? undefined : kept?.take(hop.name, key);
      if (known !== undefined) return { hop, ...known };
      const ground = await this.ground.of(hop);
      const atEnds = this.interference.atEndsOf(hop.name);
      const result = evaluateHop(hop, ground, atEnds);
      const { model } = this;
      let stock: Stock | undefined;
      const findings = judgeHop(hop, result, day, {
        get stock() {
          stock ??= model.stockFor(hop.name);
          return stock;
        },
        evaluate: (changed) => evaluateHop(changed, ground, atEnds),
      });
      // Advice was tried with what the catalogue has; the key says nothing of that.
      if (key !== undefined && stock === undefined) kept?.keep(hop.name, key, { result, findings });
      return { hop, result, findings, stock };
    } catch (error) {
      return notJudged(hop, error);
    }
  }

  /** Where a hop stands and what it sends, for those that hear it; it is not judged, and a fault of ours leaves it out. */
  async standing(hop: Hop): Promise<Standing> {
    try {
      // How far power control lets an end down rests on its levels.
      const isLetDown = hop.ends.some(({ powerControl }) => powerControl !== undefined);
      const atEnds = isLetDown ? undefined : await this.ground.atEnds(hop);
      if (atEnds !== undefined) return { geometry: geometryOf(hop, atEnds) };
      return evaluateHop(hop, await this.ground.of(hop), this.interference.atEndsOf(hop.name));
    } catch {
      return { geometry: undefined };
    }
  }

  /** Whether a hop need not be evaluated: an earlier run did. */
  isKept(name: string, day: string): boolean {
    const hop = this.kept && this.model.hop(name)?.hop;
    const key = hop && this.keyOf(hop, day);
    return key !== undefined && this.kept!.has(name, key);
  }

  /** What a hop's result rests on; undefined where that is more than the hop and the terrain. */
  private keyOf(hop: Hop, day: string): string | undefined {
    const { kept } = this;
    if (kept === undefined || this.ground.maps !== undefined || hop.surveyFile !== undefined)
      return undefined;
    if (hop.climate.multipathMethod === "preceding") return undefined;
    return kept.keyOf(hop, day, this.interference.atEndsOf(hop.name));
  }
}
