/** Everything that results of a design rest on beside the hops: the program and the files of its terrain. */
import { readFileSync } from "node:fs";
import { stat } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { findRasterFiles } from "../terrain/find-files.js";
import { VERSION } from "../version.js";
import { digestOf } from "./pack.js";

/** A file that was written so lately may be written again without its times telling. */
const SETTLED_MS = 2000;

/**
 * Files of terrain count by their place, size, number and times, of which the system sets one at every change: to read
 * them whole would take longer than what is saved.
 * @returns undefined where it cannot be told, or where a file changed just now
 */
export async function basisOf(
  terrain: readonly string[],
  baseDir: string,
  nowMs = Date.now(),
): Promise<string | undefined> {
  let isWhole = true;
  const found = await findRasterFiles(terrain, baseDir, () => {
    isWhole = false;
  });
  const lines = await Promise.all(
    found.flatMap(({ file, path }) => [
      lineOf(file, path, nowMs),
      ...(/\.asc$/i.test(path) ? [lineOf(`${file} .prj`, path.replace(/\.asc$/i, ".prj"), nowMs)] : []),
    ]),
  );
  if (!isWhole || lines.includes(undefined)) return undefined;
  return [VERSION, process.version, process.arch, program(), ...terrain, ...lines].join("\n");
}

async function lineOf(file: string, path: string, nowMs: number): Promise<string | undefined> {
  const info = await stat(path, { bigint: true }).catch(() => undefined);
  if (info === undefined) return undefined;
  const { size, mtimeNs, ctimeNs, mtimeMs, ctimeMs, ino, dev } = info;
  if (nowMs - Math.max(Number(mtimeMs), Number(ctimeMs)) < SETTLED_MS) return undefined;
  return `${file} ${size} ${mtimeNs} ${ctimeNs} ${dev} ${ino}`;
}

/** Of a program that is being worked on the version says too little. */
function program(): string {
  return digestOf(readFileSync(fileURLToPath(import.meta.url))).toString("hex");
}
