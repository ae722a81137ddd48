/**
 * No figure ends in the rounding of a double, in whatever the editor, the pages and the findings tell of a design, and
 * what a design states is resolved to the very decimal. Designs: the samples and the examples of the rules, their
 * figures written otherwise.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { completionAt } from "../../language/editor/completion.js";
import { hoverAt } from "../../language/editor/hover.js";
import { inlayHints } from "../../language/editor/inlay-hints.js";
import { findingFixes, textFixes } from "../../language/editor/quick-fixes.js";
import { formatText } from "../../language/format/format.js";
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { explainText } from "../../server/cli/print/explain-text.js";
import { explainHop } from "../../shared/report/explain.js";
import { explainSite } from "../../shared/report/explain-site.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { RULES } from "../../shared/rules/index.js";
import { noiseIn, noiseOf } from "../support/noise.js";
import { reworded, SAMPLE_TEXTS } from "../support/reworded.js";
import { judge } from "./editor/judged.js";

const plain = (_style: unknown, text: string) => text;

/** Carets this many characters apart, from one into the text on. */
const APART = 11;

async function noiseOfDesign(texts: ReadonlyMap<string, string>, firstCaret: number): Promise<string[]> {
  const model = new DesignModel("design");
  for (const [path, text] of texts) model.setFile(readSource(path, text));
  const { results, findings } = judge(model);
  const design = model.design();
  const fixes = findings.map((finding) => {
    const hop = /^hop (.*?)( \/ |$)/.exec(finding.at)?.[1];
    // Whatever is proposed counts as a help.
    return findingFixes(
      { model, finding, judged: hop === undefined ? undefined : results(hop), before: findings },
      () => ({ findings: [] }),
    );
  });
  const hops = model.names("hop").flatMap((name) => results(name) ?? []);
  const sites = [...design.sites.keys()].map((site) =>
    noiseOf(
      [
        ...(explainText.print({
          of: { site },
          figures: explainSite(site, design) ?? [],
          paint: plain,
        }) as Iterable<string>),
      ],
      `site ${site}`,
    ),
  );
  return [
    ...sites,
    noiseOf(design, "design"),
    noiseOf(findings, "findings"),
    noiseOf(await Promise.all(fixes), "fixes"),
    ...hops.map((judged) => [
      ...noiseOf(
        [
          ...(explainText.print({
            of: { hop: judged.hop.name },
            figures: explainHop(judged.hop, judged.result, design),
            paint: plain,
          }) as Iterable<string>),
        ],
        "explain",
      ),
      ...noiseOf(
        hopPage({ ...judged, around: design, findings: [], name: "hop", colophon: "" }),
        `page of ${judged.hop.name}`,
      ),
    ]),
    ...[...model.allFiles()].map(({ path, text }) => {
      const range = { start: 0, end: text.length };
      const carets = Array.from(
        { length: Math.ceil((text.length - firstCaret) / APART) },
        (_, i) => firstCaret + i * APART,
      );
      return [
        ...noiseOf(model.problemsOf(path), path),
        ...noiseOf(textFixes(model, path, range), `fixes of ${path}`),
        ...noiseOf(inlayHints(model, path, range, results), `hints of ${path}`),
        ...noiseOf(formatText(text), `layout of ${path}`),
        ...carets.flatMap((at) => [
          ...noiseOf(hoverAt(model, path, at, results), `hover in ${path}`),
          ...noiseOf(completionAt(model, path, at), `completion in ${path}`),
        ]),
      ];
    }),
  ].flat();
}

describe("no figure ends in the rounding of a double", () => {
  test("in what is told of the samples", async () => {
    await fc.assert(
      fc.asyncProperty(fc.nat(), fc.nat({ max: APART - 1 }), async (seed, caret) => {
        const texts = new Map(
          [...SAMPLE_TEXTS]
            .filter(([path]) => !path.startsWith("learning/"))
            .map(([path, text]) => [path, reworded(text, seed + path.length)]),
        );
        expect(await noiseOfDesign(texts, caret)).toEqual([]);
      }),
      { numRuns: 3 },
    );
  }, 300_000);

  test("in what is told of the examples of every rule", async () => {
    await fc.assert(
      fc.asyncProperty(fc.nat(), fc.nat({ max: APART - 1 }), async (seed, caret) => {
        for (const { id, good, bad } of RULES.values()) {
          for (const example of [good, bad]) {
            const text = reworded(`${EXAMPLE_PREAMBLE}\n${example}`, seed);
            expect(
              await noiseOfDesign(new Map([["x.hop", text]]), EXAMPLE_PREAMBLE.length + caret),
              id,
            ).toEqual([]);
          }
        }
      }),
      { numRuns: 2 },
    );
  }, 300_000);

  test("and such a figure would be seen", () => {
    const noisy = [
      "55.00000000000001",
      "0.30000000000000004",
      "24.999999999999996",
      "7.699999999999999",
      "1.0000000000000002e-7",
    ];
    for (const figure of noisy) expect(noiseIn(`takes ${figure} dB`), figure).toHaveLength(1);
    const fair = [
      "55",
      "0.3",
      "0.0000001",
      "99.9999999 %",
      "47.453444444444446",
      "18.7000001 GHz",
      "0.1000000000 m",
    ];
    for (const figure of fair) expect(noiseIn(`takes ${figure}`), figure).toEqual([]);
    expect(noiseOf({ a: [{ b: 0.1 + 0.2 }], c: new Map([["d", "0.57 m"]]) })).toEqual([
      ".a.0.b: 0.30000000000000004",
    ]);
  });
});
