/** Hops that are taken out of a design: as if they were not written, but that their names stay declared. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { TakenOut } from "../../language/model/taken-out.js";
import { fixture } from "../support/fixture.js";
import { HOP, PREAMBLE } from "./editor/judged.js";

const NAMES = ["KELD-TARN", "KELD-TARN-B", "KELD-TARN-C"];
const textOf = (names: readonly string[]) =>
  [PREAMBLE, ...names.map((name) => HOP.replace("hop KELD-TARN", `hop ${name}`))].join("\n");

test("what remains is what the text without them gives, in whichever order they go and come back", () => {
  const whole = fixture(textOf(NAMES)).model;
  fc.assert(
    fc.property(fc.array(fc.subarray(NAMES), { minLength: 1, maxLength: 4 }), (steps) => {
      for (const gone of steps) {
        whole.takeOut(new TakenOut(gone, new Map()));
        const left = NAMES.filter((name) => !gone.includes(name));
        const { hops } = fixture(textOf(left)).model.design();
        expect(whole.design().hops).toEqual(hops);
        for (const name of NAMES) expect(whole.standsHop(name)).toBe(left.includes(name));
      }
    }),
    { numRuns: 30 },
  );
  whole.takeOut(TakenOut.NOTHING);
  expect([...whole.design().hops.keys()]).toEqual(NAMES);
});
