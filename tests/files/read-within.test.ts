/** What is read at once is bounded in declarations and text; what lies beyond is told file by file, and never parsed. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { SourceFile } from "../../language/model/source-file.js";
import { MOST_DECLARATIONS, readWithin } from "../../server/files/read-within.js";

/** A text of so many characters, which stands for as many declarations. */
const text = (path: string, declarations: number, characters = 10) => ({
  path,
  text: `${declarations}`.padEnd(characters),
});

function reader() {
  const read: string[] = [];
  const source = (path: string, content: string) => {
    read.push(path);
    const declarations = { length: Number.parseInt(content, 10) };
    return { path, text: content, declarations } as unknown as SourceFile;
  };
  return { read, source };
}

test("every file is read or told, none is both, and no more than one file goes over the bound", () => {
  const sizes = fc.array(fc.constantFrom(1, 1000, 99_999, 250_000), { maxLength: 12 });
  fc.assert(
    fc.property(sizes, fc.constantFrom(0, 200_000, 400_000), (all, before) => {
      const { read, source } = reader();
      const known = [source("known", String(before))];
      const texts = all.map((size, at) => text(`f${at}.hop`, size));
      const { files, unread } = readWithin(texts, source, known);
      expect([...files, ...unread].map(({ path }) => path).sort()).toEqual(
        texts.map(({ path }) => path).sort(),
      );
      expect(read).toEqual(["known", ...files.map(({ path }) => path)]);
      const counts = files.map(({ declarations }) => declarations.length);
      const allButLast = counts.slice(0, -1).reduce((sum, one) => sum + one, before);
      if (files.length > 0) expect(allButLast).toBeLessThan(MOST_DECLARATIONS);
      const whole = counts.reduce((sum, one) => sum + one, before);
      if (whole < MOST_DECLARATIONS) expect(unread).toEqual([]);
      for (const { message } of unread) expect(message).toContain("limit 300000");
    }),
  );
});

test("of too much text what comes after is read where it still fits", () => {
  const { source } = reader();
  const large = 30 * 2 ** 20;
  const { files, unread } = readWithin(
    [text("a.hop", 1, large), text("b.hop", 1, large), text("c.hop", 1)],
    source,
    [],
  );
  expect(files.map(({ path }) => path)).toEqual(["a.hop", "c.hop"]);
  expect(unread).toMatchObject([{ path: "b.hop", message: expect.stringContaining("48 MB") }]);
});
