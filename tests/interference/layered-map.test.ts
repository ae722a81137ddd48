import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { LayeredMap } from "../../shared/interference/layered-map.js";

const KEYS = 400;

describe("a map with layers", () => {
  it("holds after any changes what a map holds, in every copy by itself", () => {
    const change = fc.record({
      // Of several maps that came of each other one is changed, or copied.
      which: fc.nat({ max: 3 }),
      what: fc.constantFrom(
        "set",
        "many",
        "many",
        "delete",
        "fewer",
        "copy",
        "copy",
        "copy",
        "copy",
        "clear",
      ),
      key: fc.nat({ max: KEYS }),
      value: fc.nat(),
    });
    fc.assert(
      fc.property(fc.array(change, { maxLength: 60, size: "max" }), (changes) => {
        const pairs = [{ layered: new LayeredMap<number, number>(), plain: new Map<number, number>() }];
        for (const { which, what, key, value } of changes) {
          // Of the last few, so that copies of copies come about.
          const { layered, plain } = pairs.at(-1 - which) ?? pairs[0]!;
          const end = what === "many" || what === "fewer" ? key + KEYS / 2 : key;
          if (what === "copy") pairs.push({ layered: new LayeredMap(layered), plain: new Map(plain) });
          else if (what === "clear") for (const one of [layered, plain]) one.clear();
          else
            for (let at = key; at <= end; at++)
              for (const one of [layered, plain])
                if (what === "delete" || what === "fewer") one.delete(at);
                else one.set(at, value);
        }
        for (const { layered, plain } of pairs) {
          for (let key = 0; key <= 2 * KEYS; key++) expect(layered.get(key)).toBe(plain.get(key));
        }
      }),
      { numRuns: 30 },
    );
  });
});
