/** What the files of a design declare, by name, in an order that does not depend on which file was opened first. */
import { orderOf } from "./content.js";
import type { Declaration, SourceFile } from "./source-file.js";

/** What a change of a file does to the names of the design. */
export interface NamesChanged {
  /** Whether the names of some kind may stand in another order. */
  readonly order: boolean;
  /** A declaration of each name that came or went. */
  readonly cameOrWent: readonly Declaration[];
  /** Keys of which another declaration counts that is a template where the former was none, or the other way. */
  readonly kinds: readonly string[];
  /** Declarations that share their name with another, or did. */
  readonly twins: readonly Declaration[];
}

export class Declarations {
  private readonly byPath: Map<string, SourceFile>;
  /** Lists are handed out, so never changed: a change makes another one. */
  private readonly byKey: Map<string, readonly Declaration[]>;
  /** Names of each kind in the order of the text, as long as no declaration came, went or moved past another. */
  private readonly namesByKind: Map<string, readonly string[]>;

  constructor(like?: Declarations) {
    this.byPath = new Map(like?.byPath);
    this.byKey = new Map(like?.byKey);
    this.namesByKind = new Map(like?.namesByKind);
  }

  file(path: string): SourceFile | undefined {
    return this.byPath.get(path);
  }

  /** By their paths. */
  files(): ReadonlyMap<string, SourceFile> {
    return this.byPath;
  }

  /** The declaration that counts, and any later ones of the same name. */
  of(key: string): readonly Declaration[] {
    return this.byKey.get(key) ?? [];
  }

  has(key: string): boolean {
    return this.byKey.has(key);
  }

  *withStates(): Iterable<Declaration> {
    for (const file of this.byPath.values())
      for (const entry of file.declarations) if (entry.states) yield entry;
  }

  /** Names of a kind, in the order of files and text, whatever was edited before. */
  names(kind: string): readonly string[] {
    let names = this.namesByKind.get(kind);
    if (!names) this.namesByKind.set(kind, (names = this.namesInOrder(kind)));
    return names;
  }

  private namesInOrder(kind: string): readonly string[] {
    const names = new Set<string>();
    for (const path of [...this.byPath.keys()].sort())
      for (const entry of this.byPath.get(path)!.declarations) if (entry.kind === kind) names.add(entry.name);
    return [...names];
  }

  /** Puts a file in, in place of its former state; undefined takes it out. */
  replace(path: string, after: SourceFile | undefined): NamesChanged {
    const before = this.byPath.get(path);
    if (after) this.byPath.set(path, after);
    else this.byPath.delete(path);
    const order = orderOf(before) !== orderOf(after);
    if (order) this.namesByKind.clear();
    const keys = new Set(
      [...(before?.declarations ?? []), ...(after?.declarations ?? [])].map((entry) => entry.key),
    );
    const fresh = Map.groupBy(after?.declarations ?? [], (entry) => entry.key);
    const changed = {
      order,
      cameOrWent: [] as Declaration[],
      kinds: [] as string[],
      twins: [] as Declaration[],
    };
    for (const key of keys) {
      const known = this.of(key);
      const others = known.filter((entry) => entry.file !== path);
      const all = [...others, ...(fresh.get(key) ?? [])];
      // Which of two equal names counts must not depend on the order in which files were opened.
      if (others.length > 0) all.sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : 0));
      if (all.length === 0) this.byKey.delete(key);
      else this.byKey.set(key, all);
      if (known.length > 0 !== all.length > 0) changed.cameOrWent.push((all[0] ?? known[0])!);
      else if (known[0]?.template !== all[0]?.template) changed.kinds.push(key);
      if (known.length > 1 || all.length > 1) changed.twins.push(...all);
    }
    return changed;
  }
}
