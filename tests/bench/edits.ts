/** From an edit to its diagnostics: ordinary edits, and those that a large design fears most. */
import type { Diagnostic } from "vscode-languageserver/node";
import { Editor, type Wanted } from "./editor.js";
import { randomNumbers } from "./random.js";

/** Times of one kind of edit, milliseconds. */
export interface EditTimes {
  readonly what: string;
  /** Until the file that was edited, or the one named, shows what the edit means. */
  readonly shownMs: readonly number[];
  /** Until no hop waits for evaluation. */
  readonly settledMs: readonly number[];
}

export interface EditReport {
  readonly loadMs: number;
  readonly times: readonly EditTimes[];
  readonly peakRssMb: number;
}

/** Not the end of the word terrain. */
const RAIN = " rain ";

/** A height above any structure of the generated network, so that its finding is sure. */
const TOO_HIGH = "71";

/** Edits of heights alone. */
export async function heightEdits(
  server: string,
  folder: string,
  files: readonly string[],
  count: number,
  what: string,
): Promise<EditReport> {
  const start = performance.now();
  const editor = await Editor.start(server, folder);
  const loadMs = performance.now() - start;
  for (const file of files) editor.open(file);
  await editor.check();
  await heights(editor, files, Math.ceil(count / 5), "warm-up");
  const times = [await heights(editor, files, count, what)];
  times.push(await typing(editor, files[0]!, count));
  return { loadMs, times, peakRssMb: await editor.stop() };
}

/** The cases that touch many hops at once. @param hopFiles files of hops, the first of which stay open */
export async function farReachingEdits(
  server: string,
  folder: string,
  hopFiles: readonly string[],
  count: number,
): Promise<EditReport> {
  const start = performance.now();
  const editor = await Editor.start(server, folder);
  const loadMs = performance.now() - start;
  for (const file of [...hopFiles, "network.hop", "catalogue/radios.hop", "sites/area-001.hop"])
    editor.open(file);
  await editor.check();
  await heights(editor, hopFiles, count, "warm-up");
  const times = [
    await thresholds(editor, count),
    await renamedSite(editor, hopFiles[0]!, count),
    await climate(editor, hopFiles[0]!, count),
    await heightsMeanwhile(editor, hopFiles, count),
  ];
  return { loadMs, times, peakRssMb: await editor.stop() };
}

/** Raises an antenna above its structure and lowers it again, each time another hop. */
async function heights(
  editor: Editor,
  files: readonly string[],
  count: number,
  what: string,
): Promise<EditTimes> {
  const random = randomNumbers(7);
  const times = noTimes(what);
  for (let i = 0; i < count; i += 2) {
    const file = files[i % files.length]!;
    const place = antennaHeight(editor, file, random());
    await edit(editor, times, file, place, TOO_HIGH, file, onLine(place.line, "antenna-above-structure"));
    await edit(
      editor,
      times,
      file,
      { ...place, length: TOO_HIGH.length },
      place.written,
      file,
      (all) => !onLine(place.line, "antenna-above-structure")(all),
    );
  }
  return times;
}

/** Between two keys: longer than the server rests before it judges the network, so that keys fall into that work. */
const KEY_MS = 200;

/** The same antenna up and down without waiting for the rest of the work, as somebody types who thinks meanwhile. */
async function typing(editor: Editor, file: string, count: number): Promise<EditTimes> {
  const times = noTimes(`the same, a key each ${KEY_MS} ms`);
  const { at, written, line } = antennaHeight(editor, file, 0.5);
  const isTooHigh = onLine(line, "antenna-above-structure");
  for (let i = 0; i < count; i++) {
    const start = performance.now();
    const [from, to] = i % 2 === 0 ? [written, TOO_HIGH] : [TOO_HIGH, written];
    editor.change(file, at, from.length, to);
    times.shownMs.push((await editor.shows(file, (all) => isTooHigh(all) === (i % 2 === 0))) - start);
    await new Promise((resolve) => setTimeout(resolve, Math.max(0, KEY_MS + start - performance.now())));
  }
  await editor.check();
  return times;
}

/** A threshold of a radio: every hop that uses it is evaluated again. */
async function thresholds(editor: Editor, count: number): Promise<EditTimes> {
  const file = "catalogue/radios.hop";
  const times = noTimes("a threshold in the catalogue");
  for (let i = 0; i < count; i += 2) {
    const text = editor.text(file);
    const at = text.indexOf("threshold ", text.indexOf("radio R18")) + "threshold ".length;
    const written = text.slice(at, text.indexOf(" ", at));
    const before = editor.of(file).length;
    await edit(
      editor,
      times,
      file,
      { at, length: written.length },
      "-20",
      file,
      (all) => all.length > before,
    );
    await edit(editor, times, file, { at, length: 3 }, written, file, (all) => all.length === before);
  }
  return times;
}

/** A site's declared name: what mentions it loses it, and finds it again. */
async function renamedSite(editor: Editor, hopFile: string, count: number): Promise<EditTimes> {
  const file = "sites/area-001.hop";
  const times = noTimes("a site's name, until the open file that mentions it shows it");
  const mentioned = [...editor.text(hopFile).matchAll(/^ {2}(\S+) \{$/gm)].map((match) => match[1]!);
  const name = mentioned.find((one) => editor.text(file).includes(`site ${one} "`))!;
  for (let i = 0; i < count; i += 2) {
    const at = editor.text(file).indexOf(`site ${name} "`) + "site ".length;
    const lost: Wanted = (all) =>
      all.some(({ code, message }) => code === "unknown-name" && String(message).includes(name));
    await edit(editor, times, file, { at, length: name.length }, `${name}-QQ`, hopFile, lost);
    await edit(editor, times, file, { at, length: name.length + 3 }, name, hopFile, (all) => !lost(all));
  }
  return times;
}

/** The network's rain: every hop there is. */
async function climate(editor: Editor, hopFile: string, count: number): Promise<EditTimes> {
  const times = noTimes("the network's rain rate, until an open file of hops shows it");
  for (let i = 0; i < count; i += 2) {
    const at = editor.text("network.hop").indexOf(RAIN) + RAIN.length;
    const dry = editor.of(hopFile).length;
    await edit(editor, times, "network.hop", { at, length: 2 }, "180", hopFile, (all) => all.length > dry);
    await edit(editor, times, "network.hop", { at, length: 3 }, "30", hopFile, (all) => all.length === dry);
  }
  return times;
}

/** Heights while all hops wait because the rain has just changed. */
async function heightsMeanwhile(editor: Editor, files: readonly string[], count: number): Promise<EditTimes> {
  const random = randomNumbers(8);
  const times = noTimes("an antenna height while all hops are evaluated anew");
  let rain = "30";
  for (let i = 0; i < count; i++) {
    const at = editor.text("network.hop").indexOf(RAIN) + RAIN.length;
    const next = rain === "30" ? "31" : "30";
    editor.change("network.hop", at, 2, next);
    rain = next;
    await new Promise((resolve) => setTimeout(resolve, 300));
    const file = files[i % files.length]!;
    const place = antennaHeight(editor, file, random());
    await edit(editor, times, file, place, TOO_HIGH, file, onLine(place.line, "antenna-above-structure"));
    editor.change(file, place.at, TOO_HIGH.length, place.written);
    await editor.check();
  }
  return times;
}

interface Place {
  readonly at: number;
  readonly length: number;
}

/** Makes one edit, waits for what it means and then for all else. */
async function edit(
  editor: Editor,
  times: Times,
  file: string,
  { at, length }: Place,
  by: string,
  shownIn: string,
  wanted: Wanted,
): Promise<void> {
  const start = performance.now();
  editor.change(file, at, length, by);
  times.shownMs.push((await editor.shows(shownIn, wanted)) - start);
  times.settledMs.push((await editor.settles()) - start);
}

function antennaHeight(
  editor: Editor,
  file: string,
  random: number,
): Place & { readonly written: string; readonly line: number } {
  const found = [...editor.text(file).matchAll(/ antenna \S+ at (\d+) m/g)];
  const match = found[Math.floor(random * found.length)]!;
  const written = match[1]!;
  const at = match.index + match[0].lastIndexOf(written);
  return { at, length: written.length, written, line: editor.position(file, at).line };
}

function onLine(line: number, code: string): Wanted {
  return (all: readonly Diagnostic[]) =>
    all.some((one) => one.code === code && one.range.start.line === line);
}

interface Times extends EditTimes {
  readonly shownMs: number[];
  readonly settledMs: number[];
}

function noTimes(what: string): Times {
  return { what, shownMs: [], settledMs: [] };
}
