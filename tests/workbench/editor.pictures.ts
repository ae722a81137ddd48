/**
 * Pictures of the editor at work, written to out/screenshots, and the one of the README to extension/media.
 * Run by `npm run screenshots`; look at all of them after a change of what is shown.
 */
import { copyFileSync, mkdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { hostFacts } from "./host/host.js";
import {
  caretAt,
  command,
  hover,
  openFile,
  problems,
  setForFolder,
  untilVisible,
  type Workbench,
  webview,
  withSettings,
  workbenchOf,
} from "./workbench.js";

const README_PICTURE_BYTES = 300_000;

describe("pictures of the learning sample", () => {
  const workbench = workbenchOf("pictures");

  it("a finding where it is caused, and the report beside it", async () => {
    await openFile(workbench, "hops.hop");
    await command(workbench, "View: Toggle Primary Side Bar Visibility");
    await caretAt(workbench, "hops.hop", "hop ALDER-HAZEL");
    await workbench.page.locator(".squiggly-error").first().waitFor();
    await (await problems(workbench)).filter({ hasText: "the ray is blocked" }).waitFor();
    await openFile(workbench, "hops.hop");
    await command(workbench, "Hopwright: Open report");
    const page = await webview(workbench, "Blocked by a ridge");
    await page.locator("svg:visible").first().scrollIntoViewIfNeeded();
    await caretAt(workbench, "hops.hop", "  HAZEL {\n    antenna DISH60-18 at ", true);
    const picture = await take(workbench, "editor");
    expect(statSync(picture).size).toBeLessThan(README_PICTURE_BYTES);
    copyFileSync(picture, join(hostFacts().root, "extension", "media", "editor.png"));
  });
});

describe("pictures of the text", () => {
  const workbench = workbenchOf("pictures-text");

  it("the changes that would mend a finding", async () => {
    await openFile(workbench, "hops.hop");
    await caretAt(workbench, "hops.hop", "  HAZEL {\n    antenna DISH60-18 at ", true);
    await workbench.page.locator(".squiggly-error").first().waitFor();
    await untilVisible(workbench.page.locator(".action-widget"), () =>
      workbench.page.keyboard.press("Control+."),
    );
    await take(workbench, "quick-fix");
    await workbench.page.keyboard.press("Escape");
  });

  it("what a finding says", async () => {
    await hover(workbench);
    await take(workbench, "finding");
    await workbench.page.keyboard.press("Escape");
  });

  it("the level diagram", async () => {
    await caretAt(workbench, "hops.hop", "ALDER-BIRCH");
    const shown = await hover(workbench);
    await expect.poll(() => shown.textContent()).toMatch(/receiver input/);
    await take(workbench, "level-diagram");
    await workbench.page.keyboard.press("Escape");
  });

  it("completion", async () => {
    await caretAt(workbench, "hops.hop", '"A hop in order" {', true);
    await workbench.page.keyboard.type("\n  ");
    await workbench.page.keyboard.press("Control+Space");
    await workbench.page.locator(".suggest-widget.visible").waitFor();
    await take(workbench, "completion");
    await workbench.page.keyboard.press("Escape");
    await command(workbench, "File: Revert File");
  });

  it("the walkthrough", async () => {
    await command(workbench, "Welcome: Open Walkthrough...");
    await workbench.page.locator(".quick-input-widget input").fill("first hop");
    await workbench.page
      .locator(".quick-input-list .monaco-list-row", { hasText: "Your first hop" })
      .waitFor();
    await workbench.page.keyboard.press("Enter");
    await webview(workbench, /learning sample/i);
    await take(workbench, "walkthrough");
  });
});

describe("pictures of the network of Eskerfold", () => {
  const workbench = workbenchOf("pictures-network", "eskerfold", withSettings("eskerfold"));

  it.each([
    ["dark", "Default Dark Modern"],
    ["light", "Default Light Modern"],
    ["high-contrast", "Default High Contrast"],
    ["high-contrast-light", "Default High Contrast Light"],
  ])("its overview and a hop, %s", async (name, theme) => {
    await openFile(workbench, "ring.hop");
    setForFolder(workbench, { "workbench.colorTheme": theme });
    await caretAt(workbench, "hops/ring.hop", "// Six hills");
    await command(workbench, "Hopwright: Open report");
    await webview(workbench, "HIGHFOLD-OSTREL");
    await take(workbench, `network-${name}`);
    await caretAt(workbench, "hops/ring.hop", "hop HIGHFOLD-OSTREL");
    const page = await webview(workbench, "The two ends");
    await page.locator("text=The two ends").first().scrollIntoViewIfNeeded();
    await take(workbench, `hop-${name}`);
  });
});

async function take({ page }: Workbench, name: string): Promise<string> {
  const folder = join(hostFacts().root, "out", "screenshots");
  mkdirSync(folder, { recursive: true });
  const path = join(folder, `${name}.png`);
  // Animations and late hints have no text to wait for: the one place where time is waited for.
  await page.waitForTimeout(1500);
  await page.screenshot({ path });
  return path;
}
