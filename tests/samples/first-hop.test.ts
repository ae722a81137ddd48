/** The README's first hop, done as it says: what the tool answers is what stands there. */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { run, SAMPLES } from "../cli/built.js";

const README = readFileSync(join(import.meta.dirname, "../../README.md"), "utf8");
const SECTION = README.slice(README.indexOf("## A first hop of your own")).split("\n## ")[0]!;
const blocks = (language: string) =>
  [...SECTION.matchAll(new RegExp(`\`\`\`${language}\n([\\s\\S]*?)\`\`\``, "g"))].map(([, text]) => text!);

const clone = mkdtempSync(join(tmpdir(), "hopwright-first-"));
afterAll(() => rmSync(clone, { recursive: true }));

test("each step of the README's first hop gives the answer that stands there", () => {
  cpSync(SAMPLES, join(clone, "samples"), { recursive: true });
  mkdirSync(join(clone, "first"));
  const [start, inNetwork, hop] = blocks("hop") as [string, string, string];
  const complete = start.replace("\n}\n", `\n${inNetwork}}\n`).replace(/hop CURLEW-PLOVER [\s\S]*/, hop);
  const states = [start, complete, complete.replace("at 15 m", "at 34 m")];
  const answers = blocks("text");
  expect(answers).toHaveLength(states.length);
  for (const [step, text] of states.entries()) {
    writeFileSync(join(clone, "first/first.hop"), text);
    const [command, ...shown] = answers[step]!.trimEnd().split("\n");
    expect(command).toBe("$ hopwright check first");
    const { stdout } = run(["check", "first", "--today", "2026-11-01"], { cwd: clone });
    expect(stdout.split("\n").filter((line) => shown.includes(line))).toEqual(shown);
    // What is left out of the quotation is no finding that matters.
    expect(stdout.match(/^(error|warning)\[/gm)?.length ?? 0).toBe(step === 1 ? 1 : 0);
  }
});

test("the commands that it names for going on are there", () => {
  for (const [, command] of SECTION.matchAll(/`hopwright ([^`]*)`/g)) {
    const { status, stderr } = run(command!.split(" "), { cwd: clone });
    expect(status, `${command}: ${stderr}`).toBe(0);
  }
});
