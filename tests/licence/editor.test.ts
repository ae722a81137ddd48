/** Licences in the editor: hover, completion, renaming, and the fix that writes one down. */
import { expect, test } from "vitest";
import { completionAt } from "../../language/editor/completion.js";
import { hoverAt } from "../../language/editor/hover.js";
import { renameAt } from "../../language/editor/rename.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { fixesOfRule } from "../fixes/applied.js";
import { judge, PREAMBLE } from "../language/editor/judged.js";
import { fixture } from "../support/fixture.js";

const HOP = `${PREAMBLE}\nsite MOSS { at 47.6 -30.2 }\n${exampleHop()}\n`;

function labels(source: string): string[] {
  const { model, file, offset } = fixture(source);
  return completionAt(model, file, offset).items.map(({ label }) => label);
}

test("hovering on a licence tells what is granted beside what the design has", () => {
  const { model, file, offset } = fixture(
    `${HOP}licence "F-$01" of KELD-TARN from KELD {\n  frequency 18.93 GHz\n  height 30 m\n  until 2030-06-30\n}`,
  );
  model.setToday("2030-06-20");
  const { markdown } = hoverAt(model, file, offset, judge(model).results)!;
  expect(markdown).toContain("**F-1** until 2030-06-30, 10 days left");
  expect(markdown).toContain("| frequency | 18.93 GHz | 18.93 GHz |  |");
  expect(markdown).toContain("| **height** | 30.0 m | 40.0 m | departs |");
});

test("completion knows the block, the hops, and the ends of the one that is named", () => {
  expect(labels(`${HOP}licence "F-1" of KELD-TARN from KELD {\n  $0\n}`)).toEqual(
    expect.arrayContaining(["frequency", "emission", "eirp", "height", "at", "since", "until"]),
  );
  expect(labels(`${HOP}licence "F-1" of $0`)).toContain("KELD-TARN");
  const from = labels(`${HOP}licence "F-1" of KELD-TARN from $0`);
  expect(from).toContain("TARN");
  expect(from).not.toContain("MOSS");
  expect(labels(`${HOP}$0`)).toContain("licence");
});

test("a licence follows the new names of its hop and site", () => {
  const licence = 'licence "F-1" of KELD-TARN from KELD {\n  frequency 18.93 GHz\n}';
  const { model, file, offset } = fixture(`${HOP.replace("hop KELD-TARN", "hop KELD-$0TARN")}${licence}`);
  const answer = renameAt(model, file, offset, "NEW");
  expect(JSON.stringify(answer).match(/"NEW"/g)?.length).toBe(2);
});

test("what has no licence is written down behind the hop, and is told no more but for its number", async () => {
  const applied = await fixesOfRule(`licences required\n${HOP}`, "licence-missing");
  const [first] = applied.filter(({ fix }) => !fix.title.startsWith("Accept "));
  expect(first!.after).toBe(first!.before - 1);
  expect(first!.text).toContain(
    "licence ? of KELD-TARN from KELD {\n  frequency 18.93 GHz\n  bandwidth 55 MHz\n",
  );
  expect(first!.text).toContain("  emission 55M0D7W\n  polarization vertical\n  eirp 58.5 dBm");
});
