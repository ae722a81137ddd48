/** The page of demands, over the samples and over networks that nobody would build: it names all and tells no nonsense. */
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { judgeFolder } from "../../server/findings/judged-folder.js";
import { demandsOf, overviewOf, pageOfHop } from "../../server/report/design-pages.js";
import { demandsByHop } from "../../shared/demands/by-hop.js";
import { sortedFailures, worstFailures } from "../../shared/demands/failure-effects.js";
import type { Demand } from "../../shared/design/demand.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { demandsPage } from "../../shared/report/pages/demands-page.js";
import { carriesSection } from "../../shared/report/pages/loads.js";
import { type MadeHop, network } from "../demands/networks.js";

const site = fc.constantFrom("A", "B", "C", "D", "E");
const hops = fc.dictionary(
  fc
    .tuple(site, site)
    .filter(([a, b]) => a !== b)
    .map(([a, b]) => `${a}-${b}`),
  fc.record<MadeHop>({
    modes: fc.constantFrom(
      [{ bps: 100e6, multipath: 0.001, rain: 0.001 }],
      [{ bps: 50e6, multipath: 0, rain: 0 }, { bps: 200e6, multipath: 0.01, rain: 0.02 }, { bps: 300e6 }],
      [{ bps: 0, multipath: 0, rain: 0 }],
      [],
    ),
  }),
  { minKeys: 2, maxKeys: 8 },
);
const demand = fc.record<Omit<Demand, "name" | "accepts">>(
  {
    from: site,
    to: fc.oneof(
      site.map((name) => ({ site: name })),
      fc.constant("handover" as const),
    ),
    committedBps: fc.constantFrom(0, 10e6, 150e6, 400e6),
    availabilityPercent: fc.constantFrom(99, 99.999),
    latencyS: fc.constantFrom(1e-4, 1e-2),
    growthPercent: fc.constant(20),
    growthYears: fc.constant(10),
    clock: fc.constantFrom("one-feed", "two-feeds"),
    secondRoute: fc.record({ disjoint: fc.constantFrom("hop", "site", "structure") }),
  },
  { requiredKeys: ["committedBps"] },
);
const networks = fc
  .tuple(hops, fc.dictionary(fc.constantFrom("D1", "D2", "D3"), demand, { minKeys: 1 }))
  .map(([made, demands]) => network(made, demands, { at: { A: { handover: true } } }));

const NONSENSE = /NaN|Infinity|undefined|\[object/;

test("each failure is told once, grave or summed, and what a demand is lost by is never called a move", () => {
  fc.assert(
    fc.property(networks, (result) => {
      const { grave, ownOnly, movedOnly } = sortedFailures(result);
      expect(grave.length + ownOnly + movedOnly).toBe(result.failures.length);
      const worst = worstFailures(result);
      for (const { demand: of, singlePoints, route } of result.demands.values()) {
        const { effect } = worst.get(of.name) ?? {};
        expect(effect === "lost").toBe(singlePoints.length > 0);
        if (route === undefined) expect(effect).toBeUndefined();
      }
    }),
  );
});

test("pages of any network name every demand, and tell no nonsense", () => {
  fc.assert(
    fc.property(networks, (result) => {
      const pageOf = (kind: string, name: string) => `${kind}s/${name}`;
      const page = demandsPage({ name: "demands", result, findings: [], pageOf, colophon: "" });
      const passing = demandsByHop(result);
      const carried = [...result.hops.values()].flatMap((load) =>
        carriesSection({ load, demands: passing.get(load.hop) ?? [] }),
      );
      const all = { ...page, sections: [...page.sections, ...carried] };
      const [markdown] = printMarkdown(all);
      const { text } = printHtml(all);
      expect(text.replace(/<script>.*?<\/script>/s, "")).not.toMatch(NONSENSE);
      expect(markdown!.text).not.toMatch(NONSENSE);
      for (const name of result.demands.keys()) expect(markdown!.text).toContain(name);
      for (const { blocks } of all.sections)
        for (const block of blocks)
          if (block.type === "table")
            for (const { cells } of block.rows) expect(cells).toHaveLength(block.columns.length);
    }),
    { numRuns: 60 },
  );
});

test("Eskerfold: the overview leads to the demands, they lead to hops, and hops say what they carry", async () => {
  const today = "2026-01-01";
  const folder = join(import.meta.dirname, "../../samples/eskerfold");
  const [design] = (await judgeFolder(folder, { today })).designs;
  const options = { folder: "", today };
  expect(printHtml(overviewOf(design!, options)).text).toContain('href="demands.html"');
  const { text } = printHtml(demandsOf(design!, options)!);
  expect(text).toContain('href="hops/OSTREL-LARKHOWE.html"');
  expect(text).toContain('href="sites/GULLSCAR.html"');
  expect(text).toContain("section 2.3.7, from memory");
  expect(text).toMatch(/hop <a href="hops\/LARKHOWE-MERROW.html">/);
  const hop = printMarkdown((await pageOfHop(design!, "OSTREL-LARKHOWE", options))!)[0]!.text;
  expect(hop).toContain("## What it carries");
  expect(hop).toMatch(/Without hop LARKHOWE-GULLSCAR: [\d.]+ Mbit\/s \(\d+ %; /);
  expect(hop).toMatch(/CONTROL \*second route\*/);
});
