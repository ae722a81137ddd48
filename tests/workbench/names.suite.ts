import { describe, expect, it } from "vitest";
import { caretAt, command, openFile, problems, savedText, untilVisible, workbenchOf } from "./workbench.js";

describe("names across files", () => {
  const workbench = workbenchOf("names");

  it("goes from an end of a hop to the site it names", async () => {
    await openFile(workbench, "hops.hop");
    const sites = workbench.page.locator('.tab.active[data-resource-name="sites.hop"]');
    await untilVisible(sites, async () => {
      await caretAt(workbench, "hops.hop", "  ALDER {");
      for (const key of ["ArrowRight", "ArrowRight", "ArrowRight", "F12"])
        await workbench.page.keyboard.press(key);
    });
  });

  it("renames a site in every file that names it", async () => {
    await openFile(workbench, "sites.hop");
    await caretAt(workbench, "sites.hop", "ALDER");
    await workbench.page.keyboard.press("F2");
    const box = workbench.page.locator(".rename-box input, input.rename-input").first();
    await box.waitFor();
    await box.fill("ELDER-2");
    await workbench.page.keyboard.press("Enter");
    await box.waitFor({ state: "hidden" });
    // Hops that carry the name may be renamed along: that is asked.
    await workbench.page.locator(".monaco-list-row", { hasText: "ELDER-2-HAZEL" }).waitFor();
    await workbench.page.getByRole("button", { name: "Apply" }).click();
    await workbench.page.locator(".view-line", { hasText: "ELDER-2" }).first().waitFor();
    await command(workbench, "File: Save All Files");

    await expect
      .poll(() => savedText(workbench, "sites.hop"), { timeout: 10_000 })
      .toMatch(/^site ELDER-2 "Alder knoll" \{$/m);
    await expect
      .poll(() => savedText(workbench, "hops.hop"), { timeout: 10_000 })
      .toMatch(/^ {2}ELDER-2 \{$/m);
    expect(savedText(workbench, "hops.hop")).not.toMatch(/^ {2}ALDER \{$/m);
  });

  it("leaves no finding behind that was not there before", async () => {
    const rows = await problems(workbench);
    await rows.filter({ hasText: "the ray is blocked" }).waitFor();
    expect(await rows.filter({ hasText: /ALDER\b(?!-)/ }).count()).toBe(0);
  });
});
