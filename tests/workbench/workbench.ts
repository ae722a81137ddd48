/** What a person does in the workbench, as functions: open, go to, type, look at. Waits are for content, never for time. */
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Frame, Locator, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, expect, inject } from "vitest";
import { openInBrowser, serveWorkbench } from "./host/browser.js";
import { openOnDesktop } from "./host/desktop.js";
import { type HostFacts, hostFacts, type OpenWorkbench } from "./host/host.js";

export interface Workbench {
  readonly page: Page;
  /** The opened folder: a copy that a suite may change. */
  readonly folder: string;
  /** Messages of the browser about content that a page's policy refused. */
  readonly refusals: readonly string[];
  close(): Promise<void>;
}

/**
 * One workbench for all tests of a suite; a failed test leaves a picture of what it saw in out/workbench.
 * @param prepare changes the copied samples before a design of theirs is opened
 * @param asksForTrust whether the opened folder is strange at first
 */
export function workbenchOf(
  suite: string,
  design = "learning",
  prepare: (samples: string) => void = () => {},
  asksForTrust = false,
): Workbench {
  const workbench = {} as Workbench;
  beforeAll(async () => {
    Object.assign(workbench, await openDesign(suite, design, prepare, asksForTrust));
  });
  afterEach(async ({ task }) => {
    if (!workbench.page) return;
    const complaints = await workbench.page
      .locator(".notifications-toasts .notification-list-item:has(.codicon-error)")
      .allInnerTexts();
    if (task.result?.state === "fail" || complaints.length > 0) {
      await workbench.page.screenshot({ path: join(hostFacts().out, `failed-${suite}-${task.id}.png`) });
    }
    expect(complaints, "the workbench shows error messages").toEqual([]);
  });
  afterAll(() => workbench.close?.());
  return workbench;
}

/** Opens a copy of a sample design, made for this suite. */
async function openDesign(
  suite: string,
  design: string,
  prepare: (samples: string) => void,
  asksForTrust: boolean,
): Promise<Workbench> {
  const facts = hostFacts();
  const copy = join(facts.out, "designs", suite);
  rmSync(copy, { recursive: true, force: true });
  cpSync(join(facts.root, "samples"), copy, { recursive: true });
  prepare(copy);
  const folder = join(copy, design);
  const { page, close } = await openHost(facts, folder, asksForTrust);
  page.setDefaultTimeout(20_000);
  const refusals: string[] = [];
  page.on("console", (message) => {
    if (message.text().includes("Content Security Policy")) refusals.push(message.text());
  });
  await page.locator(".explorer-folders-view .monaco-list-row").first().waitFor({ timeout: 60_000 });
  return { page, folder, refusals, close };
}

async function openHost(facts: HostFacts, folder: string, asksForTrust: boolean): Promise<OpenWorkbench> {
  if (facts.kind === "desktop") return openOnDesktop(facts, inject("workbench"), folder, asksForTrust);
  if (!asksForTrust) return openInBrowser(facts, inject("workbench"), folder);
  const server = await serveWorkbench(facts, true);
  const { page, close } = await openInBrowser(facts, server.address, folder);
  return { page, close: () => close().then(server.stop) };
}

export async function openFile({ page }: Workbench, name: string): Promise<void> {
  await page.keyboard.press("Control+P");
  const input = page.locator(".quick-input-widget input");
  await input.fill(name);
  await page.locator(".quick-input-list .monaco-list-row", { hasText: name }).first().waitFor();
  await page.keyboard.press("Enter");
  await page.locator(`.tab.active[data-resource-name="${name}"]`).waitFor();
  await page.locator(".editor-instance .view-line").first().waitFor();
}

/** Runs a command by its title, as the palette shows it. */
export async function command({ page }: Workbench, title: string): Promise<void> {
  await page.keyboard.press("F1");
  const input = page.locator(".quick-input-widget input");
  await input.waitFor();
  await input.fill(`>${title}`);
  await page.locator(".quick-input-list .monaco-list-row.focused", { hasText: title }).waitFor();
  await page.keyboard.press("Enter");
}

/**
 * Does something until what it should bring is there. A key that is pressed while the editor is still
 * starting, or a box that another part closes by taking the focus, is what a person would do again too.
 */
export async function untilVisible(wanted: Locator, act: () => Promise<void>): Promise<void> {
  for (let attempt = 1; ; attempt++) {
    await act();
    try {
      await wanted.first().waitFor({ timeout: attempt < 4 ? 6_000 : 20_000 });
      return;
    } catch (error) {
      if (attempt === 4) throw error;
    }
  }
}

/** Puts the caret before (or with `after`, behind) the first place where a saved file's text stands. */
export async function caretAt(
  workbench: Workbench,
  file: string,
  text: string,
  after = false,
): Promise<void> {
  const { line, column } = placeOf(savedText(workbench, file), text, after);
  const { page } = workbench;
  await page.keyboard.press("Control+G");
  const input = page.locator(".quick-input-widget input");
  await input.waitFor();
  await input.fill(`:${line}:${column}`);
  await page.keyboard.press("Enter");
  await input.waitFor({ state: "hidden" });
}

/**
 * Selects what follows `before` at its first place in a saved file, as long as `text`, and types over it.
 * Nothing is saved, so the places stay those of the saved file as long as lengths stay the same.
 */
export async function typeOver(
  workbench: Workbench,
  file: string,
  before: string,
  text: string,
  typed: string,
): Promise<void> {
  await caretAt(workbench, file, before, true);
  for (let i = 0; i < text.length; i++) await workbench.page.keyboard.press("Shift+ArrowRight");
  await workbench.page.keyboard.type(typed);
}

/** Saves the file in front and waits until the disk holds what is expected of it. */
export async function save(workbench: Workbench, file: string, holds: RegExp | string): Promise<void> {
  await workbench.page.keyboard.press("Control+S");
  await expect.poll(() => savedText(workbench, file), { timeout: 10_000 }).toMatch(holds);
}

export function savedText({ folder }: Workbench, file: string): string {
  return readFileSync(join(folder, file), "utf8");
}

/** For `prepare` of a suite that changes settings: of a folder and a file that come at once the watching may miss the file. */
export const withSettings =
  (design: string) =>
  (samples: string): void =>
    setForFolder({ folder: join(samples, design) }, {});

/** Writes the settings of the opened folder, as a file that the workbench watches; it was opened `withSettings`. */
export function setForFolder({ folder }: Pick<Workbench, "folder">, settings: Record<string, unknown>): void {
  mkdirSync(join(folder, ".vscode"), { recursive: true });
  writeFileSync(join(folder, ".vscode", "settings.json"), JSON.stringify(settings));
}

/** The text of the lines on the screen, with what the editor adds to them (hints) included. */
export async function shownLines({ page }: Workbench): Promise<string[]> {
  const lines = await page.locator(".editor-instance .view-line").allInnerTexts();
  return lines.map((line) => line.replaceAll("\u00a0", " "));
}

/** Rows of the Problems panel, opened if need be. */
export async function problems({ page }: Workbench): Promise<Locator> {
  const panel = page.locator(".markers-panel");
  if (!(await panel.isVisible())) await page.keyboard.press("Control+Shift+M");
  await panel.waitFor();
  return panel.locator(".monaco-list-row");
}

/** The hover at the caret; asked for again while there is none, as it may have been asked before the first results. */
export async function hover({ page }: Workbench): Promise<Locator> {
  const shown = page.locator(".monaco-hover:not(.hidden)").first();
  const ask = async () => {
    await page.keyboard.press("Control+K");
    await page.keyboard.press("Control+I");
    return shown.waitFor({ timeout: 3000 }).then(
      () => true,
      () => false,
    );
  };
  await expect.poll(ask, { timeout: 20_000, message: "no hover" }).toBe(true);
  return shown;
}

/** The page inside a webview, once it holds the text. */
export async function webview({ page }: Workbench, text: string | RegExp): Promise<Frame> {
  let found: Frame | undefined;
  await expect
    .poll(
      async () => {
        for (const frame of page.frames()) {
          if (frame === page.mainFrame()) continue;
          // A frame that is going away has no text.
          const [body = ""] = await frame
            .locator("body")
            .allInnerTexts()
            .catch(() => []);
          if (body.match(text)) found = frame;
        }
        return found !== undefined;
      },
      { timeout: 30_000, message: `no webview holds ${text}` },
    )
    .toBe(true);
  return found!;
}

export function placeOf(text: string, wanted: string, after = false): { line: number; column: number } {
  const index = text.indexOf(wanted);
  if (index < 0) throw new Error(`the file does not hold: ${wanted}`);
  const before = text.slice(0, index + (after ? wanted.length : 0)).split("\n");
  return { line: before.length, column: before.at(-1)!.length + 1 };
}
