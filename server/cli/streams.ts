/** Standard output and error of the command line, with the manners that pipes and terminals ask for. */
import { styleText } from "node:util";
import { EXIT } from "../command-error.js";

export type Style = Parameters<typeof styleText>[0];

/** Colours a piece of text, or leaves it as it is where colour is not wanted. */
export type Paint = (style: Style, text: string) => string;

export const plain: Paint = (_style, text) => text;

/** Heed NO_COLOR, FORCE_COLOR and whether the stream is a terminal. */
export const paintStdout: Paint = paintFor(process.stdout);
export const paintStderr: Paint = paintFor(process.stderr);

/** Whether colour is wanted is asked once: there may be ten thousand findings. */
function paintFor(stream: NodeJS.WriteStream): Paint {
  if (styleText("bold", "x", { stream }) === "x") return plain;
  return (style, text) => styleText(style, text, { validateStream: false });
}

const MOST_COLUMNS = 80;

/** Width for sentences on a terminal; undefined where the output goes into a file or another program. */
export function terminalColumns(): number | undefined {
  const { isTTY, columns } = process.stdout;
  return isTTY ? Math.max(40, Math.min(columns || MOST_COLUMNS, MOST_COLUMNS)) : undefined;
}

/** A reader that has seen enough closes the pipe: no error, and nothing is left to do. A full disk is told. */
export function endQuietlyOnClosedPipe(): void {
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") {
      const reason = error.code === "ENOSPC" ? "the disk is full" : error.message;
      note(`${paintStderr("red", "error")}: the output cannot be written: ${reason}`);
      process.exitCode = EXIT.unreadable;
    }
    process.exit();
  });
  // There is nowhere left to tell it.
  process.stderr.on("error", () => process.exit());
}

/** Writes piece by piece, at the pace of the reader, so that a long answer is never whole in memory. */
export async function print(pieces: Iterable<string>): Promise<void> {
  let held = "";
  for (const piece of pieces) {
    held += piece;
    if (held.length < 65_536) continue;
    await write(held);
    held = "";
  }
  if (held !== "") await write(held);
}

function write(text: string): Promise<void> {
  return new Promise((resolve) => {
    if (process.stdout.write(text)) resolve();
    else process.stdout.once("drain", resolve);
  });
}

export function note(text: string): void {
  process.stderr.write(`${text}\n`);
}
