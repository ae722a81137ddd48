/** Runs Node programs as children and learns how much memory they took at most, and how much of the processors. */
import { type ChildProcess, type StdioOptions, spawn } from "node:child_process";

/** Runs in the child before its program: its last act is to tell its peak memory, KB, and processor time, µs, over a pipe of its own. */
const TELL_USE = `data:text/javascript,import{writeSync}from"node:fs";process.on("exit",()=>{const u=process.resourceUsage();try{writeSync(3,u.maxRSS+" "+(u.userCPUTime+u.systemCPUTime))}catch{}})`;

export interface Child {
  readonly process: ChildProcess;
  /** Resolves when it has ended. */
  readonly ended: Promise<{
    readonly exitCode: number | null;
    readonly wallMs: number;
    /** Of all its threads. */
    readonly processorMs: number;
    readonly peakRssMb: number;
  }>;
}

export function startNode(args: readonly string[], stdio: readonly ("ignore" | "pipe" | "inherit")[]): Child {
  const start = performance.now();
  const child = spawn(process.execPath, ["--import", TELL_USE, ...args], {
    stdio: [...stdio, "pipe"] as StdioOptions,
  });
  let told = "";
  child.stdio[3]!.on("data", (data) => {
    told += String(data);
  });
  const ended = new Promise<Awaited<Child["ended"]>>((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (exitCode) => {
      const [peakKb, processorUs] = told.split(" ").map(Number) as [number, number];
      const wallMs = performance.now() - start;
      resolve({ exitCode, wallMs, processorMs: processorUs / 1000, peakRssMb: peakKb / 1024 });
    });
  });
  return { process: child, ended };
}
