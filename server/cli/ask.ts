/** Questions to a person: only where both ways are a terminal, so that no script ever waits for an answer. */
import { createInterface } from "node:readline/promises";

export function mayAsk(): boolean {
  return process.stdin.isTTY === true && process.stderr.isTTY === true;
}

/** @returns the answer without blanks around it; empty where nothing was said */
export async function ask(question: string): Promise<string> {
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  try {
    return (await lines.question(question)).trim();
  } finally {
    lines.close();
  }
}
