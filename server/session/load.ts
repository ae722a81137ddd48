/** Loads a folder with all designs in it, and the catalogues they share from elsewhere. */
import { existsSync } from "node:fs";
import { resolve } from "node:path";
import { Project } from "../../language/model/project.js";
import { readSource, type SourceFile } from "../../language/model/source-file.js";
import { type HopFiles, readHopFiles, type UnreadableFile, withoutNamedLinks } from "../files/hop-files.js";
import { readWithin } from "../files/read-within.js";
import { slashed } from "../files/slashed.js";

export const NO_CATALOGUE = "this catalogue folder does not exist; mend the `catalogue` line";

export interface LoadedProject {
  readonly project: Project;
  readonly unreadable: readonly UnreadableFile[];
}

/** Where the files of a design come from. */
export interface DesignFiles {
  /** The `.hop` files of a folder and all below it. */
  read(folder: string): HopFiles;
  exists(folder: string): boolean;
  source(path: string, text: string): SourceFile;
}

const ON_DISK: DesignFiles = { read: readHopFiles, exists: existsSync, source: readSource };

export function loadProject(folder: string, from: DesignFiles = ON_DISK): LoadedProject {
  const root = slashed(resolve(folder));
  const project = new Project(root);
  const unreadable: UnreadableFile[] = [];
  const loaded = new Set<string>();
  const load = (at: string) => {
    const files = from.read(at);
    unreadable.push(...files.unreadable);
    const fresh = files.texts.filter(({ path }) => !loaded.has(path));
    for (const { path } of fresh) loaded.add(path);
    const within = readWithin(fresh, from.source, project.allFiles());
    unreadable.push(...within.unread);
    project.setFiles(within.files);
  };
  load(root);
  const folders = new Set<string>();
  for (let more = true; more; ) {
    more = false;
    for (const at of project.catalogueFolders()) {
      if (folders.has(at)) continue;
      folders.add(at);
      more = true;
      if (from.exists(at)) load(at);
      else
        unreadable.push({
          path: at,
          message: NO_CATALOGUE,
        });
    }
  }
  return { project, unreadable: withoutNamedLinks(unreadable, [...folders]) };
}
