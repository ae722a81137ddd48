/** Which files use which names. */
import { copyOfSets } from "./sets.js";
import type { Reference, SourceFile } from "./source-file.js";

export class Mentions {
  /** `site KELD` to paths. */
  private readonly files: Map<string, Set<string>>;
  /** Files with names of a kind that nothing declares: what is said of them depends on all names there are. */
  private readonly unresolved: Map<string, Set<string>>;

  constructor(like?: Mentions) {
    this.files = copyOfSets(like?.files);
    this.unresolved = copyOfSets(like?.unresolved);
  }

  of(key: string): ReadonlySet<string> {
    return this.files.get(key) ?? NONE;
  }

  unresolvedOf(kind: string): ReadonlySet<string> {
    return this.unresolved.get(kind) ?? NONE;
  }

  replace(before: SourceFile | undefined, after: SourceFile | undefined): void {
    for (const reference of before?.references ?? [])
      for (const key of keysOf(reference)) this.files.get(key)?.delete(before!.path);
    for (const reference of after?.references ?? [])
      for (const key of keysOf(reference)) add(this.files, key, after!.path);
  }

  noteUnresolved(file: SourceFile, isDeclared: (key: string) => boolean): void {
    for (const paths of this.unresolved.values()) paths.delete(file.path);
    for (const reference of file.references) {
      if (keysOf(reference).some(isDeclared)) continue;
      add(this.unresolved, reference.kind, file.path);
      if (reference.orKind) add(this.unresolved, reference.orKind, file.path);
    }
  }
}

/** What it may name. */
function keysOf({ kind, orKind, name }: Reference): readonly string[] {
  return orKind === undefined ? [`${kind} ${name}`] : [`${kind} ${name}`, `${orKind} ${name}`];
}

const NONE: ReadonlySet<string> = new Set();

function add(sets: Map<string, Set<string>>, key: string, path: string): void {
  const paths = sets.get(key);
  if (paths) paths.add(path);
  else sets.set(key, new Set([path]));
}
