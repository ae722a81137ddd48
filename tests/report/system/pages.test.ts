/** Pages of hops and of sites tell the same of one port, and a page without a position or equipment tells what there is. */
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { judgeFolder } from "../../../server/findings/judged-folder.js";
import { pageOfHop, pagesOfSites } from "../../../server/report/design-pages.js";
import { sitePlans } from "../../../shared/equipment/site-plan.js";
import type { Figure, Page } from "../../../shared/report/document/document.js";
import { printHtml } from "../../../shared/report/document/html.js";
import { hopPage } from "../../../shared/report/pages/hop-page.js";
import { sitePage } from "../../../shared/report/pages/site-page.js";
import { CATALOGUE } from "../../equipment/arrangement-cases.js";
import { designOf } from "../../equipment/designs.js";
import { chainsIn } from "./chains.js";
import { LONG, MARKUP, renamed } from "./hostile.js";

const ESKERFOLD = fileURLToPath(new URL("../../../samples/eskerfold", import.meta.url));
const OPTIONS = { folder: "", today: "2026-11-01" };

function figuresOf({ sections }: Page): Figure[] {
  return sections.flatMap(({ blocks }) =>
    blocks.flatMap((block) => (block.type === "figure" ? [block] : [])),
  );
}

const wordsOf = (svg: string) =>
  [...svg.matchAll(/<text[^>]*>(?:<title>[^<]*<\/title>)?([^<]*)</g)].map((found) => found[1]!);

test("a unit has the same card and port on the page of its hop and on the face of its site", async () => {
  const [design] = (await judgeFolder(ESKERFOLD, OPTIONS)).designs;
  let compared = 0;
  for (const page of pagesOfSites(design!, OPTIONS)) {
    for (const { svg, name } of figuresOf(page)) {
      if (!name.startsWith("face-")) continue;
      for (const [, port, hop] of wordsOf(svg).flatMap((words) => [
        ...words.matchAll(/^(\d+) IF: ([A-Z-]+)/g),
      ])) {
        const chain = figuresOf((await pageOfHop(design!, hop!, OPTIONS))!).find(
          (one) => one.name === "chain",
        )!;
        expect(wordsOf(chain.svg), `${page.title}: ${hop}`).toContain(`port ${port}`);
        compared++;
      }
    }
  }
  expect(compared).toBeGreaterThan(5);
});

const THIN = `${CATALOGUE}
site MOSS {
  chassis HEDGE {
  }
}
site BARE {
}
hop MOSS-BARE {
  MOSS { }
  BARE { antenna DISH60-18-VH at 30 m }
}
chassis HEDGE { slot 1 to 3 traffic }`;

test.each([undefined, LONG, MARKUP])("a design of which most lacks has its pages: named %s", (name) => {
  const stated = designOf(THIN);
  const design =
    name === undefined ? stated : renamed(stated, { MOSS: name, HEDGE: name, "DISH60-18-VH": name });
  const plans = sitePlans(design);
  const results = new Map(chainsIn(design).map(({ result }) => [result.hop, result]));
  for (const plan of plans.values()) {
    const page = sitePage({
      plan,
      design,
      results,
      findings: [],
      pageOf: (kind) => (kind === "site" ? "sites/OTHER" : undefined),
      name: "sites/X",
      colophon: "",
    });
    const { text } = printHtml(page);
    expect(text).not.toMatch(/<script|NaN|Infinity|undefined|\[object/);
    expect(text).toContain('href="OTHER.html"');
    expect(page.sections.map(({ id }) => id)).toEqual(
      plan.equipment
        ? ["structure", "rack", "ports", "earth", "parts"]
        : ["structure", "ports", "earth", "parts"],
    );
  }
  for (const { hop, result, chain } of chainsIn(design)) {
    expect(chain.lacks).toEqual(["radio", "level"]);
    const page = hopPage({ hop, result, around: design, findings: [], name: "hops/X", colophon: "" });
    const drawn = figuresOf(page).find((one) => one.name === "chain")!;
    expect(drawn.caption).toContain("Not known: the radio, levels of both directions");
    expect(printHtml(page).text).not.toMatch(/<script|NaN|Infinity|undefined|\[object/);
  }
});
