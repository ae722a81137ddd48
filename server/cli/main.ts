/** Entry of the command line. */
import { isMainThread, parentPort, workerData } from "node:worker_threads";
import { CommanderError } from "commander";
import { CommandError, EXIT } from "../command-error.js";
import { answer } from "../lists/read/read-file.js";
import { safe } from "./print/safe.js";
import { program } from "./program.js";
import { endQuietlyOnClosedPipe, note, paintStderr } from "./streams.js";

async function main(): Promise<void> {
  endQuietlyOnClosedPipe();
  try {
    refuseOldNode();
    await program().parseAsync();
  } catch (error) {
    process.exitCode = statusOf(error);
  }
}

const OLDEST_NODE = 22;

function refuseOldNode(): void {
  const { node } = process.versions;
  if (Number.parseInt(node, 10) < OLDEST_NODE) {
    throw new CommandError(
      `hopwright needs Node ${OLDEST_NODE}.12 or later, this is ${node}; in a clone, npm exec -- hopwright takes the project's own, elsewhere install a later one`,
    );
  }
}

/** Tells the error in one line; commander has told its own already. */
function statusOf(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.clean : EXIT.unreadable;
  const expected = error instanceof CommandError;
  const text = expected ? safe(error.message) : `this is a fault of hopwright itself: ${faultOf(error)}`;
  note(`${paintStderr("red", "error")}: ${text}`);
  return EXIT.unreadable;
}

/** Where it happened helps whoever mends it, so the stack is told when asked for. */
function faultOf(error: unknown): string {
  if (!(error instanceof Error)) return safe(String(error));
  return process.env.HOPWRIGHT_DEBUG
    ? (error.stack ?? error.message).split("\n").map(safe).join("\n")
    : `${safe(error.message)}; set HOPWRIGHT_DEBUG=1 for details`;
}

// A list of a stranger is read by this program in a thread of its own.
if (isMainThread) void main();
else parentPort!.postMessage(answer(workerData));
