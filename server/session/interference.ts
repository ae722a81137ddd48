/** Interference of a session's design, kept up to date: its stations from the hops' results, its profiles from the terrain. */
import type { InterferenceAtEnds } from "../../shared/evaluate/directions.js";
import {
  type InterferenceFound,
  InterferenceNetwork,
  type NetworkState,
  type ProfileAsked,
} from "../../shared/interference/network.js";
import { StationBook, type StationInputs } from "../../shared/interference/station-book.js";
import type { TerrainProfile } from "../../shared/terrain/profile.js";
import { reasonOf } from "../files/hop-files.js";
import type { TerrainStore } from "../terrain/store.js";

interface Pausing {
  /** Called now and then; a promise is awaited. */
  pause?(done: number, total: number): Promise<void> | undefined;
}

/** What a run rests on. */
interface InterferenceInputs extends StationInputs {
  readonly terrain: TerrainStore | undefined;
}

/** Figures to a hundredth of a dB, as they are printed: no verdict rests on less: figures of a run that goes on from an earlier one are those of a fresh one. */
const STEPS_PER_DB = 100;

export class SessionInterference implements InterferenceFound {
  private network: InterferenceNetwork;
  private readonly book: StationBook;
  private terrain: TerrainStore | undefined;
  private readonly atEnds: Map<string, InterferenceAtEnds>;
  /** One run at a time: a run waits for the terrain, and another may begin meanwhile. */
  private running: Promise<unknown> = Promise.resolve();
  /** Why the last run broke off; undefined: it did not. */
  problem: string | undefined;

  /** @param from goes on from what this one knows, and leaves it as it is */
  constructor(from?: SessionInterference) {
    this.network = new InterferenceNetwork(from?.network);
    this.book = new StationBook(from?.book);
    this.terrain = from?.terrain;
    this.atEnds = new Map(from?.atEnds);
    this.problem = from?.problem;
  }

  /**
   * What another state of the design would come to, beside this one.
   * @returns undefined where nothing was computed yet
   */
  async tried(
    inputs: InterferenceInputs,
  ): Promise<{ readonly found: SessionInterference; readonly changed: ReadonlySet<string> } | undefined> {
    await this.running;
    if (!this.network.isComputed) return undefined;
    const found = new SessionInterference(this);
    return { found, changed: await found.update(inputs, {}) };
  }

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
  update(inputs: InterferenceInputs, pace: Pausing): Promise<ReadonlySet<string>> {
    const run = this.running.then(() => this.run(inputs, pace));
    this.running = run;
    return run;
  }

  /** A fault of ours must not cost the judgement of the hops by themselves: they count without interference then, and it is told. */
  private async run(inputs: InterferenceInputs, pace: Pausing): Promise<ReadonlySet<string>> {
    try {
      const changed = await this.compute(inputs, pace);
      this.problem = undefined;
      return changed;
    } catch (error) {
      this.problem = reasonOf(error);
      this.forget();
      const counted = new Set(this.atEnds.keys());
      this.atEnds.clear();
      return counted;
    }
  }

  private async compute(inputs: InterferenceInputs, pace: Pausing): Promise<ReadonlySet<string>> {
    const { terrain } = inputs;
    if (this.terrain !== terrain) this.forget();
    this.terrain = terrain;
    const touched = await finished(this.network.update(this.book.stateOf(inputs)), terrain, pace);
    const changed = new Set<string>();
    for (const hop of touched) if (this.take(hop)) changed.add(hop);
    return changed;
  }

  /** Runs something on a copy of the network, which stays as it is. */
  async onCopy<T>(
    inputs: InterferenceInputs,
    trying: (network: InterferenceNetwork, state: NetworkState) => Trying<T>,
  ): Promise<T> {
    await this.running;
    const { network, book } = new SessionInterference(this);
    return finished(trying(network, book.stateOf(inputs)), inputs.terrain, {});
  }

  private take(hop: string): boolean {
    const before = this.atEnds.get(hop) ?? NOTHING;
    const now = new Map<string, number>();
    for (const { receiver, degradationDb } of this.network.of(hop)) {
      const { site } = receiver.place;
      const db = Math.round(degradationDb * STEPS_PER_DB) / STEPS_PER_DB;
      if (site !== undefined && db > 0) now.set(site, Math.max(now.get(site) ?? 0, db));
    }
    if (now.size === 0) this.atEnds.delete(hop);
    else this.atEnds.set(hop, now);
    return now.size !== before.size || [...now].some(([site, db]) => before.get(site) !== db);
  }
}

const NOTHING: InterferenceAtEnds = new Map();

type Trying<T> = Generator<ProfileAsked, T, TerrainProfile | undefined>;

async function finished<T>(running: Trying<T>, terrain: TerrainStore | undefined, pace: Pausing): Promise<T> {
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
  return step.value;
}
