/** Interference of a session's design, kept up to date: its stations from the hops' results, its profiles from the terrain. */
import type { InterferenceAtEnds } from "../../shared/evaluate/directions.js";
import { type InterferenceFound, InterferenceNetwork } from "../../shared/interference/network.js";
import { StationBook, type StationInputs } from "../../shared/interference/station-book.js";
import type { TerrainStore } from "../terrain/store.js";

interface Pausing {
  /** Called now and then; a promise is awaited. */
  pause?(done: number, total: number): Promise<void> | undefined;
}

/** What a run rests on. */
interface InterferenceInputs extends StationInputs {
  readonly terrain: TerrainStore | undefined;
}

/** No verdict rests on less: figures of a run that goes on from an earlier one are those of a fresh one. */
const STEPS_PER_DB = 100;

export class SessionInterference implements InterferenceFound {
  private network = new InterferenceNetwork();
  private readonly book = new StationBook();
  private terrain: TerrainStore | undefined;
  private readonly atEnds = new Map<string, InterferenceAtEnds>();

  /** Everything is computed anew with the next run. */
  forget(): void {
    this.network = new InterferenceNetwork();
  }

  of(hop: string): ReturnType<InterferenceNetwork["of"]> {
    return this.network.of(hop);
  }

  ofOthers(): ReturnType<InterferenceNetwork["ofOthers"]> {
    return this.network.ofOthers();
  }

  /** What counts at the receivers of a hop; undefined: nothing yet. */
  atEndsOf(hop: string): InterferenceAtEnds | undefined {
    return this.atEnds.get(hop);
  }

  /** @returns hops whose degradation is another than before */
  async update(inputs: InterferenceInputs, pace: Pausing): Promise<ReadonlySet<string>> {
    const { terrain } = inputs;
    if (this.terrain !== terrain) this.forget();
    this.terrain = terrain;
    const running = this.network.update(this.book.stateOf(inputs));
    let step = running.next();
    for (let count = 0; !step.done; count++) {
      const { from, to, stepM } = step.value;
      const options = { stepM };
      const profile =
        terrain && (terrain.profileSync(from, to, options) ?? (await terrain.profile(from, to, options)));
      step = running.next(profile);
      const pause = count % 200 === 199 ? pace.pause?.(0, 0) : undefined;
      if (pause) await pause;
    }
    const changed = new Set<string>();
    for (const hop of step.value) if (this.take(hop)) changed.add(hop);
    return changed;
  }

  private take(hop: string): boolean {
    const before = this.atEnds.get(hop);
    const now = new Map<string, number>();
    for (const { receiver, degradationDb } of this.network.of(hop)) {
      const { site } = receiver.place;
      const db = Math.round(degradationDb * STEPS_PER_DB) / STEPS_PER_DB;
      if (site !== undefined) now.set(site, Math.max(now.get(site) ?? 0, db));
    }
    if (now.size === 0) {
      this.atEnds.delete(hop);
      return before !== undefined;
    }
    this.atEnds.set(hop, now);
    return before === undefined || [...now].some(([site, db]) => before.get(site) !== db);
  }
}
