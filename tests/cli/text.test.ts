/** What `check` prints for a terminal: the gravest first, milder findings left out on demand, lines of its width. */
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import type { Checked } from "../../server/cli/print/format.js";
import { checkText } from "../../server/cli/print/text.js";
import { plain } from "../../server/cli/streams.js";
import { judgeFolder } from "../../server/findings/judged-folder.js";

const SAMPLES = fileURLToPath(new URL("../../samples", import.meta.url));
const judged = await judgeFolder(`${SAMPLES}/learning`, { today: "2026-01-01" });
const text = (options: { show?: Checked["show"]; columns?: number } = {}) => {
  const pieces = checkText.print({
    judged,
    paint: plain,
    cwd: SAMPLES,
    show: "info",
    counts: ({ severity }) => severity === "error",
    ...options,
  });
  return [...(pieces as Iterable<string>)].join("");
};
const severities = (printed: string) => [...printed.matchAll(/^(error|warning|info)\[/gm)].map((m) => m[1]!);

test("errors come first, infos last, each in the order of the text", () => {
  const found = severities(text({ show: "remarks" }));
  const rank = ["error", "warning", "info"];
  expect(found).toContain("error");
  expect(found).toContain("info");
  expect(found).toEqual(found.toSorted((a, b) => rank.indexOf(a) - rank.indexOf(b)));
  const places = [...text().matchAll(/^error.*\n +\S+hops\.hop:(\d+)/gm)].map((m) => Number(m[1]));
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});

test("infos that are not shown are counted", () => {
  const shown = text({ show: "error" });
  expect(new Set(severities(shown))).toEqual(new Set(["error"]));
  expect(shown).toMatch(/\d+ infos?.*; 4 hops judged; \d+ not shown\n$/);
  expect(text()).not.toContain("not shown");
});

test("on a terminal sentences break at its width, and lose nothing", () => {
  const whole = text();
  const narrow = text({ columns: 60 });
  const joined = (printed: string) => printed.replace(/\s+/g, " ");
  expect(joined(narrow)).toBe(joined(whole));
  const sentences = narrow.split("\n").filter((line) => /^(\w+\[| {2}help)/.test(line));
  expect(sentences.length).toBeGreaterThan(3);
  for (const line of sentences) expect(line.length).toBeLessThanOrEqual(60);
  expect(whole.split("\n").some((line) => /^(error|warning)\[/.test(line) && line.length > 60)).toBe(true);
});
