/** The way back from a place in the text to its address. */
import { expect, test } from "vitest";
import { addressAt } from "../../language/model/address-at.js";
import { DesignModel } from "../../language/model/design-model.js";
import { locate } from "../../language/model/locate.js";
import { readSource } from "../../language/model/source-file.js";
import { SAMPLE_TEXTS } from "../support/reworded.js";

test("what is located there has the address of its place", () => {
  for (const [path, text] of SAMPLE_TEXTS) {
    const model = new DesignModel("design");
    const file = readSource(path, text);
    model.setFile(file);
    for (let at = 0; at < text.length; at += 7) {
      const address = addressAt(file, at);
      if (address === undefined) continue;
      const place = locate(address, model);
      expect(place && addressAt(file, place.start), address).toBe(address);
    }
  }
});

test("of several declarations without a name each has its own", () => {
  const file = readSource("a.hop", 'sheets A {\n  foot "a"\n}\nsheets B {\n  foot "b"\n}\n');
  expect(["a", "b"].map((word) => addressAt(file, file.text.indexOf(`"${word}"`)))).toEqual([
    "sheets / foot",
    "sheets#1 / foot",
  ]);
});

test("a block with the same fact twenty thousand times takes no longer for each", () => {
  const line = "  at 4 4\n";
  const text = `site A {\n${line.repeat(20_000)}}\n`;
  const file = readSource("a.hop", text);
  const from = process.cpuUsage();
  const addresses = Array.from({ length: 20_000 }, (_, i) => addressAt(file, 11 + i * line.length));
  const { user, system } = process.cpuUsage(from);
  expect([addresses[0], addresses[1], addresses[19_999]]).toEqual([
    "site A / at",
    "site A / at#1",
    "site A / at#19999",
  ]);
  // Were each to look at all, it would take 8 seconds.
  expect((user + system) / 1e6).toBeLessThan(2);
});
