/** Channels proposed for a network in which every hop is open: how long that takes, whether it is the same twice, how good it is. */
import { spawnSync } from "node:child_process";
import { cpus } from "node:os";
import { type NetworkText, writeNetwork } from "./network/network.js";

export interface ChannelsFigures {
  readonly hops: number;
  readonly wallMs: number;
  /** On one processor, where the machine lets that be said; undefined: it does not. */
  readonly oneProcessorMs?: number;
  readonly isSame: boolean;
  /** What the command says at the end: receivers beyond, spectrum, and what no choice comes below. */
  readonly told: readonly string[];
}

/** Numbers, polarizations and halves taken out. */
function opened(files: NetworkText): NetworkText {
  return new Map(
    [...files].map(([path, text]) => [
      path,
      text
        .replaceAll(/^( *channel .* MHz) \/ \d+$/gm, "$1")
        .replaceAll(/^ *(polarization|transmits) \w+\n/gm, ""),
    ]),
  );
}

export function channelsOf(command: string, folder: string, files: NetworkText): ChannelsFigures {
  writeNetwork(folder, opened(files));
  const args = [command, "channels", "--open", folder];
  const timed = (program: string, of: readonly string[]) => {
    const start = performance.now();
    const { stdout, status } = spawnSync(program, of, { encoding: "utf8", maxBuffer: 64 * 2 ** 20 });
    return { stdout, status, ms: performance.now() - start };
  };
  const first = timed(process.execPath, args);
  const one = cpus().length > 1 ? timed("taskset", ["-c", "0", process.execPath, ...args]) : undefined;
  const isThere = one?.status === first.status;
  const again = isThere ? one : timed(process.execPath, args);
  return {
    hops: [...files.values()].join("\n").match(/^hop /gm)?.length ?? 0,
    wallMs: first.ms,
    ...(isThere && one && { oneProcessorMs: one.ms }),
    isSame: first.stdout === again?.stdout,
    told: first.stdout.trimEnd().split("\n").slice(-3),
  };
}

export function channelsTable(all: readonly ChannelsFigures[]): string {
  const seconds = (ms: number | undefined) => (ms === undefined ? "-" : (ms / 1000).toFixed(1));
  return [
    "| open hops | s | s on one processor | the same twice | told |",
    "| --- | --- | --- | --- | --- |",
    ...all.map(
      ({ hops, wallMs, oneProcessorMs, isSame, told }) =>
        `| ${hops} | ${seconds(wallMs)} | ${seconds(oneProcessorMs)} | ${isSame ? "yes" : "NO"} | ${told.join(" ")} |`,
    ),
  ].join("\n");
}
