import { expect, test } from "vitest";
import { unlistedParts } from "../../shared/equipment/unlisted-parts.js";
import { equipped } from "../../shared/rules/equipment/example-equipment.js";
import { exampleHop } from "../../shared/rules/example-preamble.js";
import { modelOf } from "../language/editor/fixing.js";
import { PREAMBLE } from "../language/editor/judged.js";

const unlisted = (text: string) => unlistedParts(modelOf(`${PREAMBLE}\n${text}`).design());

test("what nothing is stated of is told with its places; what is stated is not", () => {
  const bare = unlisted(exampleHop());
  expect(bare).toContain("Not in it: chassis and cards where no chassis is stated (KELD, TARN).");
  expect(bare).toContain(
    "Not in it: cables where no cable is stated (KELD-TARN at KELD, KELD-TARN at TARN).",
  );
  expect(bare.join("\n")).not.toMatch(/antennas|radios/);
  const without = unlisted(
    exampleHop().replace("    antenna DISH60-18 at 40 m\n", "").replace("  radio R18\n", ""),
  );
  expect(without[0]).toBe("Not in it: radios where no radio is stated (KELD-TARN).");
  expect(without[1]).toMatch(/^Not in it: antennas where no antenna is stated \(KELD-TARN at \w+\)\.$/);
  const housed = unlisted(equipped("chassis SPINNEY"));
  expect(housed).toContain("Not in it: chassis and cards where no chassis is stated (TARN).");
  // Brackets and the like are in no catalogue.
  for (const told of [bare, without, housed]) expect(told.at(-1)).toMatch(/^Never in it: /);
});
