/** What was measured on a hop, and what was built at its ends. */
import type { AsBuilt, Measurement, Serial } from "../../shared/design/as-built.js";
import { type Fact, factNamed, factsNamed, numberOf, quantityOf, wordOf } from "../facts/fact.js";
import { fieldsOf, type Names } from "./fields.js";

/**
 * In the order of the text: a finding names one by its place. One that lacks its level, site or day is none, and keeps
 * its place.
 * @returns undefined where none is stated
 */
export function measuredOf(facts: readonly Fact[]): readonly (Measurement | undefined)[] | undefined {
  const stated = factsNamed(facts, "measured");
  return stated.length === 0 ? undefined : stated.map(measurementOf);
}

function measurementOf(fact: Fact): Measurement | undefined {
  const levelDbm = quantityOf(fact, "level");
  const site = wordOf(fact, "at");
  const on = wordOf(fact, "on");
  if (levelDbm === undefined || site === undefined || on === undefined) return undefined;
  return {
    levelDbm,
    site,
    on,
    branch: wordOf(fact, "branch") as Measurement["branch"],
    sender: wordOf(fact, "sender") as Measurement["sender"],
    carrier: numberOf(fact, "carrier"),
    polarization: wordOf(fact, "polarization") as Measurement["polarization"],
    mode: wordOf(fact, "mode"),
    powerControl: wordOf(fact, "power-control") as Measurement["powerControl"],
    promisedDbm: quantityOf(fact, "promised"),
    by: wordOf(fact, "by"),
    remark: wordOf(fact, "remark"),
  };
}

/** @returns undefined where nothing is stated of it */
export function asBuiltOf(endFacts: readonly Fact[], names: Names): AsBuilt | undefined {
  const fact = factNamed(endFacts, "as-built");
  if (fact === undefined) return undefined;
  const serials = factsNamed(fact.facts, "serial").flatMap((one): Serial[] => {
    const number = wordOf(one, "number");
    const of = wordOf(one, "of") as Serial["of"] | undefined;
    if (number === undefined || of === undefined) return [];
    return [
      { number, of, branch: wordOf(one, "branch") as Serial["branch"], carrier: numberOf(one, "carrier") },
    ];
  });
  return {
    ...fieldsOf("asBuilt", fact.facts, names),
    on: wordOf(fact, "on"),
    by: wordOf(fact, "by"),
    ...(serials.length > 0 && { serials }),
  };
}
