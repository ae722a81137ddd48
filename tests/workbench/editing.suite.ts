import { describe, expect, it } from "vitest";
import {
  caretAt,
  command,
  hover,
  openFile,
  save,
  savedText,
  setForFolder,
  shownLines,
  typeOver,
  withSettings,
  workbenchOf,
} from "./workbench.js";

describe("reading and editing a file", () => {
  const workbench = workbenchOf("editing", "learning", withSettings("learning"));
  const suggestions = () => workbench.page.locator(".suggest-widget.visible .monaco-list-row .label-name");

  it("shows results at the end of the lines they depend on", async () => {
    await openFile(workbench, "hops.hop");
    await caretAt(workbench, "hops.hop", "hop ALDER-BIRCH");
    const line = async () => (await shownLines(workbench)).find((text) => text.includes("ALDER-BIRCH")) ?? "";
    await expect.poll(line, { timeout: 20_000 }).toMatch(/\d km/);
  });

  it("hides them when the settings say so, and shows them again", async () => {
    const shown = async () => (await shownLines(workbench)).some((text) => /ALDER-BIRCH.*\d km/.test(text));
    setForFolder(workbench, { "hopwright.inlayHints.enabled": false });
    await expect.poll(shown, { timeout: 20_000 }).toBe(false);
    setForFolder(workbench, {});
    await expect.poll(shown, { timeout: 20_000 }).toBe(true);
  });

  it("shows the level diagram of a hop when pointed at", async () => {
    await caretAt(workbench, "hops.hop", "ALDER-BIRCH");
    const shown = await hover(workbench);
    await expect
      .poll(() => shown.textContent(), { timeout: 10_000 })
      .toMatch(/transmitter output[\s\S]*receiver input/);
    expect(await shown.locator("table").count()).toBeGreaterThan(0);
    const text = (await shown.textContent()) ?? "";
    expect(text).toContain("dBm");
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
    await workbench.page.keyboard.press("Escape");
  });

  it("colours names by what they stand for", async () => {
    const colourOf = async (text: RegExp) => {
      const span = workbench.page.locator(".view-line span span", { hasText: text }).first();
      return span.evaluate((element) => element.ownerDocument.defaultView?.getComputedStyle(element).color);
    };
    const colours = async () =>
      new Set([await colourOf(/^radio$/), await colourOf(/^R15$/), await colourOf(/^15\.?|^56$/)]);
    await expect.poll(async () => (await colours()).size).toBe(3);
  });

  it("offers the properties that a block still lacks", async () => {
    await caretAt(workbench, "hops.hop", '"A hop in order" {', true);
    await workbench.page.keyboard.type("\n  ");
    await workbench.page.keyboard.press("Control+Space");
    await expect.poll(() => suggestions().allInnerTexts(), { timeout: 10_000 }).toContain("pair");
    await workbench.page.keyboard.press("Escape");
  });

  it("offers the names of the catalogue where one is due, and takes the one chosen", async () => {
    await workbench.page.keyboard.type("radio R1");
    await workbench.page.keyboard.press("Control+Space");
    await expect.poll(() => suggestions().allInnerTexts(), { timeout: 10_000 }).toContain("R13");
    await workbench.page.keyboard.type("3");
    await workbench.page
      .locator(".suggest-widget.visible .monaco-list-row.focused", { hasText: "R13" })
      .waitFor();
    await workbench.page.keyboard.press("Enter");
    await expect
      .poll(async () => (await shownLines(workbench)).some((text) => /^ *radio R13 *$/.test(text)))
      .toBe(true);
    await workbench.page.keyboard.press("Control+Shift+K");
  });

  it("formats to the one canonical layout", async () => {
    const before = savedText(workbench, "hops.hop");
    await save(workbench, "hops.hop", before);
    await typeOver(workbench, "hops.hop", "  radio R15\n", "  modes", "        modes");
    await save(workbench, "hops.hop", /^ {8}modes 56 MHz QPSK to 256QAM$/m);
    await command(workbench, "Format Document");
    await expect
      .poll(async () => (await shownLines(workbench)).some((text) => /^ {8}modes/.test(text)))
      .toBe(false);
    await save(workbench, "hops.hop", before);
    expect(savedText(workbench, "hops.hop")).toBe(before);
  });
});
