/**
 * One design: the files that belong to it, what they declare, and the resolved values, kept up to date
 * edit by edit. A change of a file forgets exactly what depends on the declarations whose words changed;
 * everything else, and so every result computed from it, stays.
 */
import { type Stock, suiting } from "../../shared/design/change.js";
import type { Design } from "../../shared/design/design.js";
import { type Span, type View, WHOLE } from "../../shared/design/state.js";
import { checkNames } from "../check/names.js";
import { contradictions, endSites, overdue } from "../check/states.js";
import { type Fact, factNamed, type TextProblem, wordOf } from "../facts/fact.js";
import { type ResolvedDemand, resolveDemand } from "../resolve/demand.js";
import { type ResolvedHop, resolveHop } from "../resolve/hop.js";
import { inheritedFacts } from "../resolve/inherit.js";
import type { Lookup, ResolveProblem } from "../resolve/lookup.js";
import { titleOf } from "../resolve/stated.js";
import { NAMED_KINDS } from "../schema/kinds.js";
import { contentByKey } from "./content.js";
import { Declarations, type NamesChanged } from "./declarations.js";
import { makeDesign } from "./make-design.js";
import { Memo } from "./memo.js";
import { memoizedLookup } from "./memoized-lookup.js";
import { Mentions } from "./mentions.js";
import { foundIn } from "./moved-problems.js";
import { resolvePath } from "./path.js";
import { Resolved } from "./resolved.js";
import type { Declaration, SourceFile } from "./source-file.js";
import { acceptedUntil, sameFacts, spansIn, standing } from "./standing.js";
import { TakenOut } from "./taken-out.js";

export class DesignModel {
  private readonly declared: Declarations;
  private readonly memo: Memo;
  private readonly changedHops: Set<string>;
  private readonly changedFiles: Set<string>;
  private sharedChanged: boolean;
  /** Values that `design` lists. */
  private readonly resolved: Resolved;
  private readonly mentions: Mentions;
  /** Problems of files, as long as the file is not among those that changed. */
  private readonly knownProblems: Map<string, readonly TextProblem[]>;
  private looked: View;
  private takenOut: TakenOut;
  private lastDesign: Design | undefined;
  readonly lookup: Lookup;

  /**
   * @param root folder of the design
   * @param today ISO date that plans are held against; undefined: none is overdue
   * @param like begins as this one stands
   */
  constructor(
    readonly root: string,
    private today?: string,
    like?: DesignModel,
  ) {
    this.declared = new Declarations(like?.declared);
    this.memo = new Memo(like?.memo);
    this.resolved = new Resolved(like?.resolved);
    this.mentions = new Mentions(like?.mentions);
    this.knownProblems = new Map(like?.knownProblems);
    this.looked = like?.looked ?? WHOLE;
    this.takenOut = like?.takenOut ?? TakenOut.NOTHING;
    this.lastDesign = like?.lastDesign;
    this.lookup = memoizedLookup(this.memo, {
      declarations: (key) => this.standing(key),
      isDeclared: (key) => this.declarations(key).length > 0,
      names: (kind) => this.names(kind),
    });
    // Nobody has asked this one yet: all of it is new.
    this.changedHops = new Set(this.names("hop"));
    this.changedFiles = new Set([...this.allFiles()].map(({ path }) => path));
    this.sharedChanged = this.changedFiles.size > 0;
  }

  /** A model of the same files that goes its own way from here; what this one has resolved need not be resolved again. */
  fork(): DesignModel {
    return new DesignModel(this.root, this.today, this);
  }

  /** Has these files and no others from now on; those that it has already stay as they are. */
  setFiles(files: ReadonlyMap<string, SourceFile>): void {
    for (const { path } of [...this.allFiles()]) if (!files.has(path)) this.removeFile(path);
    for (const [path, file] of files) if (this.file(path) !== file) this.setFile(file);
  }

  /** Holds plans against another day. */
  setToday(today: string): void {
    if (today === this.today) return;
    this.today = today;
    this.forget(new Set([...this.declared.withStates()].map(({ key }) => key)));
  }

  /** ISO date that plans are held against; undefined: nobody said. */
  get calendar(): string | undefined {
    return this.today;
  }

  /** Puts a file in, in place of its former state. */
  setFile(file: SourceFile): void {
    this.replace(file.path, file);
  }

  removeFile(path: string): void {
    this.replace(path, undefined);
  }

  file(path: string): SourceFile | undefined {
    return this.declared.file(path);
  }

  allFiles(): Iterable<SourceFile> {
    return this.declared.files().values();
  }

  /** By their paths. */
  files(): ReadonlyMap<string, SourceFile> {
    return this.declared.files();
  }

  /** Names of a kind, in the order of files and text, whatever was edited before. */
  names(kind: string): readonly string[] {
    return this.declared.names(kind);
  }

  /** Files in which a name of a kind is used. */
  filesMentioning(key: string): ReadonlySet<string> {
    return this.mentions.of(key);
  }

  /** What of the design is resolved and judged; at first all that is planned stands. */
  get view(): View {
    return this.looked;
  }

  /** Looks at the design at another time: an edit of what stands then and did not before, or the other way. */
  setView(view: View): void {
    const before = this.looked;
    this.looked = view;
    const changed = new Set<string>();
    for (const entry of this.declared.withStates())
      if (!sameFacts(standing(entry, before), standing(entry, view))) changed.add(entry.key);
    this.forget(changed);
  }

  /** From now on these hops do not stand, at any time: as if they had failed. What else names them is left as it is. */
  takeOut(out: TakenOut): void {
    const before = this.takenOut;
    this.takenOut = out;
    this.forget(new Set([...before.keys, ...out.keys]));
  }

  /** When what has a state stands. */
  *spans(): Iterable<Span> {
    for (const { fact } of this.declared.withStates()) yield* spansIn(fact);
  }

  /** Last days of acceptances, of hops and sites. */
  *acceptancesEnd(): Iterable<string> {
    for (const file of this.allFiles()) for (const { fact } of file.declarations) yield* acceptedUntil(fact);
  }

  /** Whether a hop stands in the view, by its own state and those of its sites. */
  standsHop(name: string): boolean {
    const entry = this.standing(`hop ${name}`)[0];
    return entry !== undefined && !this.lacksSite(entry);
  }

  /** Those of a key that stand in the view, with what of them stands: what is resolved, and what addresses count by. */
  standing(key: string): readonly Declaration[] {
    if (this.takenOut.keys.has(key)) return [];
    const all = this.declarations(key);
    if (!all.some(({ states }) => states)) return all;
    const [first, ...others] = all.map((entry) => standing(entry, this.looked));
    // One that does not count is no stand-in for one that does not stand.
    return first === undefined ? [] : [first, ...others.flatMap((entry) => entry ?? [])];
  }

  /** The declaration that counts, and any later ones of the same name. */
  declarations(key: string): readonly Declaration[] {
    return this.declared.of(key);
  }

  hop(name: string): ResolvedHop | undefined {
    const entry = this.standing(`hop ${name}`)[0];
    if (!entry) return undefined;
    return this.memo.get(`=hop ${name}`, () =>
      this.noting(`hop ${name}`, () => (this.lacksSite(entry) ? undefined : resolveHop(entry, this.lookup))),
    );
  }

  /** @returns undefined where it does not stand: by its own state, or by that of a site at which it ends */
  demand(name: string): ResolvedDemand | undefined {
    const entry = this.standing(`demand ${name}`)[0];
    if (!entry) return undefined;
    return this.memo.get(`=demand ${name}`, () =>
      this.noting(`demand ${name}`, () =>
        this.lacksSite(entry) ? undefined : resolveDemand(entry, this.lookup),
      ),
    );
  }

  /** Whether a site at which it ends is declared and does not stand: a hop stands when its sites do, and so does a demand. */
  private lacksSite({ fact }: Declaration): boolean {
    return endSites(fact).some(({ name }) => {
      const key = `site ${name}`;
      this.memo.touch(key);
      const all = this.declarations(key);
      return all.length > 0 && this.standing(key).length === 0;
    });
  }

  /** What of the catalogue a hop could have in place of its own. Once asked, the hop counts as changed when that may. */
  stockFor(name: string): Stock {
    return this.memo.get(`=stock ${name}`, () => {
      const hop = this.hop(name)?.hop;
      const stock = this.lookup.stock();
      return hop ? suiting(stock, hop) : NO_STOCK;
    });
  }

  /** Hops whose resolved form, or whose stock, may differ from when this was last asked, deleted ones included. */
  takeChangedHops(): Set<string> {
    const taken = new Set(this.changedHops);
    this.changedHops.clear();
    return taken;
  }

  /** Whether anything but hops changed since this was last asked: what stands at sites is in no hop. */
  takeSharedChanged(): boolean {
    const taken = this.sharedChanged;
    this.sharedChanged = false;
    return taken;
  }

  /** Files whose problems of text may differ from when this was last asked. */
  takeChangedFiles(): Set<string> {
    const taken = new Set(this.changedFiles);
    this.changedFiles.clear();
    return taken;
  }

  /** Everything wrong with a file's text: by itself, by its names, and by what resolving found in it. */
  problemsOf(path: string): readonly TextProblem[] {
    const file = this.file(path);
    if (!file) return [];
    let problems = this.knownProblems.get(path);
    if (!problems) {
      const resolved = file.declarations
        .flatMap((entry) => [...this.resolveProblems(entry), ...this.stateProblems(entry)])
        .filter((found) => found.file === path);
      problems = [...file.problems, ...checkNames(file, this), ...resolved.map((found) => found.problem)];
      this.knownProblems.set(path, problems);
      this.mentions.noteUnresolved(file, (key) => this.declared.has(key));
    }
    return problems;
  }

  /** The design as data; the same object until anything of it changes. Hops that cannot be resolved yet are not in it. */
  design(): Design {
    this.lastDesign ??= makeDesign(this, this.resolved, this.takenOut);
    return this.lastDesign;
  }

  networkFacts(): readonly Fact[] {
    return this.declarations("network")[0]?.fact.facts ?? [];
  }

  title(): string | undefined {
    return titleOf(this.declarations("network")[0]?.fact);
  }

  /** Terrain folders and files, absolute. */
  terrain(): readonly string[] {
    return this.pathsOf("terrain");
  }

  /** Folders of shared catalogues, absolute. @param inFile whether a file that names one counts */
  catalogues(inFile?: (path: string) => boolean): readonly string[] {
    return this.pathsOf("catalogue", inFile);
  }

  /** Folders with the user's copies of the ITU-R maps, absolute. */
  maps(): readonly string[] {
    return this.pathsOf("maps");
  }

  private pathsOf(
    kind: "terrain" | "catalogue" | "maps",
    inFile: (path: string) => boolean = () => true,
  ): readonly string[] {
    return this.declarations(kind).flatMap((entry) => {
      if (!inFile(entry.file)) return [];
      const path = wordOf(entry.fact, "path");
      return path === undefined ? [] : (resolvePath(entry.file, path) ?? []);
    });
  }

  private resolveProblems(entry: Declaration): readonly ResolveProblem[] {
    if (this.declarations(entry.key)[0] !== entry) return [];
    if (entry.kind === "hop") return foundIn(entry, this.hop(entry.name));
    if (entry.kind === "demand") return foundIn(entry, this.demand(entry.name));
    if (!entry.fact.args.some(({ spec }) => spec.label === "like")) return [];
    const inherited = this.memo.get(`=like ${entry.key}`, () => {
      const problems: ResolveProblem[] = [];
      this.noting(entry.key, () => inheritedFacts(entry, this.lookup, problems));
      return { problems, from: entry.fact.statement.start };
    });
    return foundIn(entry, inherited);
  }

  private stateProblems(entry: Declaration): readonly ResolveProblem[] {
    const concerned = entry.states || (entry.kind === "hop" && factNamed(entry.fact.facts, "pair"));
    if (!concerned || this.declarations(entry.key)[0] !== entry) return [];
    const found = this.memo.get(`=states ${entry.key}`, () => {
      this.memo.touch(entry.key);
      const told = contradictions(entry, (key) => {
        this.memo.touch(key);
        return this.declarations(key)[0];
      });
      const late = this.today === undefined ? [] : overdue(entry.fact, this.today, entry.name);
      const problems = [...told, ...late].map((problem) => ({ file: entry.file, problem }));
      return { problems, from: entry.fact.statement.start };
    });
    return foundIn(entry, found);
  }

  private replace(path: string, file: SourceFile | undefined): void {
    const before = this.file(path);
    const changed = new Set<string>();
    const contents = contentByKey(before);
    for (const [key, content] of contentByKey(file)) {
      if (contents.get(key) !== content) changed.add(key);
      contents.delete(key);
    }
    for (const key of contents.keys()) changed.add(key);
    this.mentions.replace(before, file);
    this.noteNames(this.declared.replace(path, file));
    this.noteFile(path);
    this.forget(changed);
  }

  /** Forgets what was made from declarations whose words changed. */
  private forget(changed: ReadonlySet<string>): void {
    this.lastDesign = undefined;
    if ([...changed].some((key) => !key.startsWith("hop "))) this.sharedChanged = true;
    for (const key of [...changed, ...this.memo.forget(changed)]) {
      const declared = key.replace(/^=(like |states )?/, "");
      const [kind, name = ""] = declared.split(" ") as [string, string?];
      if (kind === "stock" && name !== "") this.changedHops.add(name);
      if (kind === "hop") {
        this.changedHops.add(name);
        this.resolved.forget("unformed", name);
      }
      this.resolved.forget(kind, name);
      for (const entry of this.declarations(declared)) this.noteFile(entry.file);
    }
  }

  private noteFile(path: string): void {
    this.changedFiles.add(path);
    this.knownProblems.delete(path);
  }

  private noteNames({ order, cameOrWent, kinds, twins }: NamesChanged): void {
    if (order) this.sharedChanged = true;
    for (const entry of cameOrWent) this.noteName(entry);
    for (const key of kinds) for (const path of this.filesMentioning(key)) this.noteFile(path);
    for (const { file } of twins) this.noteFile(file);
  }

  /** A name has appeared or vanished: files that mention it, in whatever role, have other problems now. */
  private noteName({ kind, name }: Declaration): void {
    for (const role of NAMED_KINDS)
      for (const path of this.filesMentioning(`${role} ${name}`)) this.noteFile(path);
    for (const path of this.mentions.unresolvedOf(kind)) this.noteFile(path);
  }

  private noting<T>(key: string, compute: () => T): T {
    this.memo.touch(key);
    return compute();
  }
}

const NO_STOCK: Stock = { antennas: [], radios: [], couplers: [] };
