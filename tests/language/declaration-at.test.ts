import { expect, test } from "vitest";
import { declarationAt } from "../../language/model/declaration-at.js";
import { readSource } from "../../language/model/source-file.js";

test("the innermost declaration at every offset, between them none", () => {
  const text =
    'network "N" { climate { k 1.33 }; objective O { margin 3 dB } ; rain }\n\nsite A { at 47 -30 }\nhop H {}\n';
  const file = readSource("/d/a.hop", text);
  for (let offset = 0; offset <= text.length; offset++) {
    const plain = file.declarations.findLast(
      ({ fact: { statement } }) => statement.start <= offset && offset <= statement.end,
    );
    expect(declarationAt(file, offset)?.key, `${offset}`).toBe(plain?.key);
  }
});

test("asked for each of many declarations it takes no longer than reading them", () => {
  const count = 30_000;
  const text = Array.from({ length: count }, (_, i) => `site S${i} {}\n`).join("");
  const file = readSource("/d/a.hop", text);
  const start = performance.now();
  for (const { fact } of file.declarations) declarationAt(file, fact.statement.start);
  expect(performance.now() - start).toBeLessThan(1000);
});
