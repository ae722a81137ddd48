import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { hostFacts } from "./host/host.js";
import { command, openFile, problems, webview, workbenchOf } from "./workbench.js";

const SOON = { timeout: 30_000 };

describe("documents and commands wherever they are", () => {
  const workbench = workbenchOf("documents", "learning", (samples) => {
    mkdirSync(join(samples, "learning", ".history"));
    writeFileSync(join(samples, "learning", ".history", "old.hop"), "site ALDER { at 47.9 -30.9 }\n");
  });
  const status = () =>
    workbench.page.locator(".statusbar-item", { hasText: /Learning|by itself|copy of|old/ });

  it("shows the report with nothing open, by the keyboard alone", async () => {
    await (await problems(workbench)).filter({ hasText: "the ray is blocked" }).first().waitFor(SOON);
    await workbench.page.keyboard.press("Control+J");
    await command(workbench, "Hopwright: Open report");
    await webview(workbench, /MAPLE-WILLOW/);
  });

  it("names the hop in every problem", async () => {
    const rows = await problems(workbench);
    await rows.filter({ hasText: "ALDER-HAZEL: the ray is blocked" }).first().waitFor(SOON);
  });

  it("opens the page of a rule rendered", async () => {
    const link = workbench.page.locator(".markers-panel a", { hasText: /^clearance$/ }).first();
    await link.click();
    const page = await webview(workbench, "The path must clear terrain and obstacles as the objective asks");
    expect(await page.locator("h1").count()).toBeGreaterThan(0);
    await workbench.page.keyboard.press("Control+J");
  });

  it("judges a document of a local history by itself, and says so", async () => {
    const explorer = workbench.page.locator(".explorer-folders-view .monaco-list-row");
    await explorer.filter({ hasText: "hops.hop" }).click();
    await workbench.page.locator('.tab.active[data-resource-name="hops.hop"]').waitFor();
    await expect.poll(() => status().first().textContent(), SOON).toMatch(/[123]/);
    const before = await status().first().textContent();
    await openFile(workbench, "old.hop");
    await expect.poll(() => status().first().textContent(), SOON).toContain("old.hop (by itself)");
    await workbench.page.locator('.tab[data-resource-name="hops.hop"]').click();
    await expect.poll(() => status().first().textContent(), SOON).toBe(before);
  });

  it("judges an unsaved document with a copy of the design", async () => {
    const { page } = workbench;
    await page.keyboard.press("Control+Alt+N");
    await page.locator('.tab.active[data-resource-name^="Untitled"]').waitFor();
    await command(workbench, "Change Language Mode");
    await page.locator(".quick-input-widget input").fill("Hopwright");
    await page.locator(".quick-input-list .monaco-list-row", { hasText: "opwright" }).first().click();
    await page.locator(".editor-instance .view-lines").last().click();
    await page.keyboard.type("site ALDER { at 47.5 -30.5 }");
    await expect.poll(() => status().first().textContent(), SOON).toContain("copy of");
    // The design has this site already.
    await expect.poll(() => status().first().textContent(), SOON).toMatch(/copy of Learning\s+1\s+0/);
    await page.screenshot({ path: join(hostFacts().out, "documents.png") });
  });

  it("breaks no content policy", () => {
    expect(workbench.refusals).toEqual([]);
  });
});
