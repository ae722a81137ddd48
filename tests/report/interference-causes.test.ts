/** What a hop does to others stands on its page, criteria beside the figures, and who is in none of them. */
import { describe, expect, test } from "vitest";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { causedIn, openNeighbours } from "../../shared/interference/caused.js";
import { NO_FILES } from "../../shared/others/listed.js";
import { degradationDb } from "../../shared/radio/degradation.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { criteriaAt, criterionMark } from "../../shared/report/pages/interference-criteria.js";
import { fromHub } from "../../shared/rules/example-interference.js";
import { designOf } from "../equipment/designs.js";
import { exampleGround } from "../rules/example-design.js";
import { interferenceIn } from "../support/interference.js";

function pageOf(text: string, name: string) {
  const design = designOf(text);
  const results = new Map(
    [...design.hops.values()].map((hop) => [hop.name, evaluateHop(hop, exampleGround(hop))]),
  );
  const found = interferenceIn({ design, results, listed: NO_FILES, day: "2026-06-01" }, () => undefined);
  const hop = design.hops.get(name)!;
  const caused = causedIn(design.hops.keys(), found);
  const page = hopPage({
    hop,
    result: results.get(name)!,
    findings: [],
    name: "hops/A",
    colophon: "",
    interference: found.of(name),
    caused: caused.get(name),
    openNeighbours: openNeighbours(hop, design.hops.values()),
    pageOfHop: (other) => `hops/${other}`,
  });
  const markdown = printMarkdown(page)[0]!.text;
  const section = /## Interference\n(.*?)\n## /s.exec(markdown)?.[1] ?? "";
  return { design, found, caused, section };
}

describe("a hub of two hops on one channel", () => {
  const { caused, found, section } = pageOf(fromHub({ channel: 4 }), "KELD-TARN");

  test("each entry at another's receiver is caused by exactly one hop, with the same figures", () => {
    for (const hop of ["KELD-TARN", "MOSS-TARN"]) {
      const other = hop === "KELD-TARN" ? "MOSS-TARN" : "KELD-TARN";
      const felt = found.of(other).flatMap(({ entries }) => entries);
      expect(felt.length).toBeGreaterThan(0);
      expect(caused.get(hop)!.flatMap(({ entries }) => entries)).toEqual(felt);
    }
  });

  test("the page tells the receivers that it harms, with what they lose and what is usual", () => {
    const [worst] = caused
      .get("KELD-TARN")!
      .toSorted((a, b) => b.entries[0]!.inSumToNoiseDb - a.entries[0]!.inSumToNoiseDb);
    const costs = degradationDb(worst!.entries[0]!.inSumToNoiseDb).toFixed(1);
    expect(section).toContain("What it does to others");
    expect(section).toMatch(
      new RegExp(
        `\\[MOSS-TARN at ${worst!.at.receiver.place.site}\\].*\\| ${costs} dB \\|.*1\\.0 dB, usual, from memory.*more than is usual`,
      ),
    );
    expect(section).not.toMatch(/NaN|Infinity|undefined/);
  });
});

test("criteria that the network states are held against each receiver", () => {
  const at = (criteria: string) =>
    pageOf(`interference { ${criteria} }\n${fromHub({ channel: 4 })}`, "KELD-TARN").found.of("KELD-TARN")[0]!;
  const marks = (criteria: string) =>
    criteriaAt(at(criteria)).map((one) => `${one.asked}: ${JSON.stringify(criterionMark(one))}`);
  const { singleDegradationDb: single } = at("single-entry 1 dB");
  const most = (db: number) => `single-entry ${db.toFixed(3)} dB`;
  // A limit is passed by more than a hundredth's half.
  expect(marks(most(single - 0.004)).join()).toContain('"met"');
  expect(marks(most(single - 0.01)).join()).toContain('"not met"');
  expect(marks("aggregate 40 dB; short-term 0.01 % degradation 40 dB")).toHaveLength(2);
});

test("where nothing is in its reach that is said", () => {
  // Four channels of 55 MHz apart is out of reach of the filters.
  const { section } = pageOf(fromHub({ channel: 8 }), "KELD-TARN");
  expect(section).toContain(
    "No receiver of another hop, and none that a list of others names, is in its reach.",
  );
});

test("hops near it whose channel is open are named, and a hop on none says so", () => {
  const open = fromHub({ channel: 4 }).replace(/(hop MOSS-TARN[\s\S]*channel [^\n]*?) \/ 4/, "$1");
  expect(pageOf(open, "KELD-TARN").section).toMatch(/Not in these figures is a hop near .*MOSS-TARN/);
  expect(pageOf(open, "MOSS-TARN").section).toContain("The channel of MOSS-TARN is still open");
  expect(pageOf(fromHub({ channel: 4 }), "KELD-TARN").section).not.toContain("Not in these figures");
});
