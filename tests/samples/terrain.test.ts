import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { SIZE, TILE_FILE, tileBytes, tileHeightsM } from "../../samples/terrain/generate.js";

const heights = tileHeightsM();
const committed = readFileSync(new URL(`../../samples/terrain/${TILE_FILE}`, import.meta.url));

describe("sample terrain", () => {
  test("generating it again gives the committed bytes", () => {
    // Digests, because a difference of megabytes makes no message.
    expect(digest(tileBytes(heights))).toBe(digest(committed));
  });

  test("is an island: sea all round, hills of some hundred metres, a flat lake", () => {
    const edge = Array.from({ length: SIZE }, (_, i) => [
      heights[i],
      heights[(SIZE - 1) * SIZE + i],
      heights[i * SIZE],
      heights[i * SIZE + SIZE - 1],
    ]).flat();
    expect(edge.every((height) => height === 0)).toBe(true);
    expect(heights.reduce((a, b) => Math.max(a, b))).toBeGreaterThan(500);
    expect(heights.reduce((a, b) => Math.min(a, b))).toBe(0);
    expect(heights.filter((height) => height === 74).length).toBeGreaterThan(5_000);
  });

  test("has the ground of the position that the snippet of a site begins with", () => {
    const { site } = JSON.parse(
      readFileSync(new URL("../../extension/snippets/hop.json", import.meta.url), "utf8"),
    );
    const [, latitude, longitude] = /at \$\{3:([\d.]+)\} \$\{4:-([\d.]+)\}/.exec(site.body.join("\n"))!;
    // The tile's south-western corner is 47 N 31 W; rows run from north to south.
    const row = Math.round((48 - Number(latitude)) * (SIZE - 1));
    const column = Math.round((31 - Number(longitude)) * (SIZE - 1));
    expect(heights[row * SIZE + column]).toBeGreaterThan(10);
  });

  test("stays small", () => {
    expect(committed.length).toBeLessThan(1_000_000);
  });
});

const digest = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");
