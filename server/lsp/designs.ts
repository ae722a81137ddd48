/**
 * What the server holds: the project of all files (open documents win over the disk), and a session with
 * results for each design in it. Knows nothing of the connection.
 *
 * Files count that an opened folder holds, that lie in a catalogue which a network names, or that lie in a folder taken
 * in for its network: the one above an opened folder without a network of its own, or above a document from elsewhere.
 */
import { existsSync } from "node:fs";
import type { DesignModel } from "../../language/model/design-model.js";
import { folderOf, holds, isBelow } from "../../language/model/path.js";
import { Project } from "../../language/model/project.js";
import { readSource, type SourceFile } from "../../language/model/source-file.js";
import {
  readHopFile,
  readHopFiles,
  sizeProblem,
  type UnreadableFile,
  withoutNamedLinks,
} from "../files/hop-files.js";
import { readWithin } from "../files/read-within.js";
import { DesignSession, type SessionOptions } from "../session/design-session.js";
import { listedPaths } from "../session/listed-files.js";
import { networkAbove } from "./network-above.js";
import type { Standing } from "./protocol.js";
import { isUnsaved, UnsavedDocuments } from "./unsaved.js";

export class Designs {
  readonly project: Project;
  private readonly sessions = new Map<DesignModel, DesignSession>();
  /** Folders elsewhere that networks name and that were read. */
  private catalogues: ReadonlySet<string> = new Set();
  /** Those of them that networks of the opened folders name. */
  private ownCatalogues: ReadonlySet<string> = new Set();
  /** Folders taken in for the network in them. */
  private takenIn: ReadonlySet<string> = new Set();
  /** Whether other folders may have to be taken in than those that are. */
  private looks = true;
  /** Whether nothing is held that does not count. */
  private settled = false;
  private readonly unsaved: UnsavedDocuments;
  private readonly unreadable = new Map<string, UnreadableFile>();
  /** Texts of open documents that were changed since they were last read. */
  private readonly edited = new Map<string, string>();
  private readonly open = new Set<string>();

  constructor(
    private folders: readonly string[],
    private options: SessionOptions,
  ) {
    this.project = new Project(...folders);
    this.unsaved = new UnsavedDocuments(
      () => this.firstDesign(),
      () => this.options,
    );
  }

  /** Reads every `.hop` file of the folders, and the catalogues that networks name elsewhere. */
  load(): void {
    for (const folder of this.folders) this.loadFolder(folder);
    this.looks = true;
    this.settleScope();
  }

  /** A server may run for weeks. */
  beginDay(today: string): void {
    if (today === this.options.today) return;
    this.options = { ...this.options, today };
    for (const session of [...this.allSessions(), ...this.unsavedSessions().values()])
      session.beginDay(today);
  }

  openedFolders(): readonly string[] {
    return this.folders;
  }

  /** Folders were opened or closed; those that stay are not read again. */
  setFolders(folders: readonly string[]): void {
    const before = this.folders;
    this.folders = folders;
    this.settled = false;
    this.project.setFolders(folders);
    for (const folder of folders) if (!before.includes(folder)) this.loadFolder(folder);
    this.looks = true;
    this.settleScope();
  }

  /** Notes the text of an open document; it is read when next needed, so that a burst of keys is read once. */
  edit(path: string, text: string): void {
    if (isUnsaved(path)) {
      this.unsaved.edit(path, text);
      return;
    }
    if (!this.open.has(path)) this.looks = true;
    this.open.add(path);
    this.edited.set(path, text);
  }

  /** An open document was closed: the disk counts again. */
  close(path: string): void {
    if (isUnsaved(path)) {
      this.unsaved.close(path);
      return;
    }
    this.open.delete(path);
    this.edited.delete(path);
    this.looks = true;
    this.readFromDisk(path);
  }

  /** Documents that no file holds yet, each with the session that judges it with a copy of a design. */
  unsavedSessions(): ReadonlyMap<string, DesignSession> {
    return this.unsaved.sessions();
  }

  openFiles(): ReadonlySet<string> {
    return this.open;
  }

  isOpen(path: string): boolean {
    return this.open.has(path) || this.unsaved.file(path) !== undefined;
  }

  /** Whether what is wrong with a file is shown: it is open, or the opened folders have it in their designs. */
  isShown(path: string): boolean {
    return this.isOpen(path) || this.isHeldBy(path, this.folders, this.ownCatalogues);
  }

  /** Whether a design is that of an opened folder, of the network above a document, or a document by itself. */
  standingOf({ model }: DesignSession): Standing {
    for (const { path } of model.allFiles()) if (this.project.isAlone(path)) return "alone";
    const isOpened = this.folders.some((folder) => isBelow(model.root, folder));
    return isOpened ? "opened" : "above";
  }

  /** A file came, went or changed on disk, or a folder went: what lay in it is not told one by one. */
  changedOnDisk(path: string): void {
    this.looks = true;
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
    if (isUnsaved(path)) return this.unsaved.file(path);
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
    const before = this.project.file(path);
    if (tooLarge) {
      this.unreadable.set(path, tooLarge);
      this.project.removeFile(path);
    } else {
      this.unreadable.delete(path);
      this.project.setFile(readSource(path, text));
    }
    if (before === undefined || hasNetwork(before) !== hasNetwork(this.project.file(path))) this.looks = true;
    this.settleScope();
  }

  sessionsOf(path: string): readonly DesignSession[] {
    if (isUnsaved(path)) return this.unsaved.sessionOf(path);
    return this.project.designsOf(path).map((model) => this.sessionOf(model));
  }

  /** Of a file's design, or of the design whose folder it is. */
  sessionAt(path: string): DesignSession | undefined {
    return this.sessionsOf(path)[0] ?? this.allSessions().find(({ model }) => model.root === path);
  }

  /** One session for each design there is now; those of designs that are gone are dropped. */
  allSessions(): readonly DesignSession[] {
    const models = new Set(this.project.designs());
    for (const model of this.sessions.keys()) if (!models.has(model)) this.sessions.delete(model);
    return [...models].map((model) => this.sessionOf(model));
  }

  /** What is read beside the opened folders: terrain, maps, shared catalogues, lists, patterns, folders of networks above; absolute. */
  placesNamed(): readonly string[] {
    const named = this.project
      .designs()
      .flatMap((model) => [
        ...model.terrain(),
        ...model.maps(),
        ...model.catalogues(),
        ...listedPaths(model),
      ]);
    return [...named, ...this.takenIn];
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
    const { files, unread } = readWithin(
      texts.filter(({ path }) => !this.open.has(path)),
      readSource,
      this.project.allFiles(),
    );
    for (const file of [...unreadable, ...unread]) this.unreadable.set(file.path, file);
    this.project.setFiles(files);
  }

  /** Reads what counts now and was not read, and forgets what counts no more. */
  private settleScope(): void {
    for (;;) {
      const before = [this.takenIn, this.catalogues];
      this.ownCatalogues = this.namedFrom(this.folders);
      if (this.looks) this.takenIn = this.foldersToTakeIn();
      this.looks = false;
      this.catalogues = this.namedFrom([...this.folders, ...this.takenIn], this.open);
      const now = [this.takenIn, this.catalogues];
      if (this.settled && before.every((some, index) => isSame(some, now[index]!))) return;
      this.settled = true;
      const known = new Set(before.flatMap((some) => [...some]));
      for (const folder of new Set(now.flatMap((some) => [...some])))
        if (!known.has(folder)) this.loadFolder(folder);
      for (const { path } of [...this.project.allFiles()])
        if (!this.counts(path)) this.project.removeFile(path);
      for (const path of this.unreadable.keys()) if (!this.counts(path)) this.unreadable.delete(path);
      // A network that was read or forgotten just now may be the one that a folder was taken in for.
      this.looks = true;
    }
  }

  /**
   * Catalogues that the networks in these folders name, and those that networks in catalogues name in turn.
   * @param open documents whose networks count too, wherever they lie
   */
  private namedFrom(folders: readonly string[], open: ReadonlySet<string> = new Set()): ReadonlySet<string> {
    let named: ReadonlySet<string> = new Set();
    for (;;) {
      const counts = (path: string) => open.has(path) || this.isHeldBy(path, folders, named);
      const more = new Set(
        this.project.catalogueFolders(counts).filter((at) => !folders.some((folder) => isBelow(at, folder))),
      );
      if (more.size === named.size) return named;
      named = more;
    }
  }

  /** Of opened folders with design files and no network, and of documents that nothing holds. */
  private foldersToTakeIn(): ReadonlySet<string> {
    const files = [...this.project.allFiles()];
    const without = this.folders.filter((folder) => {
      const held = files.filter(({ path }) => holds(folder, path));
      return held.length > 0 && !held.some(hasNetwork);
    });
    const elsewhere = [...this.open].filter((path) => !this.isHeldBy(path, this.folders, this.ownCatalogues));
    const open = {
      paths: () => this.open,
      text: (path: string) => (this.open.has(path) ? this.project.file(path)?.text : undefined),
    };
    const starts = new Set([...without, ...elsewhere.map(folderOf)]);
    const found = new Set([...starts].flatMap((start) => networkAbove(start, open) ?? []));
    return new Set([...found].filter((at) => !this.folders.some((folder) => holds(folder, `${at}/x`))));
  }

  /** Whether a file is part of what is judged: the disk counts in folders that are opened, taken in or named. */
  private counts(path: string): boolean {
    return this.open.has(path) || this.countsOnDisk(path);
  }

  private countsOnDisk(path: string): boolean {
    return this.isHeldBy(path, this.folders, this.takenIn, this.catalogues);
  }

  private isHeldBy(path: string, ...folders: readonly Iterable<string>[]): boolean {
    return folders.some((some) => [...some].some((folder) => holds(folder, path)));
  }

  /** The design of the first opened folder; that of the network above it; else the first one in it. */
  private firstDesign(): DesignModel | undefined {
    const [folder] = this.folders;
    if (folder === undefined) return undefined;
    const models = this.project
      .designs()
      .filter((model) => model.allFiles()[Symbol.iterator]().next().done === false)
      .filter((model) => this.standingOf(this.sessionOf(model)) !== "alone")
      .sort((a, b) => (a.root < b.root ? -1 : 1));
    return (
      models.findLast(({ root }) => holds(root, `${folder}/x`)) ??
      models.find(({ root }) => holds(folder, `${root}/x`))
    );
  }

  private readFromDisk(path: string): void {
    this.unreadable.delete(path);
    const read =
      path.endsWith(".hop") && this.countsOnDisk(path) && existsSync(path) ? readHopFile(path) : undefined;
    if (read && "text" in read) this.project.setFile(readSource(read.path, read.text));
    else {
      if (read) this.unreadable.set(path, read);
      this.project.removeFile(path);
    }
    this.settleScope();
  }
}

function isSame(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  return a.size === b.size && [...a].every((one) => b.has(one));
}

function hasNetwork(file: SourceFile | undefined): boolean {
  return file?.declarations.some(({ kind }) => kind === "network") ?? false;
}
