import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { hostFacts } from "./host/host.js";
import {
  caretAt,
  command,
  openFile,
  problems,
  save,
  savedText,
  typeOver,
  webview,
  workbenchOf,
} from "./workbench.js";

const HAZEL_HEIGHT = "  HAZEL {\n    antenna DISH60-18 at ";
const SOON = { timeout: 25_000 };

describe("what changed since a revision", () => {
  const workbench = workbenchOf("compare", "learning", (samples) => {
    git(samples, "init", "-q", "-b", "main");
    git(samples, "add", "-A");
    git(samples, "commit", "-q", "-m", "As handed out");
  });
  const tab = (file: string) => workbench.page.locator(`.tab[data-resource-name="${file}"]`);
  const lenses = () => workbench.page.locator(".editor-instance .codelens-decoration a");
  const told = async () => (await lenses().allInnerTexts()).map((text) => text.replaceAll("\u00a0", " "));
  /** Shapes drawn beside the lines of the text. */
  const marks = () =>
    workbench.page.locator(".editor-instance .margin .cgmr").evaluateAll((elements) =>
      elements
        .map((element) => element.ownerDocument.defaultView!.getComputedStyle(element).backgroundImage)
        .filter((image) => image.includes("data:image/svg+xml"))
        .map((image) => atob(/base64,([^"')]*)/.exec(image)![1]!)),
    );

  it("is nothing at first, and the page says so", async () => {
    await (await problems(workbench)).filter({ hasText: "the ray is blocked" }).waitFor({ timeout: 50_000 });
    await workbench.page.keyboard.press("Control+J");
    await openFile(workbench, "hops.hop");
    await command(workbench, "Hopwright: Compare with revision");
    // The branch and the commit are there to be picked.
    const rows = workbench.page.locator(".quick-input-list .monaco-list-row");
    await rows.filter({ hasText: "main" }).waitFor();
    await rows.filter({ hasText: "As handed out" }).waitFor();
    await rows.filter({ hasText: "HEAD" }).click();
    await webview(workbench, "No decision, no figure and no finding differs");
    expect(await told()).toEqual([]);
    expect(await marks()).toEqual([]);
  });

  it("follows an edit that is not saved: page, line above the hop, mark beside it", async () => {
    await openFile(workbench, "hops.hop");
    await typeOver(workbench, "hops.hop", HAZEL_HEIGHT, "15", "36");
    const page = await webview(workbench, /ALDER-HAZEL: .*1 finding fixed/);
    const text = (await page.locator("body").allInnerTexts()).join("\n").replaceAll("\u00a0", " ");
    expect(text).toMatch(/HAZEL: antenna\s+antenna DISH60-18 at 15 m\s+antenna DISH60-18 at 36 m/);
    expect(text).toMatch(/fixed .*the ray is blocked by 2\.3 m/);
    expect(text).toContain("amend");
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
    // Both profiles over each other.
    expect(await page.locator("figure svg .was").count()).toBeGreaterThan(0);
    await expect
      .poll(told, SOON)
      .toEqual([expect.stringMatching(/^changed since HEAD: (margin \+|clearance \+).*1 finding fixed$/)]);
    // A hop that got better has a triangle that points up.
    await expect.poll(marks, SOON).toEqual([expect.stringContaining("M3 11h10l-5-7z")]);
  });

  it("tells a hop that nobody edited too, once what it rests on changes", async () => {
    await openFile(workbench, "network.hop");
    await typeOver(workbench, "network.hop", "    rain ", "30", "60");
    await save(workbench, "network.hop", "rain 60 mm/h");
    await webview(workbench, /Nobody edited it; it changed because of: climate|Because of/);
    await tab("hops.hop").click();
    await caretAt(workbench, "hops.hop", "hop BIRCH-ROWAN");
    await expect
      .poll(told, SOON)
      .toContainEqual(
        expect.stringMatching(/^changed without an edit since HEAD: availability \+.* out a year/),
      );
    // Worse: a triangle that points down.
    await expect.poll(marks, SOON).toContainEqual(expect.stringContaining("M3 5h10l-5 7z"));
    await workbench.page.screenshot({ path: join(hostFacts().out, "compare.png") });
  });

  it("follows back", async () => {
    await tab("network.hop").click();
    await typeOver(workbench, "network.hop", "    rain ", "60", "30");
    await save(workbench, "network.hop", "rain 30 mm/h");
    await tab("hops.hop").click();
    await expect.poll(told, SOON).toHaveLength(1);
  });

  it("says what is wrong with a revision that does not exist", async () => {
    await command(workbench, "Hopwright: Compare with revision");
    await workbench.page.locator(".quick-input-widget input").fill("mian");
    await workbench.page.keyboard.press("Enter");
    const complaint = workbench.page.locator(".notifications-toasts .notification-list-item", {
      hasText: "mian: there is no such revision",
    });
    await complaint.waitFor();
    await complaint.hover();
    await complaint.locator(".codicon-notifications-clear").click();
    await complaint.waitFor({ state: "detached" });
    // What was shown stays.
    expect(await told()).toHaveLength(1);
  });

  it("takes lines and marks away with its page", async () => {
    const page = workbench.page.locator(".tab", { hasText: "Since HEAD" });
    await page.hover();
    await page.locator(".tab-actions .action-label").first().click();
    await expect.poll(told, SOON).toEqual([]);
    await expect.poll(marks, SOON).toEqual([]);
    expect(savedText(workbench, "hops.hop")).toContain(`${HAZEL_HEIGHT}15 m`);
  });

  it("breaks no content policy", () => {
    expect(workbench.refusals).toEqual([]);
  });
});

function git(folder: string, ...args: string[]): void {
  const identity = ["-c", "user.name=Author", "-c", "user.email=author@example.org"];
  execFileSync("git", [...identity, ...args], { cwd: folder, stdio: ["ignore", "ignore", "inherit"] });
}
