/** Demands of a network over its equipment: which cards take several hops with them, and when nothing is judged. */
import { expect, test } from "vitest";
import type { Design } from "../../shared/design/design.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { demandsInNetwork } from "../../shared/network/demands.js";
import { Memory } from "../../shared/network/memory.js";
import { EXAMPLE_ENTRIES } from "../../shared/rules/equipment/example-equipment.js";
import { designOf } from "../equipment/designs.js";
import { exampleGround } from "../rules/example-design.js";

const hop = (to: string) => `hop MOSS-${to} {
  radio R18
  mode 55 MHz 128QAM
  arrangement 1+0
  MOSS { antenna DISH60-18 at 40 m }
  ${to} { antenna DISH60-18 at 40 m }
}`;

function networkWith(cards: readonly string[], demand = "demand D {\n  from KELD to TARN\n}"): Design {
  return designOf(
    `${EXAMPLE_ENTRIES.join("\n")}
site MOSS {
  at 47.48 -30.48
  structure mast 60 m
  chassis HEDGE as A {
    ${cards.join("\n    ")}
  }
}
${hop("KELD")}
${hop("TARN")}
${demand}`,
  );
}

function resultsOf(design: Design, names = [...design.hops.keys()]): Map<string, HopResult> {
  return new Map(
    names.map((name) => [name, evaluateHop(design.hops.get(name)!, exampleGround(design.hops.get(name)!))]),
  );
}

function cardsOf(cards: readonly string[]) {
  const design = networkWith(cards);
  const { failures } = demandsInNetwork(design, resultsOf(design), new Memory())!;
  return failures.flatMap(({ element }) => (element.kind === "card" ? [element] : []));
}

test("a card fails with all hops whose units are on it; one with a single hop says no more than the hop", () => {
  expect(cardsOf(["slot 8 SQUALL"])).toEqual([
    { kind: "card", name: "MOSS/A/8", hops: ["MOSS-KELD", "MOSS-TARN"] },
  ]);
  expect(cardsOf(["slot 8 MIST", "slot 9 MIST"])).toEqual([]);
});

test("demands are judged once every hop is, and only where there is one", () => {
  const design = networkWith(["slot 8 SQUALL"]);
  const judged = (names?: string[]) => demandsInNetwork(design, resultsOf(design, names), new Memory());
  expect(judged()!.demands.size).toBe(1);
  for (const names of [[], ["MOSS-KELD"], ["MOSS-TARN"]]) expect(judged(names)).toBeUndefined();
  const without = networkWith(["slot 8 SQUALL"], "");
  expect(demandsInNetwork(without, resultsOf(without), new Memory())).toBeUndefined();
});
