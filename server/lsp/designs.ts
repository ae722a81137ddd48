/**
 * What the server holds: the project of all files (open documents win over the disk), and a session with
 * results for each design in it. Knows nothing of the connection.
 */
import { existsSync } from "node:fs";
import type { DesignModel } from "../../language/model/design-model.js";
import { isBelow } from "../../language/model/path.js";
import { Project } from "../../language/model/project.js";
import { readSource, type SourceFile } from "../../language/model/source-file.js";
import {
  readHopFile,
  readHopFiles,
  sizeProblem,
  type UnreadableFile,
  withoutNamedLinks,
} from "../files/hop-files.js";
import { DesignSession, type SessionOptions } from "../session/design-session.js";

export class Designs {
  readonly project: Project;
  private readonly sessions = new Map<DesignModel, DesignSession>();
  /** Folders elsewhere that networks name and that were read. */
  private catalogues: ReadonlySet<string> = new Set();
  private readonly unreadable = new Map<string, UnreadableFile>();
  /** Texts of open documents that were changed since they were last read. */
  private readonly edited = new Map<string, string>();
  private readonly open = new Set<string>();

  constructor(
    private readonly folders: readonly string[],
    private readonly options: SessionOptions,
  ) {
    this.project = new Project(...folders);
  }

  /** Reads every `.hop` file of the folders, and the catalogues that networks name elsewhere. */
  load(): void {
    for (const folder of this.folders) this.loadFolder(folder);
    this.loadCatalogues();
  }

  /** Notes the text of an open document; it is read when next needed, so that a burst of keys is read once. */
  edit(path: string, text: string): void {
    this.open.add(path);
    this.edited.set(path, text);
  }

  /** An open document was closed: the disk counts again. */
  close(path: string): void {
    this.open.delete(path);
    this.edited.delete(path);
    this.readFromDisk(path);
  }

  openFiles(): ReadonlySet<string> {
    return this.open;
  }

  isOpen(path: string): boolean {
    return this.open.has(path);
  }

  /** A file came, went or changed on disk, or a folder went: what lay in it is not told one by one. */
  changedOnDisk(path: string): void {
    if (path.endsWith(".hop") && !this.open.has(path)) this.readFromDisk(path);
    const known = [...this.project.allFiles()].map((file) => file.path).concat(...this.unreadable.keys());
    for (const below of known)
      if (below !== path && isBelow(below, path) && !this.open.has(below) && !existsSync(below))
        this.readFromDisk(below);
  }

  /** Reads what was edited. Cheap when nothing was. */
  refresh(): void {
    for (const [path, text] of this.edited) this.readEdited(path, text);
    this.edited.clear();
  }

  file(path: string): SourceFile | undefined {
    const text = this.edited.get(path);
    if (text !== undefined) {
      this.edited.delete(path);
      this.readEdited(path, text);
    }
    return this.project.file(path);
  }

  /** The editor may hold a text of any size; what no design file has on disk is not read from it either. */
  private readEdited(path: string, text: string): void {
    const tooLarge = sizeProblem(path, text.length);
    if (tooLarge) {
      this.unreadable.set(path, tooLarge);
      this.project.removeFile(path);
    } else {
      this.unreadable.delete(path);
      this.project.setFile(readSource(path, text));
    }
    this.loadCatalogues();
  }

  sessionsOf(path: string): readonly DesignSession[] {
    return this.project.designsOf(path).map((model) => this.sessionOf(model));
  }

  /** One session for each design there is now; those of designs that are gone are dropped. */
  allSessions(): readonly DesignSession[] {
    const models = new Set(this.project.designs());
    for (const model of this.sessions.keys()) if (!models.has(model)) this.sessions.delete(model);
    return [...models].map((model) => this.sessionOf(model));
  }

  /** What the designs read beside their own files: terrain, maps, shared catalogues; absolute. */
  placesNamed(): readonly string[] {
    return this.project
      .designs()
      .flatMap((model) => [...model.terrain(), ...model.maps(), ...model.catalogues()]);
  }

  problemsOfFiles(): ReadonlyMap<string, UnreadableFile> {
    const told = withoutNamedLinks([...this.unreadable.values()], this.project.catalogueFolders());
    return new Map(told.map((file) => [file.path, file]));
  }

  private sessionOf(model: DesignModel): DesignSession {
    let session = this.sessions.get(model);
    if (!session) this.sessions.set(model, (session = new DesignSession(model, this.options)));
    return session;
  }

  private loadFolder(folder: string): void {
    if (!existsSync(folder)) return;
    const { texts, unreadable } = readHopFiles(folder);
    for (const file of unreadable) this.unreadable.set(file.path, file);
    this.project.setFiles(
      texts.filter(({ path }) => !this.open.has(path)).map(({ path, text }) => readSource(path, text)),
    );
  }

  /** Reads catalogues that are named now, and forgets those that are named no more. */
  private loadCatalogues(): void {
    for (;;) {
      const named = this.namedCatalogues();
      const before = this.catalogues;
      this.catalogues = named;
      const fresh = [...named].filter((folder) => !before.has(folder));
      for (const folder of fresh) this.loadFolder(folder);
      const strays = [...this.project.allFiles()].filter(({ path }) => !this.counts(path));
      for (const { path } of strays) this.project.removeFile(path);
      for (const path of this.unreadable.keys()) if (!this.counts(path)) this.unreadable.delete(path);
      if (fresh.length + strays.length === 0) return;
    }
  }

  /** A catalogue may name others, and itself: only what is named from the folders and open documents on counts. */
  private namedCatalogues(): ReadonlySet<string> {
    let named: ReadonlySet<string> = new Set();
    for (;;) {
      const counts = (path: string) => this.open.has(path) || this.isBelowAny(path, named);
      const more = new Set(this.project.catalogueFolders(counts).filter((at) => !this.isBelowAny(at, [])));
      if (more.size === named.size) return named;
      named = more;
    }
  }

  /** Whether a file is part of what is judged: the disk counts in the opened folders and in named catalogues. */
  private counts(path: string): boolean {
    return this.open.has(path) || this.isBelowAny(path, this.catalogues);
  }

  /** Below an opened folder, or one of these. */
  private isBelowAny(path: string, others: Iterable<string>): boolean {
    return [...this.folders, ...others].some((folder) => isBelow(path, folder));
  }

  private readFromDisk(path: string): void {
    this.unreadable.delete(path);
    const read =
      path.endsWith(".hop") && this.isBelowAny(path, this.catalogues) && existsSync(path)
        ? readHopFile(path)
        : undefined;
    if (read && "text" in read) this.project.setFile(readSource(read.path, read.text));
    else {
      if (read) this.unreadable.set(path, read);
      this.project.removeFile(path);
    }
    this.loadCatalogues();
  }
}
