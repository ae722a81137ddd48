/** Which files use which names. */
import type { SourceFile } from "./source-file.js";

export class Mentions {
  /** `site KELD` to paths. */
  private readonly files = new Map<string, Set<string>>();
  /** Files with names of a kind that nothing declares: what is said of them depends on all names there are. */
  private readonly unresolved = new Map<string, Set<string>>();

  of(key: string): ReadonlySet<string> {
    return this.files.get(key) ?? NONE;
  }

  unresolvedOf(kind: string): ReadonlySet<string> {
    return this.unresolved.get(kind) ?? NONE;
  }

  replace(before: SourceFile | undefined, after: SourceFile | undefined): void {
    for (const { kind, name } of before?.references ?? [])
      this.files.get(`${kind} ${name}`)?.delete(before!.path);
    for (const { kind, name } of after?.references ?? []) add(this.files, `${kind} ${name}`, after!.path);
  }

  noteUnresolved(file: SourceFile, isDeclared: (key: string) => boolean): void {
    for (const paths of this.unresolved.values()) paths.delete(file.path);
    for (const { kind, name } of file.references)
      if (!isDeclared(`${kind} ${name}`)) add(this.unresolved, kind, file.path);
  }
}

const NONE: ReadonlySet<string> = new Set();

function add(sets: Map<string, Set<string>>, key: string, path: string): void {
  const paths = sets.get(key);
  if (paths) paths.add(path);
  else sets.set(key, new Set([path]));
}
