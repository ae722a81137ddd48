/** Where a program of the user lies. Looking for it must find nothing that came with a design. */
import { accessSync, constants, realpathSync, statSync } from "node:fs";
import { posix, win32 } from "node:path";

declare const found: unique symbol;
/** Absolute path of a program among the user's own. Only `findProgram` makes one: no other string is started. */
export type UserProgram = string & { readonly [found]: true };

export interface LookUp {
  /** As the environment has it. */
  readonly searchPath: string;
  /** No program is taken from these folders, nor from any below. */
  readonly strangers: readonly string[];
  /** No program is taken from this folder, which Windows looks through before all others. */
  readonly workingFolder: string;
  readonly windows: boolean;
  /** Whether the system would start it. */
  isProgram(path: string): boolean;
  /** With links resolved. @throws when there is nothing */
  real(path: string): string;
}

/** @returns undefined when there is none, or none but in folders of strangers */
export function findProgram(name: string, lookUp: LookUp): UserProgram | undefined {
  const { join } = lookUp.windows ? win32 : posix;
  // What Windows starts by another ending is a script, and needs a shell.
  const file = lookUp.windows ? `${name}.exe` : name;
  for (const folder of ownFolders(lookUp)) {
    const path = join(folder, file);
    if (lookUp.isProgram(path) && !isStrange(path, lookUp)) return path as UserProgram;
  }
  return undefined;
}

/** The folders of the search path that are the user's own; those written as seen from the working folder are not. */
export function ownFolders(lookUp: LookUp): string[] {
  return lookUp.searchPath
    .split(lookUp.windows ? ";" : ":")
    .map((folder) => (lookUp.windows ? folder.replace(/^"(.*)"$/, "$1") : folder))
    .filter((folder) => isWhole(folder, lookUp.windows) && !isStrange(folder, lookUp));
}

/** On Windows a path that begins with one backslash lies on whatever drive is the current one. */
function isWhole(folder: string, windows: boolean): boolean {
  return windows ? /^([A-Za-z]:[\\/]|[\\/]{2})/.test(folder) : folder.startsWith("/");
}

function isStrange(path: string, lookUp: LookUp): boolean {
  const { relative, isAbsolute } = lookUp.windows ? win32 : posix;
  try {
    const real = lookUp.real(path);
    if (relative(lookUp.real(lookUp.workingFolder), real) === "") return true;
    return lookUp.strangers.some((folder) => {
      const within = relative(lookUp.real(folder), real);
      return !/^\.\.([\\/]|$)/.test(within) && !isAbsolute(within);
    });
  } catch {
    // A folder that is not there holds no program.
    return true;
  }
}

/** This machine. */
export function lookUpHere(strangers: readonly string[]): LookUp {
  const windows = process.platform === "win32";
  return {
    searchPath: process.env.PATH ?? "",
    strangers,
    workingFolder: process.cwd(),
    windows,
    isProgram: (path) => {
      try {
        if (!windows) accessSync(path, constants.X_OK);
        return statSync(path).isFile();
      } catch {
        return false;
      }
    },
    real: (path) => realpathSync.native(path),
  };
}
