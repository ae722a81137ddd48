/** `hopwright new`: what it begins is sound, says only what lacks, and follows the property table. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { beginDesign } from "../../language/begin/begin-design.js";
import { formatText } from "../../language/format/format.js";
import { readSource } from "../../language/model/source-file.js";
import { newDesign } from "../../server/cli/commands/new.js";
import { judgeFolder } from "../../server/findings/judged-folder.js";

const folder = mkdtempSync(join(tmpdir(), "hopwright-new-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const TODAY = "2026-11-01";
const begun = beginDesign({ title: 'A "B"', climate: new Map() });

/** The comments that are lines to follow, taken as lines. */
const followed = (text: string) => text.replace(/^\/\/ (?=(site|hop|radio|antenna) [A-Z]|[}] *$| {2})/gm, "");

test.each(begun)(
  "$path stands in the one layout, and so does what its comments propose",
  ({ path, text }) => {
    for (const state of [text, followed(text)]) {
      const formatted = formatText(state);
      expect(formatted.ok && formatted.text).toBe(state);
      expect(readSource(path, state).problems).toEqual([]);
    }
    expect(followed(text) !== text).toBe(path !== "network.hop");
  },
);

test("a design that was begun has nothing to find; with its first site and hop it says what lacks", async () => {
  const dir = join(folder, "begun");
  expect(await newDesign(dir, { rain: "30", logk: "-4.2" })).toBe(0);
  const [design] = (await judgeFolder(dir, { today: TODAY })).designs;
  expect(design?.findings).toEqual([]);
  for (const { path } of begun) {
    const file = join(dir, path);
    writeFileSync(file, followed(readFileSync(file, "utf8")));
  }
  const [filled] = (await judgeFolder(dir, { today: TODAY })).designs;
  const errors = filled!.findings.filter(({ severity }) => severity !== "info");
  expect(errors.map(({ rule, message }) => [rule, message])).toEqual([
    ["not-judged", expect.stringContaining("the network names no terrain")],
  ]);
});

test("figures have their unit, what cannot be is refused, and nothing that is there is replaced", async () => {
  const dir = join(folder, "figures");
  await newDesign(dir, { rain: "34 mm/h", dn75: "12", k: "4/3", title: "Skerry" });
  const text = readFileSync(join(dir, "network.hop"), "utf8");
  for (const line of ["rain 34 mm/h", "dN75 12 N-units", "k 4/3"]) expect(text).toContain(`    ${line}\n`);
  await expect(newDesign(dir, {})).rejects.toThrow(/stands there already/);
  await expect(newDesign(join(folder, "other"), { rain: "3000" })).rejects.toThrow(
    /--rain 3000: .*300 mm\/h/,
  );
  await expect(newDesign(join(folder, "other"), { terrain: "nowhere" })).rejects.toThrow(/no such file/);
});
