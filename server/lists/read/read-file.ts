/** Files of strangers, read where they can do no harm: bounded in bytes, and unpacked and parsed in a thread of its own. */
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import type { Sheet } from "../../../shared/lists/table.js";
import { reasonOf } from "../../files/hop-files.js";
import { readBounded } from "../../files/read-bounded.js";
import { MOST_FILE_BYTES, MOST_HEAP_MB, UnfitList } from "./bounds.js";
import { isStructured, readSheets } from "./sheets.js";

/** What the thread is started with. */
export interface ListThread {
  readonly listName: string;
  readonly bytes: Uint8Array;
}

export type ListAnswer = { readonly sheets: Sheet[] } | { readonly unfit: string };

/** @throws UnfitList with one clause */
export async function readListFile(path: string, name: string): Promise<Sheet[]> {
  let bytes: Uint8Array;
  try {
    bytes = await readBounded(path, MOST_FILE_BYTES);
  } catch (error) {
    throw new UnfitList(reasonOf(error));
  }
  const program = fileURLToPath(import.meta.url);
  // From the sources there is no program that a thread could run.
  if (!isStructured(bytes) || !program.endsWith(".cjs")) return readSheets(name, bytes);
  return inThread(program, { listName: name, bytes });
}

function inThread(program: string, workerData: ListThread): Promise<Sheet[]> {
  const worker = new Worker(program, {
    workerData,
    resourceLimits: { maxOldGenerationSizeMb: MOST_HEAP_MB },
  });
  return new Promise((resolve, reject) => {
    worker.on("message", (answer: ListAnswer) => {
      if ("sheets" in answer) resolve(answer.sheets);
      else reject(new UnfitList(answer.unfit));
      void worker.terminate();
    });
    worker.on("error", (error: NodeJS.ErrnoException) => {
      reject(
        error.code === "ERR_WORKER_OUT_OF_MEMORY"
          ? new UnfitList(`reading it takes more than the ${MOST_HEAP_MB} MB of memory that a list may take`)
          : error,
      );
    });
    worker.on("exit", () => reject(new UnfitList("reading it ended without an answer")));
  });
}

/** What the thread does. */
export function answer({ listName, bytes }: ListThread): ListAnswer {
  try {
    return { sheets: readSheets(listName, bytes) };
  } catch (error) {
    if (error instanceof UnfitList) return { unfit: error.message };
    throw error;
  }
}
