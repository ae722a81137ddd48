import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { hostFacts } from "./host/host.js";
import { caretAt, command, openFile, problems, savedText, typeOver, workbenchOf } from "./workbench.js";

/** Part of the finding that the sample makes on purpose: a ridge stands between ALDER and HAZEL. */
const BLOCKED = "the ray is blocked";
const HAZEL_HEIGHT = "  HAZEL {\n    antenna DISH60-18 at ";

describe("findings while typing", () => {
  const workbench = workbenchOf("findings");

  it("lists what is wrong in the design before any file is opened", async () => {
    const rows = await problems(workbench);
    await rows.filter({ hasText: BLOCKED }).waitFor();
    await rows.filter({ hasText: "rain takes" }).waitFor();
  });

  it("finds word for word what the walkthrough quotes", async () => {
    const walkthrough = readFileSync(
      join(hostFacts().root, "extension", "walkthrough", "finding.md"),
      "utf8",
    );
    const quoted = /^> (.*)$/m.exec(walkthrough)![1]!;
    await (await problems(workbench)).filter({ hasText: quoted }).waitFor();
  });

  it("says in the status bar which design it is and how many errors it has", async () => {
    const item = workbench.page.locator('.statusbar-item[id*="hopwright.status"]');
    await expect.poll(() => item.textContent(), { timeout: 20_000 }).toMatch(/Learning\s+3\s+\d/);
  });

  it("takes a clearance finding away when the antenna is raised, and brings it back when it is lowered", async () => {
    await openFile(workbench, "hops.hop");
    const saved = savedText(workbench, "hops.hop");
    const rows = (await problems(workbench)).filter({ hasText: BLOCKED });

    await openFile(workbench, "hops.hop");
    await caretAt(workbench, "hops.hop", HAZEL_HEIGHT);
    await workbench.page.locator(".squiggly-error").first().waitFor();
    await typeOver(workbench, "hops.hop", HAZEL_HEIGHT, "15 m", "36 m");
    await rows.waitFor({ state: "detached" });

    await typeOver(workbench, "hops.hop", HAZEL_HEIGHT, "36 m", "15 m");
    await rows.waitFor();
    expect(savedText(workbench, "hops.hop")).toBe(saved);
  });

  it("offers a change that was tried, and the finding is gone once it is taken", async () => {
    const rows = (await problems(workbench)).filter({ hasText: BLOCKED });
    await rows.waitFor();
    await openFile(workbench, "hops.hop");
    await caretAt(workbench, "hops.hop", HAZEL_HEIGHT, true);
    await workbench.page.keyboard.press("Control+.");
    const fix = workbench.page
      .locator(".action-widget")
      .getByText(/HAZEL.*\d m/)
      .first();
    await fix.click();
    await rows.waitFor({ state: "detached" });
    await workbench.page.keyboard.press("Control+Z");
    await rows.waitFor();
  });

  it("judges the whole design on command and brings the Problems panel forward", async () => {
    await workbench.page.keyboard.press("Control+J");
    await workbench.page.locator(".markers-panel").waitFor({ state: "hidden" });
    await openFile(workbench, "hops.hop");
    await command(workbench, "Hopwright: Check design");
    await workbench.page.locator(".markers-panel .monaco-list-row", { hasText: BLOCKED }).waitFor();
  });

  it("has the same findings after the server was restarted", async () => {
    const rows = (await problems(workbench)).filter({ hasText: BLOCKED });
    await openFile(workbench, "hops.hop");
    const restarted = rows.waitFor({ state: "detached" });
    await command(workbench, "Hopwright: Restart server");
    // What the editor asks meanwhile, of the word at the caret for one, is no failure to tell.
    for (let moves = 0; moves < 40; moves++) await workbench.page.keyboard.press("ArrowRight");
    await restarted;
    await rows.waitFor();
  });
});
