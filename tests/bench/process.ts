/** Runs Node programs as children and learns how much memory they took at most. */
import { type ChildProcess, type StdioOptions, spawn } from "node:child_process";

/** Runs in the child before its program: its last act is to tell its peak memory over a pipe of its own. */
const TELL_PEAK = `data:text/javascript,import{writeSync}from"node:fs";process.on("exit",()=>{try{writeSync(3,String(process.resourceUsage().maxRSS))}catch{}})`;

export interface Child {
  readonly process: ChildProcess;
  /** Resolves when it has ended. */
  readonly ended: Promise<{
    readonly exitCode: number | null;
    readonly wallMs: number;
    readonly peakRssMb: number;
  }>;
}

export function startNode(args: readonly string[], stdio: readonly ("ignore" | "pipe" | "inherit")[]): Child {
  const start = performance.now();
  const child = spawn(process.execPath, ["--import", TELL_PEAK, ...args], {
    stdio: [...stdio, "pipe"] as StdioOptions,
  });
  let peak = "";
  child.stdio[3]!.on("data", (data) => {
    peak += String(data);
  });
  const ended = new Promise<Awaited<Child["ended"]>>((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (exitCode) =>
      resolve({ exitCode, wallMs: performance.now() - start, peakRssMb: Number(peak) / 1024 }),
    );
  });
  return { process: child, ended };
}
