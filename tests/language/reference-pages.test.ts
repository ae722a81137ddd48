/** The reference can be found one's way in: headings are told apart, links lead somewhere, and it reads as English. */
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { generatedFiles } from "../../server/docs/files.js";
import { ARRANGEMENTS } from "../../shared/radio/arrangements.js";
import { channelFrequencies } from "../../shared/spectrum/channel-plan.js";
import { CHANNEL_PLANS } from "../../shared/spectrum/channel-plans.data.js";
import { standingText } from "../../shared/spectrum/standing.js";

const ROOT = join(import.meta.dirname, "../..");
const FILES = generatedFiles();
const pages = [...FILES].filter(([path]) => path.endsWith(".md"));
const page = (name: string) => FILES.get(`language/reference/${name}`)!;

/** As GitHub makes anchors of headings: lower case, blanks to dashes, other signs dropped. */
function anchorsOf(text: string): string[] {
  return [...text.replace(/```[\s\S]*?```/g, "").matchAll(/^#+ (.*)$/gm)].map(([, heading]) =>
    heading!
      .toLowerCase()
      .replace(/[^a-z0-9 _-]/g, "")
      .replaceAll(" ", "-"),
  );
}

describe.each(pages)("%s", (path, text) => {
  it("has no heading twice", () => {
    const anchors = anchorsOf(text);
    expect(anchors.filter((one, index) => anchors.indexOf(one) !== index)).toEqual([]);
  });

  it("has links that lead somewhere", () => {
    for (const [, target] of text.matchAll(/\]\(([^)\s]+)\)/g)) {
      if (/^https?:/.test(target!)) continue;
      const [file, anchor] = target!.split("#") as [string, string?];
      const at = file === "" ? path : join(dirname(path), file);
      const aimed = FILES.get(at) ?? (existsSync(join(ROOT, at)) ? readFileSync(join(ROOT, at), "utf8") : "");
      expect(aimed, target).not.toBe("");
      if (anchor !== undefined) expect(anchorsOf(aimed), target).toContain(anchor);
    }
  });

  it("says an before a vowel", () => {
    expect(text.match(/\ba [aeio][a-z]+/g) ?? []).toEqual([]);
  });
});

it("a reader finds every property from the contents", () => {
  const text = page("properties.md");
  const contents = text.slice(text.indexOf("## Contents"), text.indexOf("## At the left margin"));
  const sections = text.match(/^### .*$/gm)!;
  expect(contents.match(/\]\(#/g)).toHaveLength(sections.length + text.match(/^## /gm)!.length - 1);
});

it("every arrangement has a row of its own", () => {
  const text = page("properties.md");
  for (const { name } of ARRANGEMENTS) expect(text).toContain(`\n| \`${name}\` | `);
});

it("the channels of every plan stand in its section with the frequencies that a hop gets", () => {
  const text = page("channel-plans.md");
  for (const { id, rows } of CHANNEL_PLANS) {
    const section = text.slice(text.indexOf(`## ${id}\n`)).split("\n## ")[0]!;
    for (const row of rows) {
      const { widthMHz, first, last } = row;
      const ends = [first, last].map((n) => channelFrequencies(id, widthMHz * 1e6, n));
      const line = section
        .split("\n")
        .find((one) => one.startsWith(`| ${widthMHz} |`) && one.includes(`| ${standingText(row)}`));
      for (const end of ends) {
        if ("what" in end) continue;
        expect(line, id).toContain(String(Math.round(end.lowHz / 1e3) / 1e3));
        expect(line, id).toContain(String(Math.round(end.highHz / 1e3) / 1e3));
      }
    }
  }
});
