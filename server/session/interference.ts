/** Interference of a session's design, kept up to date: its stations from the hops' results, its profiles from the terrain. */
import type { InterferenceAtEnds } from "../../shared/evaluate/directions.js";
import { type Caused, type CausedBy, causedIn } from "../../shared/interference/caused.js";
import {
  type Asking,
  type InterferenceFound,
  InterferenceNetwork,
  type NetworkState,
} from "../../shared/interference/network.js";
import { StationBook, type StationInputs } from "../../shared/interference/station-book.js";
import { reasonOf } from "../files/hop-files.js";
import type { TerrainStore } from "../terrain/store.js";

export interface Pausing {
  /** Called now and then; a promise is awaited. */
  pause?(done: number, total: number): Promise<void> | undefined;
  /** Whether the run has become pointless. */
  isStale?(): boolean;
}

/** What a run rests on. */
export interface InterferenceInputs extends StationInputs {
  readonly terrain: TerrainStore | undefined;
}

/** What a run came to. */
export interface Felt {
  /** Hops whose degradation is another than before. */
  readonly changed: ReadonlySet<string>;
  /** Whether anything may be told otherwise, if no degradation. */
  readonly told: boolean;
}

/**
 * Figures to a thousandth of a dB: no verdict rests on less, and those of a run that goes on from an earlier one are those
 * of a fresh one. What rounds to no hundredth is none.
 */
const STEPS_PER_DB = 1000;
const LEAST_DB = 0.005;

export class SessionInterference implements InterferenceFound {
  private network: InterferenceNetwork;
  private readonly book: StationBook;
  private terrain: TerrainStore | undefined;
  private caused: { readonly network: InterferenceNetwork; readonly by: CausedBy } | undefined;
  private readonly atEnds: Map<string, InterferenceAtEnds>;
  /** One run at a time: a run waits for the terrain, and another may begin meanwhile. */
  private running: Promise<unknown> = Promise.resolve();
  /** Why the last run failed; undefined: it did not. */
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
    if (!this.isComputed) return undefined;
    const found = new SessionInterference(this);
    const felt = await found.update(inputs, {});
    return felt && { found, changed: felt.changed };
  }

  /**
   * Runs something on a copy of the network, which stays as it is.
   * @returns undefined where it has become pointless
   */
  async onCopy<T>(
    inputs: InterferenceInputs,
    trying: (network: InterferenceNetwork, state: NetworkState) => Asking<T>,
    pace: Pausing = {},
  ): Promise<T | undefined> {
    await this.running;
    const { network, book } = new SessionInterference(this);
    const finished = await run(trying(network, book.stateOf(inputs)), inputs.terrain, pace);
    return finished?.value;
  }

  /** Everything is computed anew with the next run, and what runs now does not count. */
  forget(): void {
    this.network = new InterferenceNetwork();
  }

  /** Whether anything was computed yet. */
  get isComputed(): boolean {
    return this.network.isComputed;
  }

  of(hop: string): ReturnType<InterferenceNetwork["of"]> {
    return this.network.of(hop);
  }

  ofOthers(): ReturnType<InterferenceNetwork["ofOthers"]> {
    return this.network.ofOthers();
  }

  /** What a hop does to the receivers of the others. @param hops all of the design */
  causedBy(hop: string, hops: Iterable<string>): readonly Caused[] {
    const { network } = this;
    if (this.caused?.network !== network) this.caused = { network, by: causedIn(hops, network) };
    return this.caused.by.get(hop) ?? [];
  }

  /** What counts at the receivers of a hop; undefined: nothing yet. */
  atEndsOf(hop: string): InterferenceAtEnds | undefined {
    return this.atEnds.get(hop);
  }

  /** @returns undefined where the run has become pointless: what it did is not lost, and the next one goes on */
  update(inputs: InterferenceInputs, pace: Pausing): Promise<Felt | undefined> {
    const next = this.running.then(() => this.computed(inputs, pace));
    this.running = next;
    return next;
  }

  /** A fault of ours must not cost the judgement of the hops by themselves: they count without interference then, and it is told. */
  private async computed(inputs: InterferenceInputs, pace: Pausing): Promise<Felt | undefined> {
    try {
      const felt = await this.compute(inputs, pace);
      if (felt !== undefined) this.problem = undefined;
      return felt;
    } catch (error) {
      this.problem = reasonOf(error);
      this.forget();
      const changed = new Set(this.atEnds.keys());
      this.atEnds.clear();
      return { changed, told: true };
    }
  }

  private async compute(inputs: InterferenceInputs, pace: Pausing): Promise<Felt | undefined> {
    const { terrain } = inputs;
    if (this.terrain !== terrain) this.forget();
    this.terrain = terrain;
    const from = this.network;
    // On a copy: what is shown meanwhile is what was found last, and a run may be broken off.
    const next = new InterferenceNetwork(from);
    const finished = await run(next.update(this.book.stateOf(inputs)), terrain, pace);
    // The ground has changed below it.
    if (this.network !== from) return undefined;
    if (finished === undefined) {
      from.learn(next);
      return undefined;
    }
    this.network = next;
    const changed = new Set<string>();
    for (const hop of finished.value) if (this.take(hop)) changed.add(hop);
    return { changed, told: finished.value.size > 0 };
  }

  private take(hop: string): boolean {
    const before = this.atEnds.get(hop) ?? NOTHING;
    const now = new Map<string, number>();
    for (const { receiver, degradationDb } of this.network.of(hop)) {
      const { site } = receiver.place;
      const db = Math.round(degradationDb * STEPS_PER_DB) / STEPS_PER_DB;
      if (site !== undefined && db >= LEAST_DB) now.set(site, Math.max(now.get(site) ?? 0, db));
    }
    if (now.size === 0) this.atEnds.delete(hop);
    else this.atEnds.set(hop, now);
    return now.size !== before.size || [...now].some(([site, db]) => before.get(site) !== db);
  }
}

const NOTHING: InterferenceAtEnds = new Map();

/** @returns undefined where it was broken off */
async function run<T>(
  asking: Asking<T>,
  terrain: TerrainStore | undefined,
  pace: Pausing,
): Promise<{ readonly value: T } | undefined> {
  for (let step = asking.next(); ; ) {
    if (step.done) return { value: step.value };
    const asked = step.value;
    let profile: Awaited<ReturnType<TerrainStore["profile"]>> | undefined;
    if (asked === undefined) {
      const pause = pace.pause?.(0, 0);
      if (pause) await pause;
      if (pace.isStale?.()) return undefined;
    } else if (terrain !== undefined) {
      const { from, to, stepM } = asked;
      profile = terrain.profileSync(from, to, { stepM }) ?? (await terrain.profile(from, to, { stepM }));
    }
    step = asking.next(profile);
  }
}

const NOTHING_FELT: ReturnType<InterferenceNetwork["of"]> = [];

/** Of hops that are not judged, what they feel is known in part only, and not told. */
export function feltIn(results: ReadonlyMap<string, unknown>, found: InterferenceFound): InterferenceFound {
  return {
    problem: found.problem,
    of: (name) => (results.has(name) ? found.of(name) : NOTHING_FELT),
    ofOthers: () => found.ofOthers(),
  };
}
