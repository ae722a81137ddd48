/** Folders that commands write pages into: which are refused, and where those of several designs go. */
import { existsSync, realpathSync } from "node:fs";
import { join } from "node:path";
import { CommandError } from "../command-error.js";
import { slashed } from "../files/slashed.js";
import type { JudgedDesign, JudgedFolder } from "../findings/judged-folder.js";
import { shownFrom } from "../findings/paths.js";
import { fileNames } from "../report/names.js";

/** Pages among the files of a design would be taken for a part of it by the next reader, those of git's by git. */
export function refusedFolders({ designs }: JudgedFolder, out: string): (folder: string) => void {
  if (out.trim() === "") throw new CommandError("--out: name a folder to write into");
  const roots = new Set(designs.map(({ root }) => realpathSync(root)));
  return (folder) => {
    if (!existsSync(folder)) return;
    const real = realpathSync(folder);
    if (roots.has(real))
      throw new CommandError(
        `${folder}: this is the folder of the design itself; name another, for example ${join(folder, "out")}`,
      );
    if (slashed(real).split("/").includes(".git"))
      throw new CommandError(`${folder}: this is a folder of git's own; name another`);
  };
}

/** Each by its own folder, ending in `/`. */
export function designFolders(root: string, designs: readonly JudgedDesign[]): Map<JudgedDesign, string> {
  const paths = designs.map((design) => shownFrom(root, design.root).replaceAll("/", "-"));
  const names = fileNames(paths.map((path) => (path === "." ? "root" : path)));
  const each = [...names.values()];
  return new Map(designs.map((design, index) => [design, `${each[index]}/`]));
}
