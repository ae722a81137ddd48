/** Which files the editor is asked to tell about: designs, and what their ground and climate are read from. */
import {
  type Connection,
  DidChangeWatchedFilesNotification,
  type Disposable,
  type FileSystemWatcher,
  WatchKind,
} from "vscode-languageserver";
import { folderOf, isBelow } from "../../language/model/path.js";
import type { Designs } from "./designs.js";
import { uriOf } from "./locations.js";

/** Designs; rasters with what places them, surveys, lists, maps of the climate (`LogK.csv`, `R001.TXT`), logos. */
const PATTERNS = ["**/*.hop", "**/*.{hgt,tif,tiff,asc,prj,zip,gz,csv,txt,CSV,TXT,png,jpg,jpeg,PNG,JPG,JPEG}"];

export class Watching {
  /** Folders outside the opened ones that are watched: shared terrain, maps, catalogues. */
  private elsewhere: readonly string[] = [];
  private registered: Promise<Disposable> | undefined;

  constructor(
    private readonly connection: Connection,
    private folders: readonly string[],
    /** Whether the editor can watch what lies outside the opened folders. */
    private readonly reachesElsewhere: boolean,
  ) {}

  start(): void {
    const watchers: FileSystemWatcher[] = PATTERNS.map((globPattern) => ({ globPattern }));
    // Editors tell that a folder went, and say nothing of the files in it.
    watchers.push({ globPattern: "**", kind: WatchKind.Delete });
    void this.connection.client.register(DidChangeWatchedFilesNotification.type, { watchers });
  }

  /** Folders were opened or closed: the editor watches those by itself. */
  setFolders(folders: readonly string[]): void {
    this.folders = folders;
  }

  /** Watches the folders that the designs name by now. Cheap when they are the same as before. */
  follow(designs: Designs): void {
    if (!this.reachesElsewhere) return;
    const named = designs
      .placesNamed()
      // A single raster is watched with its folder.
      .map((path) => (/\.\w+$/.test(path) ? folderOf(path) : path))
      .filter((path) => !this.folders.some((at) => isBelow(path, at)));
    const elsewhere = [...new Set(named)].sort();
    if (elsewhere.join("\n") === this.elsewhere.join("\n")) return;
    this.elsewhere = elsewhere;
    const before = this.registered;
    const watchers = elsewhere.flatMap((folder) => PATTERNS.map((pattern) => below(folder, pattern)));
    this.registered =
      watchers.length === 0
        ? undefined
        : this.connection.client.register(DidChangeWatchedFilesNotification.type, { watchers });
    void before?.then((registration) => registration.dispose());
  }
}

function below(folder: string, pattern: string): FileSystemWatcher {
  return { globPattern: { baseUri: uriOf(folder), pattern } };
}
