/**
 * When to evaluate, and what to publish. Nothing is evaluated on the keystroke path: a change only marks
 * what is stale and arms a run. A run reads the edited documents, evaluates the hops of the files that are
 * open, publishes those files, and then goes through the rest in slices; a newer change stops it between
 * two hops or two files, and what it left undone stays waiting.
 */
import type { Diagnostic } from "vscode-languageserver";
import type { DesignSession, Pace } from "../session/design-session.js";
import type { Designs } from "./designs.js";
import { diagnosticsOf, unreadableDiagnostics } from "./diagnostics.js";
import { type EarlierDiagnostics, EarlierStages } from "./earlier-stages.js";
import { namingFiles } from "./ground-problems.js";
import { uriOf } from "./locations.js";

/** Keys that follow each other faster than this are answered together. */
const COALESCE_MS = 12;
/** Longest piece of work between two looks at the incoming messages. */
const SLICE_MS = 8;
/** The progress of a long evaluation is told no more often than this. */
const PROGRESS_MS = 250;
/** Network rules go with the fast answer while they cost less than this; otherwise they follow it. */
const QUICK_NETWORK_MS = 15;
/** Network rules that cost more than this wait for a rest, so that no key waits for them. */
const SLOW_NETWORK_MS = 100;
const NETWORK_REST_MS = 150;

export interface EvaluationHost {
  publish(path: string, diagnostics: Diagnostic[]): void;
  /** Something of what is shown beside diagnostics may have changed. */
  changed(hops: ReadonlySet<string>): void;
  status(waiting: number): void;
  failed(error: unknown): void;
  /** ISO date; undefined: it stays the one that the designs were opened with. */
  today?(): string;
}

export class Evaluation {
  private revision = 0;
  private timer: NodeJS.Timeout | undefined;
  private running: Promise<void> | undefined;
  /** Files whose diagnostics may differ from those published. */
  private readonly due = new Set<string>();
  private readonly published = new Map<string, string>();
  /** Files whose published diagnostics point into a file, by its address: when that is edited, its lines move. */
  private readonly pointing = new Map<string, Set<string>>();
  private readonly stages = new EarlierStages();
  private readonly earlier = new WeakMap<DesignSession, EarlierDiagnostics>();
  private networkMs = 0;
  private endRest: (() => void) | undefined;

  constructor(
    private readonly designs: Designs,
    private readonly host: EvaluationHost,
  ) {}

  /** Something changed: what runs is stale, and a new run is due. */
  touch(): void {
    this.revision++;
    this.endRest?.();
    if (this.timer || this.running) return;
    this.timer = setTimeout(() => this.start(), COALESCE_MS);
  }

  /** Resolves when everything that was known when it was asked has been evaluated and published. */
  async settled(): Promise<void> {
    while (this.timer || this.running) {
      if (this.timer) this.start();
      await this.running;
    }
  }

  private start(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
    this.running = this.run()
      .catch((error) => this.host.failed(error))
      .finally(() => {
        this.running = undefined;
      });
  }

  private async run(): Promise<void> {
    let mine = -1;
    while (mine !== this.revision) {
      mine = this.revision;
      const isStale = () => mine !== this.revision;
      const pace = { isStale, pause: slices((done, total) => this.host.status(total - done)) };
      if (this.host.today) this.designs.beginDay(this.host.today());
      this.designs.refresh();
      const sessions = this.designs.allSessions();
      this.dueBesideDesigns();
      for (const session of sessions) await this.updateOpenFiles(session, pace);
      await this.updateUnsaved(pace);
      for (const path of this.due) if (this.designs.isOpen(path)) this.publish(path);
      // What was published leaves the process only when other work is let in.
      await turn();
      for (const session of sessions) if (!isStale()) await this.updateRest(session, pace);
      for (const session of this.designs.unsavedSessions().values())
        if (!isStale()) await this.judgeNetwork(session, { isStale, pause: slices() });
      await this.publishRest(isStale);
      for (const session of sessions)
        if (!isStale()) await this.walkStages(session, { isStale, pause: slices() });
      await this.publishRest(isStale);
      if (!isStale()) this.host.status(0);
    }
  }

  /** Files of no design tell nobody that they changed: those that are gone or not shown, and those that cannot be read. */
  private dueBesideDesigns(): void {
    for (const path of this.published.keys())
      if (!this.designs.file(path) || !this.designs.isShown(path)) this.due.add(path);
    for (const path of this.designs.problemsOfFiles().keys()) this.due.add(path);
  }

  private async updateOpenFiles(session: DesignSession, pace: Pace): Promise<void> {
    const waiting = session.waiting();
    const wanted = new Set<string>();
    for (const path of this.designs.openFiles()) {
      for (const { kind, name } of session.model.file(path)?.declarations ?? []) {
        if (kind === "hop" && waiting.has(name)) wanted.add(name);
      }
    }
    this.collect(session, await session.update(pace, wanted));
    if (pace.isStale?.()) return;
    if (this.networkMs < QUICK_NETWORK_MS) await this.judgeNetwork(session, {});
    else for (const path of this.designs.openFiles()) if (this.due.has(path)) session.judgeEntriesOf(path);
  }

  /** Of the copy of a design that an unsaved document is judged with, its own hops count. */
  private async updateUnsaved(pace: Pace): Promise<void> {
    for (const [path, session] of this.designs.unsavedSessions()) {
      const own = (this.designs.file(path)?.declarations ?? []).filter(({ kind }) => kind === "hop");
      await session.update(pace, new Set(own.map(({ name }) => name)));
      this.due.add(path);
    }
  }

  private async updateRest(session: DesignSession, pace: Pace): Promise<void> {
    this.collect(session, await session.update(pace));
    // What is wrong with terrain and maps shows while they are read.
    for (const path of namingFiles(session.model)) this.due.add(path);
    if (session.networkWaits() && this.networkMs >= SLOW_NETWORK_MS) await this.rest();
    // A newer change must not wait for a judgement that it makes old; the next run judges.
    if (!pace.isStale?.()) await this.judgeNetwork(session, { isStale: pace.isStale, pause: slices() });
  }

  /** Waits for a while, or until something changes. */
  private rest(): Promise<void> {
    return new Promise((resolve) => {
      const timer = setTimeout(resolve, NETWORK_REST_MS);
      this.endRest = () => {
        clearTimeout(timer);
        resolve();
      };
    });
  }

  private async judgeNetwork(session: DesignSession, pace: Pace): Promise<void> {
    if (!session.networkWaits()) return;
    const start = performance.now();
    for (const file of await session.updateNetworkInSteps(pace)) this.due.add(file);
    if (session.networkWaits()) return;
    this.networkMs = performance.now() - start;
    // What stands beside demands, and beside hops that they pass, rests on hops elsewhere.
    if (session.model.names("demand").length > 0) this.host.changed(new Set());
  }

  /** Goes last: what is edited is judged as it is to be, the times before it follow. */
  private async walkStages(session: DesignSession, pace: Pace): Promise<void> {
    const found = await this.stages.walk(session, pace);
    if (!found) return;
    const before = this.earlier.get(session) ?? new Map();
    this.earlier.set(session, found);
    for (const path of new Set([...before.keys(), ...found.keys()])) this.due.add(path);
  }

  private earlierIn(path: string): readonly Diagnostic[] {
    return this.designs.sessionsOf(path).flatMap((session) => this.earlier.get(session)?.get(path) ?? []);
  }

  private collect(session: DesignSession, hops: ReadonlySet<string>): void {
    for (const file of session.model.takeChangedFiles()) {
      this.due.add(file);
      // Its lines have moved; the walk finds what still holds.
      const earlier = this.earlier.get(session);
      if (earlier?.has(file))
        this.earlier.set(session, new Map([...earlier].filter(([path]) => path !== file)));
      for (const path of this.pointing.get(uriOf(file)) ?? []) this.due.add(path);
    }
    for (const hop of hops) {
      for (const entry of session.model.declarations(`hop ${hop}`)) this.due.add(entry.file);
    }
    if (hops.size > 0) this.host.changed(hops);
  }

  private async publishRest(isStale: () => boolean): Promise<void> {
    const pause = slices();
    for (const path of this.due) {
      if (isStale()) return;
      this.publish(path);
      await pause();
    }
  }

  private publish(path: string): void {
    this.due.delete(path);
    const diagnostics = this.designs.isShown(path) ? this.diagnosticsFor(path) : [];
    const content = JSON.stringify(diagnostics);
    if ((this.published.get(path) ?? "[]") === content) return;
    if (diagnostics.length > 0) this.published.set(path, content);
    else this.published.delete(path);
    this.notePointing(path, diagnostics);
    this.host.publish(path, diagnostics);
  }

  private diagnosticsFor(path: string): Diagnostic[] {
    const file = this.designs.file(path);
    return file
      ? [...diagnosticsOf(file, this.designs.sessionsOf(path)), ...this.earlierIn(path)]
      : unreadableDiagnostics(this.designs.problemsOfFiles().get(path));
  }

  private notePointing(path: string, diagnostics: readonly Diagnostic[]): void {
    for (const paths of this.pointing.values()) paths.delete(path);
    for (const { relatedInformation = [] } of diagnostics)
      for (const { location } of relatedInformation) {
        const paths = this.pointing.get(location.uri);
        if (paths) paths.add(path);
        else this.pointing.set(location.uri, new Set([path]));
      }
  }
}

/** A pause whenever a slice of time is used up, in which waiting messages are read. */
function slices(progress?: (done: number, total: number) => void) {
  let started = performance.now();
  let told = started;
  return (done = 0, total = 0): Promise<void> | undefined => {
    const now = performance.now();
    if (now - started < SLICE_MS) return undefined;
    if (progress && now - told >= PROGRESS_MS) {
      told = now;
      progress(done, total);
    }
    return turn().then(() => {
      started = performance.now();
    });
  };
}

/**
 * Turns of the event loop from the arrival of bytes to the handler of their message: the connection reads,
 * decodes, queues and dispatches in a turn each. With fewer, a key waits for several pieces of work.
 */
const TURNS_A_MESSAGE = 4;

/** Lets waiting messages in and written ones out. */
async function turn(): Promise<void> {
  for (let i = 0; i < TURNS_A_MESSAGE; i++) await new Promise((resolve) => setImmediate(resolve));
}
