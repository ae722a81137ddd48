import { existsSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { caretAt, command, openFile, typeOver, untilVisible, webview, workbenchOf } from "./workbench.js";

describe("pages beside the text", () => {
  const workbench = workbenchOf("pages");

  it("opens the report of the hop at the caret", async () => {
    await openFile(workbench, "hops.hop");
    await caretAt(workbench, "hops.hop", "hop ALDER-HAZEL");
    await command(workbench, "Hopwright: Open report");
    const page = await webview(workbench, "Blocked by a ridge");
    expect(await page.locator("svg").count()).toBeGreaterThan(0);
    expect(await page.locator("body").textContent()).not.toMatch(/NaN|undefined|Infinity/);
  });

  it("follows an edit without being asked", async () => {
    const page = await webview(workbench, /blocked/);
    await openFile(workbench, "hops.hop");
    await typeOver(workbench, "hops.hop", "  HAZEL {\n    antenna DISH60-18 at ", "15 m", "36 m");
    await expect.poll(() => page.locator("body").textContent(), { timeout: 20_000 }).not.toMatch(/blocked/);
  });

  it("follows the caret to another hop, and shows the design where there is none", async () => {
    await caretAt(workbench, "hops.hop", "hop BIRCH-ROWAN");
    await webview(workbench, "Too long for its antennas");
    await openFile(workbench, "sites.hop");
    await webview(workbench, /MAPLE-WILLOW/);
  });

  it("turns to the hop whose link is followed in the overview", async () => {
    const page = await webview(workbench, /MAPLE-WILLOW/);
    await page.getByRole("link", { name: "MAPLE-WILLOW" }).first().click();
    await webview(workbench, "Trees in the zone");
    await workbench.page.locator(".tab", { hasText: "MAPLE-WILLOW" }).waitFor();
  });

  it("breaks no content policy", () => {
    expect(workbench.refusals).toEqual([]);
  });

  it("opens the walkthrough, and its steps show their pages", async () => {
    await command(workbench, "Welcome: Open Walkthrough...");
    const input = workbench.page.locator(".quick-input-widget input");
    await input.fill("first hop");
    await workbench.page
      .locator(".quick-input-list .monaco-list-row", { hasText: "Your first hop" })
      .first()
      .waitFor();
    await workbench.page.keyboard.press("Enter");
    const steps = workbench.page.locator(".getting-started-step");
    await steps.first().waitFor();
    expect(await steps.count()).toBe(5);
    await steps.filter({ hasText: "Read the level diagram" }).click();
    await webview(workbench, /The level diagram/);
  });

  it("copies the samples to a folder of the user's choice and opens the lesson there", async () => {
    const { page, folder } = workbench;
    const parent = join(folder, "..", "copied");
    mkdirSync(parent);
    const input = page.locator(".quick-input-widget input");
    const beside = page.locator(".quick-input-list .monaco-list-row", { hasText: "catalogue" });
    await untilVisible(beside, () => command(workbench, "Hopwright: Open the learning sample"));
    await input.fill(`${parent}/`);
    await beside.waitFor({ state: "detached" });
    const opened = page.context().waitForEvent("page");
    await page.locator(".quick-input-widget").getByText("Put the Samples Here").click();
    const lesson = await opened;
    await lesson
      .locator(".explorer-folders-view .monaco-list-row", { hasText: "hops.hop" })
      .waitFor({ timeout: 60_000 });
    const copy = join(parent, "hopwright-samples");
    expect(existsSync(join(copy, "learning", "hops.hop"))).toBe(true);
    expect(existsSync(join(copy, "terrain", "N47W031.hgt.gz"))).toBe(true);
  });
});
