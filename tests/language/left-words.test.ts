/** Words that left the language say what to write instead, and the rest of the text is judged. */
import { expect, test } from "vitest";
import { alternatives, PROPERTIES } from "../../language/schema/index.js";
import { FILE, modelOf } from "./editor/fixing.js";

const told = (text: string) => modelOf(text).problemsOf(FILE);
const applied = (text: string) => {
  const fix = told(text)[0]!.fixes![0]!;
  return text.slice(0, fix.start) + fix.newText + text.slice(fix.end);
};

test.each([
  ["card A { kind e1; ports 16 E1-75 }", "e1 is no choice any more; write tdm"],
  ["card A { kind stm1; ports 2 STM-1-optical }", "stm1 is no choice any more; write tdm"],
  [
    "card A { kind ethernet-over-sdh; ports 2 GE }",
    "ethernet-over-sdh is no choice any more; write ethernet",
  ],
  [
    "card A { kind ethernet-over-pdh; ports 2 GE }",
    "ethernet-over-pdh is no choice any more; write ethernet",
  ],
])("%s: one word in place of another, certainly", (text, message) => {
  expect(told(text).map((one) => one.message)).toEqual([message]);
  expect(told(text)[0]!.fixes![0]!.certain).toBe(true);
  expect(told(applied(text))).toEqual([]);
});

test.each([
  ["card A { kind converter }", /^converter is no choice any more; connectors and baluns are no card/],
  [
    "chassis A { slot 1 to 2 traffic; slot 3 passive }",
    /^passive is no choice any more; .*leave the line out/,
  ],
  [
    "card A { kind tdm; ports 2 STM-1 }",
    /^STM-1 is no choice any more; write STM-1-electrical or STM-1-optical/,
  ],
])("%s: nothing takes its place, and nothing is offered", (text, message) => {
  expect(told(text).map((one) => one.message)).toEqual([expect.stringMatching(message)]);
  expect(told(text)[0]!.fixes ?? []).toEqual([]);
});

test("no word that left is a choice, and each that replaces one is", () => {
  let seen = 0;
  for (const property of PROPERTIES) {
    for (const spec of property.args.flatMap(alternatives)) {
      if (spec.type !== "word") continue;
      for (const [word, left] of Object.entries(spec.left ?? {})) {
        seen++;
        expect(Object.hasOwn(spec.words, word), word).toBe(false);
        if ("write" in left) expect(Object.hasOwn(spec.words, left.write), left.write).toBe(true);
      }
    }
  }
  expect(seen).toBeGreaterThan(5);
});
