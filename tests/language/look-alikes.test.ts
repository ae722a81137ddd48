/** Names that read as something else than they are. */
import { expect, test } from "vitest";
import { oddLetter, skeleton } from "../../shared/format/look-alikes.js";
import { fixture } from "../support/fixture.js";

test.each([
  ["KELD", undefined],
  ["Køben-havn_2", undefined],
  ["КИЇВ", undefined],
  ["ΑΘΗΝΑ", undefined],
  ["東京", undefined],
  ["T\u0391RN", "\u0391 in it is Greek U+0391, which looks like A"],
  ["K\u0415LD", "\u0415 in it is Cyrillic U+0415, which looks like E"],
  ["KELD\u0496", "\u0496 in it is Cyrillic U+0496"],
  ["KE\u200bLD", "U+200B stands in it, which is not seen"],
  ["KELD\u202e", "U+202E stands in it, which is not seen"],
  ["KE\u00adLD", "U+00AD stands in it, which is not seen"],
])("%j: %s", (name, said) => expect(oddLetter(name)).toBe(said));

test("names that look alike have one skeleton, others have not", () => {
  for (const alike of ["\u041a\u0415LD", "KE\u200bLD", "\u039aELD"]) expect(skeleton(alike)).toBe("KELD");
  expect(skeleton("K\u00c4LD")).toBe(skeleton("KA\u0308LD"));
  expect(skeleton("K\u00c4LD")).not.toBe(skeleton("KALD"));
});

test("a deceiving name is told where it is declared, and named where it is not known", () => {
  const { model } = fixture(
    "//- a.hop\nsite K\u0415LD {\n  at 47.55 -30.45\n}\nsite TARN {\n  at 47.6 -30.4\n}\nhop A {\n  KELD {}\n  T\u0391RN {}\n}\n",
  );
  const [file] = [...model.allFiles()];
  const told = model
    .problemsOf(file!.path)
    .map(({ rule, message, fixes }) => [rule, message, fixes?.[0]?.newText]);
  expect(told).toContainEqual([
    "deceiving-name",
    "site K\u0415LD is not what it looks like: \u0415 in it is Cyrillic U+0415, which looks like E",
    "KELD",
  ]);
  expect(told).toContainEqual([
    "unknown-name",
    "there is no site T\u0391RN (\u0391 in it is Greek U+0391, which looks like A); did you mean TARN?",
    "TARN",
  ]);
});
