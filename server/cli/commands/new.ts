/** `new`: begins a design in a folder, and replaces nothing that is there. */
import { existsSync } from "node:fs";
import { basename, join, relative, resolve } from "node:path";
import {
  beginDesign,
  CLIMATE_ASKED,
  climateMeaning,
  type NewFile,
} from "../../../language/begin/begin-design.js";
import { readSource } from "../../../language/model/source-file.js";
import { findProperty } from "../../../language/schema/index.js";
import { CommandError, EXIT } from "../../command-error.js";
import { readHopFiles } from "../../files/hop-files.js";
import { slashed } from "../../files/slashed.js";
import { writeWhole } from "../../files/write-whole.js";
import { shownFrom } from "../../findings/paths.js";
import { ask, mayAsk } from "../ask.js";
import { safe } from "../print/safe.js";
import { note, print } from "../streams.js";

export interface NewOptions {
  readonly title?: string;
  readonly terrain?: string;
  readonly maps?: string;
  readonly rain?: string;
  readonly logk?: string;
  readonly dn75?: string;
  readonly k?: string;
}

/** @returns the exit status */
export async function newDesign(folder: string, options: NewOptions): Promise<number> {
  refuseDesign(folder);
  const files = beginDesign({
    title: options.title ?? titleOf(folder),
    terrain: pathFrom(folder, "--terrain", options.terrain),
    maps: pathFrom(folder, "--maps", options.maps),
    climate: await climateOf(options),
  });
  writeNew(folder, files);
  const shown = shownFrom(process.cwd(), resolve(folder));
  await print(files.map(({ path }) => `${safe(slashed(join(shown, path)))}\n`));
  note(
    `Next: state the sites in sites.hop, a hop in hops.hop, and ask: hopwright check ${safe(shown)}. Lists of sites or hops come in with hopwright import FILE --out ${safe(shown)}.`,
  );
  return EXIT.clean;
}

function refuseDesign(folder: string): void {
  if (!existsSync(folder)) return;
  const [first] = readHopFiles(folder).texts;
  if (first !== undefined)
    throw new CommandError(
      `${folder}: ${shownFrom(resolve(folder), first.path)} stands there already; name another folder`,
    );
}

/** @throws CommandError where one of them is there: nothing is replaced, and nothing written then */
function writeNew(folder: string, files: readonly NewFile[]): void {
  for (const { path } of files)
    if (existsSync(join(folder, path)))
      throw new CommandError(`${join(folder, path)}: it is there already and is not replaced; move it away`);
  for (const { path, text } of files) writeWhole(join(folder, path), text);
}

export function titleOf(folder: string): string {
  const words = basename(resolve(folder)).replace(/[-_]+/g, " ").trim();
  return words === "" ? "Network" : words[0]!.toUpperCase() + words.slice(1);
}

/** Given as seen from here, written as seen from the design. */
function pathFrom(folder: string, option: string, path: string | undefined): string | undefined {
  if (path === undefined) return undefined;
  if (!existsSync(path)) throw new CommandError(`${option} ${path}: there is no such file or folder`);
  return slashed(relative(resolve(folder), resolve(path))) || ".";
}

async function climateOf(options: NewOptions): Promise<Map<string, string>> {
  const given: Readonly<Record<string, string | undefined>> = {
    rain: options.rain,
    logK: options.logk,
    dN75: options.dn75,
    k: options.k,
  };
  const lines = new Map<string, string>();
  for (const word of CLIMATE_ASKED) {
    const stated = given[word];
    if (stated !== undefined) lines.set(word, lineOf(word, stated, `--${word.toLowerCase()}`));
    else if (mayAsk()) await askFor(word, lines);
  }
  return lines;
}

async function askFor(word: string, lines: Map<string, string>): Promise<void> {
  note(`\n${climateMeaning(word)}`);
  for (;;) {
    const answer = await ask(
      `${word} (as in: ${findProperty("climate", word)!.example}; Enter leaves it open) `,
    );
    if (answer === "") return;
    try {
      lines.set(word, lineOf(word, answer, word));
      return;
    } catch (error) {
      note(safe((error as Error).message));
    }
  }
}

/** The line of a climate; a bare number has the unit of the example. */
function lineOf(word: string, stated: string, shown: string): string {
  const value = stated.startsWith(`${word} `) ? stated.slice(word.length + 1) : stated;
  const unit = findProperty("climate", word)!.example.split(" ")[2];
  const line = `${word} ${unit !== undefined && /^[-+\d.]+$/.test(value) ? `${value} ${unit}` : value}`;
  const [problem] = readSource("network.hop", `network "" {\nclimate {\n${line}\n}\n}\n`).problems;
  if (problem) throw new CommandError(`${shown} ${stated}: ${problem.message}`);
  return line;
}
