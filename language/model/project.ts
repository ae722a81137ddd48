/**
 * All files at hand, parted into designs. A folder with a `network` in one of its files is a design: its
 * files are those in and below that folder, and those below the catalogue folders that the network names; a folder that
 * is passed over, such as a local history, is in neither. Files of an opened folder that belong to no network form a
 * design of their own there. Any other file is judged by itself and is no part of any other design.
 */
import { DesignModel } from "./design-model.js";
import { folderOf, holds } from "./path.js";
import type { SourceFile } from "./source-file.js";

export class Project {
  private readonly files = new Map<string, SourceFile>();
  /** By the folder of the design; of a file that is judged by itself by its path. */
  private models = new Map<string, DesignModel>();
  private roots: readonly string[] = [];
  /** Catalogue folders by the root of the design that names them. */
  private catalogues = new Map<string, readonly string[]>();
  private layout = "";

  /** Folder that a project without files counts for. */
  readonly root: string;
  private folders: readonly string[];

  /** @param folders those that are opened; what lies in them outside every network is a design of that folder */
  constructor(...folders: readonly string[]) {
    this.root = folders[0] ?? "";
    this.folders = folders;
  }

  /** Other folders are opened from now on. */
  setFolders(folders: readonly string[]): void {
    this.folders = folders;
    this.layout = "";
    this.relayout();
  }

  /** Whether a file is judged by itself. */
  isAlone(path: string): boolean {
    return this.models.has(path);
  }

  setFile(file: SourceFile): void {
    const before = this.files.get(file.path);
    this.files.set(file.path, file);
    if ((this.models.size === 0 || shapesLayout(before) || shapesLayout(file)) && this.relayout()) return;
    for (const model of this.designsOf(file.path)) model.setFile(file);
  }

  removeFile(path: string): void {
    const models = this.designsOf(path);
    const before = this.files.get(path);
    if (!this.files.delete(path) || (shapesLayout(before) && this.relayout())) return;
    for (const model of models) {
      model.removeFile(path);
      const isEmpty = model.allFiles()[Symbol.iterator]().next().done === true;
      if (isEmpty && !this.folders.includes(model.root)) this.dropModel(model);
    }
  }

  /** Many files at once; the layout is worked out once. */
  setFiles(files: Iterable<SourceFile>): void {
    const fresh = [...files];
    for (const file of fresh) this.files.set(file.path, file);
    if (this.relayout()) return;
    for (const file of fresh) for (const model of this.designsOf(file.path)) model.setFile(file);
  }

  /** Designs of the same folders that are much like these: what they have resolved of what is the same is taken over. */
  goOnFrom(others: readonly DesignModel[]): void {
    for (const [root, model] of this.models) {
      // The folder of a file that is judged by itself says nothing of what lies in it.
      const like = root === model.root ? others.find((one) => one.root === root) : undefined;
      if (like === undefined) continue;
      const fork = like.fork();
      if (fork.view !== model.view) fork.setView(model.view);
      fork.setFiles(model.files());
      this.models.set(root, fork);
    }
  }

  file(path: string): SourceFile | undefined {
    return this.files.get(path);
  }

  allFiles(): Iterable<SourceFile> {
    return this.files.values();
  }

  designs(): readonly DesignModel[] {
    return [...this.models.values()];
  }

  /** Designs that a file counts for; a shared catalogue may count for several. */
  designsOf(path: string): readonly DesignModel[] {
    const known = this.files.has(path);
    return this.rootsOf(path, this.roots).flatMap(
      (root) => this.models.get(root) ?? (known ? this.addModel(root) : []),
    );
  }

  /** Folders that networks name as catalogues; the host loads them if it has not. @param inFile as of a model */
  catalogueFolders(inFile?: (path: string) => boolean): readonly string[] {
    return [...new Set(this.designs().flatMap((model) => model.catalogues(inFile)))];
  }

  /** @param root its folder; the path of a file that is judged by itself */
  private addModel(root: string): DesignModel {
    const model = new DesignModel(this.files.has(root) ? folderOf(root) : root);
    this.models.set(root, model);
    return model;
  }

  private dropModel(model: DesignModel): void {
    for (const [root, known] of this.models) if (known === model) this.models.delete(root);
  }

  private rootsOf(path: string, roots: readonly string[]): readonly string[] {
    const nearest = roots.filter((root) => holds(root, path)).sort((a, b) => b.length - a.length)[0];
    const sharing = roots.filter((root) => this.catalogues.get(root)?.some((folder) => holds(folder, path)));
    const owners = new Set([...(nearest === undefined ? [] : [nearest]), ...sharing]);
    if (owners.size > 0) return [...owners];
    return [this.folders.find((folder) => holds(folder, path)) ?? path];
  }

  /** Parts the files anew if networks or catalogues came, went or moved. @returns whether it did */
  private relayout(): boolean {
    const networks = [...this.files.values()].filter((file) =>
      file.declarations.some(({ kind }) => kind === "network"),
    );
    const roots = [...new Set(networks.map((file) => folderOf(file.path)))].sort();
    const probe = new Map<string, DesignModel>();
    for (const file of networks) {
      const root = folderOf(file.path);
      const model = probe.get(root) ?? new DesignModel(root);
      model.setFile(file);
      probe.set(root, model);
    }
    const catalogues = new Map([...probe].map(([root, model]) => [root, model.catalogues()]));
    const layout = JSON.stringify([roots, [...catalogues]]);
    if (layout === this.layout && this.models.size > 0) return false;
    this.layout = layout;
    this.roots = roots;
    this.catalogues = catalogues;
    this.models = new Map();
    for (const file of this.files.values()) {
      for (const root of this.rootsOf(file.path, roots)) {
        (this.models.get(root) ?? this.addModel(root)).setFile(file);
      }
    }
    return true;
  }
}

/** Only networks decide how files are parted. */
function shapesLayout(file: SourceFile | undefined): boolean {
  return file?.declarations.some(({ kind }) => kind === "network") ?? false;
}
