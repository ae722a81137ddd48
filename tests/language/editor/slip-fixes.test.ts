/** Positions and heights as they were meant: written with the digits that stand there, and tried. */
import { describe, expect, test } from "vitest";
import { fixesOf, titles, withHop } from "./fixing.js";

const mending = (fixes: Parameters<typeof titles>[0]) =>
  fixes.filter(({ title }) => title.startsWith("Write"));

describe("a position", () => {
  const far = (position: string) =>
    withHop((hop) => `site FAR {\n  at ${position}\n}\n\n${hop}\nhop KELD-FAR {\n  KELD {}\n  FAR {}\n}\n`);

  // KELD is at 47.5 -30.5.
  test.each([
    ["47.52 30.4", "47.52 -30.4"],
    ["-47.52 -30.40", "47.52 -30.40"],
    ["-30.4 47.520", "47.520 -30.4"],
    ["30.4 47.52", "47.52 -30.4"],
    [`47°31'12.0"N 30°24'00.5"E`, `47°31'12.0"N 30°24'00.5"W`],
    [`47°31'12"S 30°24'W`, `47°31'12"N 30°24'W`],
    ["N30.4 W47.52", "N47.52 W30.4"],
    [`30°24'N 47°31'12"W`, `47°31'12"N 30°24'W`],
  ])("%s", async (written, meant) => {
    const { fixes, applied } = await fixesOf(far(written), "path-length");
    const found = mending(fixes).map((fix) => /site FAR \{\n {2}at (.*)\n/.exec(applied(fix))![1]);
    expect(found[0]).toBe(meant);
    expect(fixes.every(({ changesDecision }) => changesDecision)).toBe(true);
    // One slip, one finding: the length tells it.
    await expect(fixesOf(far(written), "position-slip")).rejects.toThrow(
      /no position-slip among .*path-length/,
    );
  });

  test("is mended at the site whose other hops tell, whichever end the finding is at", async () => {
    const text = `${far("47.52 30.4")}\nhop FAR-TARN {\n  FAR {}\n  TARN {}\n}\n`;
    const { fixes } = await fixesOf(text, "path-length");
    expect(titles(mending(fixes))).toEqual([
      "Write the position of FAR as 47.52 -30.4: the other sign of the longitude (E for W, or W for E) (changes its position)",
    ]);
  });

  test("that no slip explains is left alone", async () => {
    expect(titles(mending((await fixesOf(far("51.2 -33.9"), "path-length")).fixes))).toEqual([]);
  });
});

describe("a height in feet", () => {
  const withGround = (ground: string) =>
    withHop((hop) => hop.replaceAll("TARN", "HIGH")).replace(
      "hop KELD-HIGH",
      `site HIGH {\n  at 47.55 -30.4\n  ground ${ground}\n}\n\nhop KELD-HIGH`,
    );

  // The terrain has 200 m: 656 ft.
  test.each([
    ["656 m", "656 ft", "656 ft would be 199.9 m."],
    ["200 ft", "200 m", "200 m would be it, not feet."],
  ])("ground %s", async (written, meant, help) => {
    const { fixes, applied, finding } = await fixesOf(withGround(written), "ground-differs-from-terrain");
    expect(finding.help).toBe(help);
    expect(applied(fixes[0]!)).toContain(`ground ${meant}`);
  });

  test("ground that neither unit explains is offered from the terrain only", async () => {
    const { fixes, finding } = await fixesOf(withGround("260 m"), "ground-differs-from-terrain");
    expect(finding.help).toBeUndefined();
    expect(titles(fixes)[0]).toMatch(/^Take the ground level of HIGH from the terrain/);
  });

  test("an antenna above its structure that would hang in its upper part", async () => {
    const above = (height: string) =>
      withHop((hop) => hop.replace("antenna DISH60-18 at 40 m", `antenna DISH60-18 at ${height}`));
    // The mast has 60 m: 118.1 ft are 36 m, 196.8 ft 60 m.
    const { fixes, applied, finding } = await fixesOf(above("160 m"), "antenna-above-structure");
    expect(finding.help).toBe("160 ft would be 48.8 m.");
    expect(applied(fixes[0]!)).toContain("antenna DISH60-18 at 160 ft");
    for (const height of ["118 m", "197 m"]) {
      const other = await fixesOf(above(height), "antenna-above-structure");
      expect(other.finding.help).toBeUndefined();
      expect(titles(other.fixes)[0]).toMatch(/^Lower /);
    }
  });
});
