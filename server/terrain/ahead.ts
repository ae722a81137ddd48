/**
 * Profiles read ahead by a second thread, while this one computes with those that came before. The thread has
 * a store of its own over the same files; only finished profiles cross, and their arrays change hands uncopied.
 */
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import type { LatLon, TerrainProfile } from "../../shared/terrain/profile.js";
import type { TerrainProblem, TerrainStore } from "./store.js";

export type Path = readonly [LatLon, LatLon];

/** What the thread opens. */
export interface AheadSource {
  readonly roots: readonly string[];
  readonly baseDir: string;
  readonly cacheBytes?: number;
}

/** What the thread answers to a list of paths. */
export interface AheadAnswer {
  /** In the order asked; undefined where reading failed. */
  readonly profiles: readonly (TerrainProfile | undefined)[];
  readonly problems: readonly TerrainProblem[];
}

/** A thread, or anything else that is written to and answers like one. */
export interface Channel {
  ask(paths: PathList): void;
  onAnswer(listener: (answer: AheadAnswer) => void): void;
  onFailure(listener: () => void): void;
  end(): void;
}

/** Four numbers a path: latitude and longitude of both ends, degrees. */
export type PathList = Float64Array;

export interface AheadStore extends TerrainStore {
  /** Has these read ahead; each is handed out once. */
  ask(paths: readonly Path[]): void;
  /** Ends the thread. The store goes on by itself. */
  end(): void;
}

/** Starts the thread; undefined where the program is not built and has none. */
export function startThread(source: AheadSource): Channel | undefined {
  const file = fileURLToPath(new URL("terrain-thread.cjs", import.meta.url));
  if (!existsSync(file)) return undefined;
  const worker = new Worker(file, { workerData: source });
  return {
    ask: (paths) => worker.postMessage(paths),
    onAnswer: (listener) => void worker.on("message", listener),
    // A thread that merely ends would be waited for without end.
    onFailure: (listener) => {
      for (const way of ["error", "messageerror", "exit"]) worker.on(way, listener);
    },
    end: () => void worker.terminate(),
  };
}

/** A profile on its way, or here, and how many have asked for it. */
interface Coming {
  readonly arrival: Promise<unknown>;
  profile?: TerrainProfile;
  wanted: number;
}

/** The store with profiles that come from the channel. Should that break, the store reads them itself. */
export function readAhead(store: TerrainStore, channel: Channel): AheadStore {
  const coming = new Map<string, Coming>();
  const unanswered: ((answer: AheadAnswer | undefined) => void)[] = [];
  let problems: readonly TerrainProblem[] = [];
  let ended = false;

  const end = () => {
    if (ended) return;
    ended = true;
    channel.end();
    coming.clear();
    for (const done of unanswered.splice(0)) done(undefined);
  };
  channel.onFailure(end);
  channel.onAnswer((answer) => {
    if (answer.problems.length > 0) problems = answer.problems;
    unanswered.shift()?.(answer);
  });

  const take = (key: string): TerrainProfile | undefined => {
    const one = coming.get(key);
    if (!one?.profile) return undefined;
    if (--one.wanted === 0) coming.delete(key);
    return one.profile;
  };
  return {
    ask(paths) {
      if (ended) return;
      const answered = new Promise<AheadAnswer | undefined>((done) => unanswered.push(done));
      const numbers: number[] = [];
      for (const [from, to] of paths) {
        const key = keyOf([from, to]);
        const known = coming.get(key);
        if (known) {
          known.wanted++;
          continue;
        }
        const index = numbers.length / 4;
        numbers.push(from.latitudeDeg, from.longitudeDeg, to.latitudeDeg, to.longitudeDeg);
        const one: Coming = {
          arrival: answered.then((answer) => {
            one.profile = answer?.profiles[index];
          }),
          wanted: 1,
        };
        coming.set(key, one);
      }
      channel.ask(Float64Array.from(numbers));
    },
    end,
    async profile(from, to, options) {
      if (options !== undefined) return store.profile(from, to, options);
      const key = keyOf([from, to]);
      await coming.get(key)?.arrival;
      return take(key) ?? store.profile(from, to);
    },
    profileSync(from, to, options) {
      const key = keyOf([from, to]);
      if (options !== undefined || !coming.has(key)) return store.profileSync(from, to, options);
      // What the thread is about to bring isn't read here as well.
      return take(key);
    },
    stampFor: store.stampFor,
    heightAt: store.heightAt,
    heightAtSync: store.heightAtSync,
    get problems() {
      return withoutDoubles([...store.problems, ...problems]);
    },
    get files() {
      return store.files;
    },
    refresh() {
      problems = [];
      return store.refresh();
    },
    stats: store.stats,
  };
}

const keyOf = ([from, to]: Path): string =>
  `${from.latitudeDeg} ${from.longitudeDeg} ${to.latitudeDeg} ${to.longitudeDeg}`;

function withoutDoubles(problems: readonly TerrainProblem[]): TerrainProblem[] {
  return [...new Map(problems.map((problem) => [`${problem.file}\n${problem.message}`, problem])).values()];
}
