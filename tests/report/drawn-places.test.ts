/** What the drawings of the samples say of where they are stated is there in the text. */
import { join } from "node:path";
import { expect, test } from "vitest";
import { addressAt } from "../../language/model/address-at.js";
import { locate } from "../../language/model/locate.js";
import { judgeFolder } from "../../server/findings/judged-folder.js";
import { overviewOf, pageOfHop, pagesOfSites } from "../../server/report/design-pages.js";
import type { Page } from "../../shared/report/document/document.js";
import { printHtml } from "../../shared/report/document/html.js";

const TODAY = "2026-01-01";

test.for(["eskerfold", "learning"])("%s: every address of a drawing is that of its place", async (sample) => {
  const folder = join(import.meta.dirname, "../../samples", sample);
  const [design] = (await judgeFolder(folder, { today: TODAY })).designs;
  const { model } = design!;
  const options = { folder: "", today: TODAY };
  const pages: Page[] = [overviewOf(design!, options), ...pagesOfSites(design!, options)];
  for (const name of model.names("hop")) pages.push((await pageOfHop(design!, name, options))!);
  const files = new Map([...model.allFiles()].map((file) => [file.path, file]));
  const drawn = new Set<string>();
  for (const page of pages) {
    const { text } = printHtml(page);
    const found = [...text.matchAll(/ data-at="([^"]*)"/g)].map(([, at]) => at!);
    if (text.includes('class="system')) expect(found, page.name).not.toEqual([]);
    for (const at of found) drawn.add(at);
  }
  for (const at of drawn) {
    const place = locate(at, model);
    const file = files.get(place?.file ?? "");
    expect(file && addressAt(file, place!.start), at).toBe(at);
  }
  for (const kind of ["hop", "site"] as const)
    for (const name of model.names(kind)) expect(drawn).toContain(`${kind} ${name}`);
});
