/** Licences on the pages: what is granted beside what the design has, and the days that are left. */
import { expect, test } from "vitest";
import type { Hop } from "../../shared/design/design.js";
import type { Licence } from "../../shared/design/licence.js";
import { heldHop } from "../../shared/licence/held.js";
import { transmissionsOf } from "../../shared/licence/transmissions.js";
import { printHtml } from "../../shared/report/document/html.js";
import { printMarkdown } from "../../shared/report/document/markdown.js";
import { hopPage } from "../../shared/report/pages/hop-page.js";
import { networkLicenceSection } from "../../shared/report/pages/licences.js";
import { makeHop } from "../evaluate/builders.js";
import { judgedOnLevelGround } from "../evaluate/carrier-hops.js";

const TODAY = "2026-06-01";
const HOP = makeHop();
const { result } = judgedOnLevelGround(HOP);
const [sent] = transmissionsOf(HOP, result);
const LICENCE: Licence = {
  at: "licence",
  number: "F-1|<b>",
  hop: HOP.name,
  site: sent!.site,
  frequencyHz: sent!.frequencyHz,
  antennaHeightM: sent!.antennaHeightM! + 5,
  until: "2026-06-11",
};

function pageOf(hop: Hop, licences: readonly Licence[]) {
  const held = heldHop(hop, result, licences, TODAY);
  return hopPage({ hop, result, licences: { held, today: TODAY }, findings: [], name: "hop", colophon: "" });
}

test("the page of a hop tells each licensed figure, and what departs", () => {
  const page = pageOf(HOP, [LICENCE]);
  const text = printMarkdown(page)[0]!.text;
  expect(text).toContain("## Licences");
  expect(text).toContain("until 2026-06-11, 10 days left");
  expect(text).toMatch(/\| frequency \| (\S+ GHz) \| \1 \| held \|/);
  expect(text).toMatch(/\| height \| \S+ m \| \S+ m \| .*departs.* \|/);
  expect(text).toContain("Without a licence: TARN");
  expect(printHtml(page).text).not.toContain("F-1|<b>");
});

test("too narrow a designator departs in its own row", () => {
  const { text } = printMarkdown(pageOf(HOP, [{ ...LICENCE, emission: "27M5D7W" }]))[0]!;
  expect(text).toMatch(/\| emission \| 27M5D7W \| 55M0D7W \| .*departs.* \|/);
});

test("a hop without a licence has no such section", () => {
  const text = printMarkdown(pageOf(HOP, []))[0]!.text;
  expect(text).not.toContain("## Licences");
});

test("the overview has a row a licence, those that end first before the others", () => {
  const [held] = heldHop(HOP, result, [LICENCE], TODAY).held;
  const all = [
    { licence: { ...LICENCE, number: "C", until: undefined } },
    { licence: LICENCE, held: held! },
    { licence: { ...LICENCE, number: "A", until: "2026-05-31" } },
    { licence: { ...LICENCE, number: "B", until: "2027-06-01" } },
  ];
  const [section] = networkLicenceSection(all, TODAY);
  const [table] = section!.blocks;
  const rows = table!.type === "table" ? table!.rows.map(({ cells }) => JSON.stringify(cells)) : [];
  expect(rows.map((row) => JSON.parse(row)[0])).toEqual(["A", "F-1|<b>", "B", "C"]);
  expect(rows[0]).toContain('"ended"');
  expect(rows[1]).toContain('"10 days left","mark":"warning"');
  expect(rows[1]).toContain("height");
  expect(rows[2]).toContain("365 days left");
  expect(networkLicenceSection([], TODAY)).toEqual([]);
});
