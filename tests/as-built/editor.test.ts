/** Readings in the editor: what hovering says, and what is offered. */
import { expect, test } from "vitest";
import { completionAt } from "../../language/editor/completion.js";
import { hoverAt } from "../../language/editor/hover.js";
import { renameAt } from "../../language/editor/rename.js";
import { measuredHop } from "../../shared/rules/as-built/example-reading.js";
import { judge, PREAMBLE } from "../language/editor/judged.js";
import { fixture } from "../support/fixture.js";

const before = `${PREAMBLE}\nsite MOSS { at 47.6 -30.2 }\n`;
const labels = (reading: string) => {
  const { model, file, offset } = fixture(before + measuredHop(reading));
  return completionAt(model, file, offset).items.map(({ label }) => label);
};

test.each(["-4$01.6 dBm at TARN on 2026-05-02", "-41.6 dBm at TARN o$0n 2026-05-02"])(
  "hovering on a reading tells what is promised there: %s",
  (reading) => {
    const { model, file, offset } = fixture(before + measuredHop(reading));
    const { markdown } = hoverAt(model, file, offset, judge(model).results)!;
    expect(markdown).toMatch(
      /Promised \*\*-4\d\.\d dBm\*\* with 128QAM, within 3\.0 dB: \d\.\d dB (less|more), /,
    );
  },
);

test("a reading is at an end of its hop, of a branch, by words that the table has", () => {
  expect(labels("-41.6 dBm at $0")).toEqual(["KELD", "TARN", "?"]);
  expect(labels("-41.6 dBm at TARN branch $0")).toEqual(
    expect.arrayContaining(["main", "standby", "diversity"]),
  );
});

test("a reading follows the new name of its site", () => {
  const { model, file, offset } = fixture(before + measuredHop("-41.6 dBm at T$0ARN on 2026-05-02"));
  expect(JSON.stringify(renameAt(model, file, offset, "NEW")).match(/"NEW"/g)!.length).toBeGreaterThanOrEqual(
    3,
  );
});
