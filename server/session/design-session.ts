/**
 * Keeps the results of one design up to date: evaluates the hops that changed, and only those, and holds
 * the findings of all. A hop whose resolved form is the same as before keeps its result.
 */

import { isDeepStrictEqual } from "node:util";
import type { DesignModel } from "../../language/model/design-model.js";
import { isBelow } from "../../language/model/path.js";
import type { DemandsResult } from "../../shared/demands/result.js";
import type { Design, Hop } from "../../shared/design/design.js";
import type { Finding } from "../../shared/design/finding.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import type { GroundInput } from "../../shared/evaluate/path/ground.js";
import type { Caused } from "../../shared/interference/caused.js";
import type { InterferenceFound } from "../../shared/interference/network.js";
import type { InterferenceAt } from "../../shared/interference/receiver-result.js";
import type { Standing } from "../../shared/interference/stations.js";
import { demandsInNetwork } from "../../shared/network/demands.js";
import { type HopInNetwork, hopInNetwork } from "../../shared/network/in-network.js";
import { Memory } from "../../shared/network/memory.js";
import type { ListedFiles } from "../../shared/others/listed.js";
import { ENTRY_RULES } from "../../shared/rules/judge-entries.js";
import { judgeNetwork, judgeNetworkInSteps } from "../../shared/rules/judge-network.js";
import type { SpotHeights } from "../../shared/rules/position-slips.js";
import type { KeptResults } from "../kept/kept-results.js";
import type { MapStore } from "../maps/store.js";
import type { TerrainStore } from "../terrain/store.js";
import { FindingsByFile } from "./findings-by-file.js";
import { findingsOnEntries } from "./findings-on-entries.js";
import { type GroundOptions, GroundSources } from "./ground-sources.js";
import { HopJudge, type SessionHop } from "./hop-judge.js";
import { feltIn, type InterferenceInputs, type SessionInterference } from "./interference.js";
import { interferenceTerms } from "./interference-terms.js";
import { listedPaths } from "./listed-files.js";
import { Surroundings } from "./surroundings.js";

export interface SessionOptions extends GroundOptions {
  /** ISO date that acceptances are held against. */
  readonly today: string;
  /** Results of earlier runs. */
  readonly kept?: KeptResults | undefined;
}

/** Lets other work run between hops, and says when this run has become pointless. */
export interface Pace {
  /** Called after each hop; a promise is awaited. */
  pause?(done: number, total: number): Promise<void> | undefined;
  isStale?(): boolean;
}

/** Of hops that were judged, not only placed. */
type Judged<Inputs> = Omit<Inputs, "results"> & { readonly results: ReadonlyMap<string, HopResult> };

/** Below this many hops a thread starts no sooner than they are done. */
const WORTH_A_THREAD = 300;

export class DesignSession {
  private readonly judged = new Map<string, SessionHop>();
  private readonly hopResults = new Map<string, HopResult>();
  /** Hops whose result does not count any more, whatever their resolved form. */
  private readonly outdated = new Set<string>();
  private readonly pending = new Set<string>();
  /** What judging made of sites and hops, as long as they are the same. */
  private readonly memory = new Memory();
  private readonly network = new FindingsByFile();
  private networkIsStale = false;
  private lastCarried: { readonly network: readonly Finding[]; readonly result?: DemandsResult } | undefined;
  private readonly ground: GroundSources;
  private readonly around: Surroundings;
  private readonly judge: HopJudge;
  /** ISO date of today. */
  private day: string;
  private acceptancesOn: string;
  /** Hops evaluated since the start, for tests and figures. */
  evaluations = 0;
  /** Grows whenever results were forgotten because the ground below them changed. */
  groundRevision = 0;

  constructor(
    readonly model: DesignModel,
    options: SessionOptions,
  ) {
    this.day = options.today;
    this.acceptancesOn = options.today;
    this.ground = new GroundSources(model, options);
    this.around = new Surroundings(model, this.ground, this.memory, options.fileFor);
    this.judge = new HopJudge(model, this.ground, this.interference, options.kept);
    model.setToday(options.today);
  }

  get interference(): SessionInterference {
    return this.around.interference;
  }

  result(name: string): SessionHop | undefined {
    return this.judged.get(name);
  }

  /** The same with what others' transmissions do at its receivers. */
  felt(name: string): (SessionHop & { readonly interference: readonly InterferenceAt[] }) | undefined {
    const judged = this.judged.get(name);
    return judged && { ...judged, interference: this.interference.of(name) };
  }

  /** What a hop does to the receivers of the others that are judged, and of others' lists. */
  caused(name: string): readonly Caused[] {
    return this.interference.causedBy(name, this.judged.keys());
  }

  /** A hop with the figures that rest on others. */
  inNetwork(name: string): HopInNetwork | undefined {
    const { model, hopResults, memory } = this;
    const hop = this.judged.get(name)?.hop;
    const hops = {
      hop: (other: string) => model.hop(other)?.hop,
      result: (other: string) => hopResults.get(other),
      interference: (other: string) => this.interference.of(other),
    };
    return hop && hopInNetwork(hop, hops, memory);
  }

  /** What the network carries, from the results at hand; undefined where no demand is stated. */
  demands(): DemandsResult | undefined {
    return demandsInNetwork(this.model.design(), this.hopResults, this.memory);
  }

  /** The same as the network was last judged with; undefined before it was. */
  carried(): DemandsResult | undefined {
    const { all: network } = this.network;
    if (this.lastCarried?.network !== network && !this.networkIsStale && this.waiting().size === 0)
      this.lastCarried = { network, result: this.demands() };
    return this.lastCarried?.result;
  }

  results(): ReadonlyMap<string, SessionHop> {
    return this.judged;
  }

  networkFindings(): readonly Finding[] {
    return this.network.all;
  }

  networkFindingsIn(path: string): readonly Finding[] {
    return this.network.in(path);
  }

  /** ISO date. */
  get today(): string {
    return this.day;
  }

  /** Another day has begun: what is held against it is judged anew. */
  beginDay(day: string): void {
    const before = this.day;
    if (day === before) return;
    this.day = day;
    this.model.setToday(day);
    this.networkIsStale = true;
    if (this.acceptancesOn === before) this.holdAcceptancesOn(day);
  }

  /** ISO date that acceptances are held against. */
  get acceptanceDay(): string {
    return this.acceptancesOn;
  }

  /** Acceptances are held against this day from now on: that of the stage which the model looks at. */
  holdAcceptancesOn(day: string): void {
    const before = this.acceptancesOn;
    if (day === before) return;
    this.acceptancesOn = day;
    this.networkIsStale = true;
    for (const [name, { hop }] of this.judged) {
      const differs = hop.accepts.some(({ until }) => until !== undefined && until < before !== until < day);
      if (!differs) continue;
      this.pending.add(name);
      this.outdated.add(name);
    }
  }

  terrain(): TerrainStore | undefined {
    return this.ground.terrain;
  }

  maps(): MapStore | undefined {
    return this.ground.maps;
  }

  /** The ground of a hop, with what maps and terrain say of its climate. */
  groundOf(hop: Hop): Promise<GroundInput> {
    return this.ground.of(hop);
  }

  /** Hops that wait for evaluation. */
  waiting(): ReadonlySet<string> {
    for (const name of this.model.takeChangedHops()) this.pending.add(name);
    return this.pending;
  }

  /**
   * Brings results up to date. A stale run stops between two hops; what it has not done stays waiting.
   * @param only hops to take now, for example those of the files being looked at; the others stay waiting
   * @returns names of the hops whose result or findings changed, deleted ones included
   */
  async update(pace: Pace = {}, only?: ReadonlySet<string>): Promise<Set<string>> {
    if (await this.ground.open()) this.forgetResults();
    const changed = new Set<string>();
    const waiting = [...this.waiting()];
    const names = only ? waiting.filter((name) => only.has(name)) : waiting;
    const onGround = names.filter((name) => !this.judge.isKept(name, this.acceptancesOn));
    const ahead = onGround.length >= WORTH_A_THREAD ? this.ground.ahead(onGround) : undefined;
    let asked = 0;
    try {
      for (const [index, name] of names.entries()) {
        if (pace.isStale?.()) break;
        if (name === onGround[asked]) ahead?.ask(asked++);
        // Before it is judged: what changes meanwhile makes it wait again.
        this.pending.delete(name);
        if (await this.updateHop(name)) changed.add(name);
        const pause = pace.pause?.(index + 1, names.length);
        if (pause) await pause;
      }
    } finally {
      // A thread that is left running keeps the process alive.
      ahead?.end();
    }
    if (this.model.takeSharedChanged() || changed.size > 0) this.networkIsStale = true;
    if (this.networkIsStale) this.around.waitForAll();
    if (!only) await this.readSpots();
    if (!only) await this.readListed(pace);
    if (!only) for (const name of await this.readInterference(pace)) changed.add(name);
    return changed;
  }

  /**
   * The same for some hops, with what the transmissions of others do to them. Those are neither judged nor held: what they
   * feel of each other nobody asks.
   */
  async updateAmong(pace: Pace, names: ReadonlySet<string>, senders: ReadonlySet<string>): Promise<void> {
    await this.update(pace, names);
    await this.readListed(pace);
    const results = new Map<string, Standing>(this.hopResults);
    for (const name of senders) {
      const hop = results.has(name) ? undefined : this.model.hop(name)?.hop;
      if (hop !== undefined) results.set(name, await this.judge.standing(hop));
      const pause = pace.pause?.(0, 0);
      if (pause) await pause;
      if (pace.isStale?.()) return;
    }
    await this.readInterference(pace, { ...(await this.interferenceInputs()), results, receiving: names });
  }

  /**
   * What others' transmissions do to each hop, for the results at hand; hops to which they do something else than before
   * are judged anew.
   */
  private async readInterference(pace: Pace, inputs?: InterferenceInputs): Promise<ReadonlySet<string>> {
    const felt = await this.around.feel(async () => inputs ?? (await this.interferenceInputs()), pace);
    const changed = new Set<string>();
    if (felt === undefined) return changed;
    // The network may have been judged before, with what was known then.
    if (felt.told) this.networkIsStale = true;
    for (const name of felt.changed) {
      this.outdated.add(name);
      if (await this.updateHop(name)) changed.add(name);
    }
    return changed;
  }

  /** What interference rests on, for the design as it is or for another state of it. */
  async interferenceInputs(
    design: Design = this.model.design(),
    results: ReadonlyMap<string, HopResult> = this.hopResults,
  ): Promise<Judged<InterferenceInputs>> {
    const { terrain, maps } = this.ground;
    const terms = await interferenceTerms(design, maps);
    return { design, results, listed: this.around.files, terrain, day: this.acceptancesOn, terms };
  }

  /** Reads the terrain that slips in positions are told by; the network waits for judgement when that is new. */
  async readSpots(): Promise<SpotHeights> {
    if (await this.around.readSpots()) this.networkIsStale = true;
    return this.around.heights;
  }

  /** Reads the lists and patterns that the design names; a run that is stale waits for none of them. */
  async readListed(pace: Pace = {}): Promise<ListedFiles> {
    if (await this.around.readFiles(pace)) this.networkIsStale = true;
    return this.around.files;
  }

  /** Whether results changed since the network was last judged. */
  networkWaits(): boolean {
    return this.networkIsStale;
  }

  /**
   * Judges what hops share, from the results at hand, if any of them changed.
   * @returns files whose network findings changed
   */
  updateNetwork(): Set<string> {
    if (!this.networkIsStale) return new Set();
    return this.takeNetwork(this.judgeNetworkOf(this.hopResults));
  }

  /** The same, rule by rule. A stale judgement is given up: what it would say is judged again next time. */
  async updateNetworkInSteps(pace: Pace): Promise<Set<string>> {
    if (!this.networkIsStale) return new Set();
    const { model, hopResults, acceptancesOn, memory, interference } = this;
    const { heights, files } = this.around;
    const judging = judgeNetworkInSteps(model.design(), hopResults, acceptancesOn, {
      heights,
      files,
      interference,
      calendar: this.today,
      memory,
    });
    for (;;) {
      const step = judging.next();
      if (step.done) return this.takeNetwork(step.value);
      await pace.pause?.(0, 0);
      if (pace.isStale?.()) return new Set();
    }
  }

  /**
   * What hops share, of some results or of another state of the design, on the day of the session.
   * @param memory of whoever judges other results than the session's: among few of them the sites would be others than
   * those that the session remembers, and all of them made anew with its next judgement
   */
  judgeNetworkOf(
    results: ReadonlyMap<string, HopResult>,
    {
      design = this.model.design(),
      heights = this.around.heights,
      memory = this.memory,
      interference = this.interference,
    }: {
      readonly design?: Design;
      readonly heights?: SpotHeights;
      readonly memory?: Memory;
      readonly interference?: InterferenceFound;
    } = {},
  ): Finding[] {
    return judgeNetwork(design, results, this.acceptancesOn, {
      heights,
      files: this.around.files,
      interference: feltIn(results, interference),
      calendar: this.today,
      memory,
    });
  }

  /** What is wrong with the catalogue entries of a file, told before the hops that use them are evaluated anew. */
  judgeEntriesOf(path: string): void {
    const found = findingsOnEntries(path, this.model, this.judged.values());
    if (found !== undefined) this.network.takeSome(path, ENTRY_RULES, found);
  }

  /** Terrain at the places that a state of the design asks for. */
  readSpotsOf(design: Design): Promise<SpotHeights> {
    return this.around.spotsOf(design);
  }

  private takeNetwork(findings: readonly Finding[]): Set<string> {
    this.networkIsStale = false;
    return this.network.take(findings, this.model);
  }

  /**
   * Forgets what was read of terrain and maps if any of their files changed, and what stands on a survey that did.
   * @param files those that came, went or changed, and folders that went with all in them, absolute
   */
  async refreshGround(files: readonly string[]): Promise<void> {
    if (await this.ground.refresh()) this.forgetResults();
    // Whatever they are called: what a design names may have any ending. Most files that change it does not name.
    const isOver = (path: string) => files.some((one) => isBelow(path, one));
    const isSurveyed = (hop: Hop | undefined) => hop?.surveyFile !== undefined && isOver(hop.surveyFile);
    const isListed = listedPaths(this.model).some(isOver);
    if (isListed) this.around.waitForFiles();
    if (isListed || this.model.names("hop").some((name) => isSurveyed(this.model.hop(name)?.hop)))
      this.forgetResults(isSurveyed);
  }

  private forgetResults(which?: (hop: Hop | undefined) => boolean): void {
    this.groundRevision++;
    if (!which) this.around.forgetGround();
    for (const name of this.model.names("hop")) {
      if (which && !which(this.model.hop(name)?.hop)) continue;
      this.pending.add(name);
      this.outdated.add(name);
    }
  }

  private async updateHop(name: string): Promise<boolean> {
    const hop = this.model.hop(name)?.hop;
    if (!hop) {
      this.outdated.delete(name);
      this.hopResults.delete(name);
      this.judged.delete(name);
      // What a hop that is being written has, its ends for one, is judged with the network.
      return true;
    }
    const known = this.judged.get(name);
    const isOutdated = this.outdated.delete(name);
    if (known && !isOutdated && this.isSame(known, hop)) return false;
    const judged = await this.judge.judge(hop, this.acceptancesOn);
    this.evaluations++;
    this.hopResults.set(name, judged.result);
    this.judged.set(name, judged);
    return true;
  }

  /** Whether a hop is what it was judged as, and could have what it could have then. */
  private isSame({ hop: was, stock }: SessionHop, hop: Hop): boolean {
    if (!isDeepStrictEqual(was, hop)) return false;
    return stock === undefined || isDeepStrictEqual(stock, this.model.stockFor(hop.name));
  }

  /** The hop with the files that its ground is read from. */
  read(hop: Hop): Hop {
    return this.ground.read(hop);
  }
}
