import type { Frame, Locator } from "playwright-core";
import { describe, expect, it } from "vitest";
import { caretAt, command, openFile, placeOf, savedText, webview, workbenchOf } from "./workbench.js";

const CARD = "site HIGHFOLD / chassis / slot#1";
const OTHER_CARD = "site HIGHFOLD / chassis / slot";

describe("drawings beside the text", () => {
  const workbench = workbenchOf("drawings", "eskerfold");

  const box = (page: Frame, at: string): Locator =>
    page.locator(`svg.system rect[data-at="${at}"]:visible`).last();
  /** Of the box that the text and the drawing have in common now. */
  const marked = async (at: string): Promise<Locator> => {
    const page = await webview(workbench, /High Fold/);
    await expect.poll(() => box(page, at).getAttribute("class"), { timeout: 20_000 }).toMatch(/\bat-caret\b/);
    return box(page, at);
  };
  const isInView = (one: Locator) =>
    one.evaluate((element) => {
      const { innerHeight } = globalThis as unknown as { readonly innerHeight: number };
      const { top, bottom } = element.getBoundingClientRect();
      return top < innerHeight && bottom > 0;
    });
  /** Waits until the caret is on the line of the sites' file that begins with a text. */
  const caretOn = (text: string) => {
    const { line } = placeOf(savedText(workbench, "sites.hop"), text);
    return expect
      .poll(() => workbench.page.locator("#status\\.editor\\.selection").textContent(), { timeout: 20_000 })
      .toMatch(new RegExp(`^Ln ${line},`));
  };
  const bands = () => workbench.page.locator(".editor-instance .view-overlays [class*='ced-']").count();

  it("shows the face of the chassis that the caret is in, the card's box marked", async () => {
    await openFile(workbench, "sites.hop");
    await caretAt(workbench, "sites.hop", "slot 4 BREEZE");
    await command(workbench, "Hopwright: Open report");
    expect(await isInView(await marked(CARD))).toBe(true);
  });

  it("turns to the mast where the caret is at the structure", async () => {
    await openFile(workbench, "sites.hop");
    await caretAt(workbench, "sites.hop", "structure tower");
    const page = await webview(workbench, /High Fold/);
    const mast = page.locator("svg.system path.at-caret:visible");
    await mast.waitFor({ timeout: 20_000 });
    expect(await isInView(mast)).toBe(true);
  });

  it("highlights the line of the box that is pointed at, as long as it is", async () => {
    const page = await webview(workbench, /High Fold/);
    const before = await bands();
    await box(page, OTHER_CARD).hover();
    await expect.poll(bands, { timeout: 20_000 }).toBeGreaterThan(before);
    await workbench.page.mouse.move(5, 5);
    await expect.poll(bands, { timeout: 20_000 }).toBe(before);
  });

  it("goes to the line of the box that is clicked", async () => {
    const page = await webview(workbench, /High Fold/);
    await box(page, OTHER_CARD).click();
    await caretOn("slot 11 HEATH");
    await marked(OTHER_CARD);
  });

  it("is walked by keys, box by box, and Enter goes to the text", async () => {
    const page = await webview(workbench, /High Fold/);
    await box(page, CARD).focus();
    expect(await box(page, CARD).getAttribute("aria-label")).toMatch(/^4, BREEZE/);
    await page.page().keyboard.press("Shift+Tab");
    const focused = () => page.locator(":focus").getAttribute("data-at");
    expect(await focused()).toMatch(/^site HIGHFOLD \/ chassis/);
    await page.page().keyboard.press("Tab");
    expect(await focused()).toBe(CARD);
    expect(await page.locator("svg.system[role=group][aria-label]").count()).toBeGreaterThan(0);
    await page.page().keyboard.press("Enter");
    await caretOn("slot 4 BREEZE");
    await marked(CARD);
  });

  it("shows the chain of a hop, its antenna marked", async () => {
    await openFile(workbench, "ring.hop");
    await caretAt(workbench, "hops/ring.hop", "antenna DISH120-11-VH at 20 m");
    const antenna = await marked("hop HIGHFOLD-OSTREL / OSTREL / antenna");
    expect(await isInView(antenna)).toBe(true);
  });

  it("breaks no content policy", () => {
    expect(workbench.refusals).toEqual([]);
  });
});
