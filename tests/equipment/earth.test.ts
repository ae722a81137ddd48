/** Whatever of copper runs down a structure has kits along it: cables, pairs for direct current, guides; fibre has none. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { sitePlans } from "../../shared/equipment/site-plan.js";
import { earthPoints } from "../../shared/equipment/wiring/earth.js";
import { siteWiring } from "../../shared/equipment/wiring/site-wiring.js";
import { designOf } from "./designs.js";

const text = (radio: string, arrangement: string, end: string) => `
radio OUT like R18 { construction all-outdoor; draws 45 W; port GE }
radio IN like R18 { construction all-indoor; branching 0.7 dB pass 0.15 dB }
cable F { kind fibre }
cable C { kind coaxial }
feeder GUIDE { kind elliptical; band 17.7 GHz to 19.7 GHz; loss 0.1 dB/m }
hop KELD-TARN {
  radio ${radio}
  arrangement ${arrangement}
  KELD { antenna DISH60-18 at 30 m; ${end} }
  TARN { antenna DISH60-18 at 30 m }
}`;

const kitsAt = (design: string, everyM: number) => {
  const plan = sitePlans(designOf(design)).get("KELD")!;
  return earthPoints(plan, siteWiring(plan), everyM)
    .filter(({ what }) => what.startsWith("kits along"))
    .map(({ what, count }) => [what, count]);
};

test("each run of copper has three kits and one for each full distance", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 200 }), fc.integer({ min: 10, max: 50 }), (lengthM, everyM) => {
      // Below the upper end, at the foot, at the entry, and on the way.
      const count = 3 + Math.floor(lengthM / everyM);
      const length = `length ${lengthM} m`;
      expect(kitsAt(text("R18", "1+0", `cable C ${length}`), everyM)).toEqual([
        ["kits along the cable", count],
      ]);
      expect(kitsAt(text("OUT", "all-outdoor 1+0", `cable F ${length}`), everyM)).toEqual([
        ["kits along the supply pair", count],
      ]);
      expect(kitsAt(text("IN", "all-indoor 1+0", `feeder GUIDE ${length}`), everyM)).toEqual([
        ["kits along the guide", count],
      ]);
    }),
    { numRuns: 30 },
  );
});

test("a fibre to a unit that something else feeds has none, and a short guide on the pole neither", () => {
  expect(kitsAt(text("R18", "1+0", "cable F length 40 m"), 30)).toEqual([]);
  expect(kitsAt(text("R18", "1+0", "feeder GUIDE length 1 m"), 30)).toEqual([]);
});
