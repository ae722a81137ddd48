/** An example of how ports are written that stands on the sheet itself. */
import { portWords } from "../../equipment/wiring/labels.js";
import type { Wiring } from "../../equipment/wiring/wiring.js";

export interface ExamplePort {
  /** `A/11:1` */
  readonly written: string;
  readonly port: string;
  readonly slot: number;
  readonly chassis: string;
}

/** The first port of a card that something is joined to, one with a number before all others. */
export function examplePort(wirings: readonly Wiring[]): ExamplePort | undefined {
  let other: ExamplePort | undefined;
  for (const wiring of wirings)
    for (const { by, ends } of wiring.joints) {
      // A backplane has no label, and stands in no table.
      if (by.kind === "backplane" || by.kind === "flange") continue;
      for (const end of ends) {
        const { kind, place } = wiring.parts.get(end.part) ?? {};
        if (kind !== "card" || place?.slot === undefined) continue;
        const { chassis, slot } = place;
        const example = { written: portWords(end, wiring), port: end.port, slot, chassis };
        if (/^\d+$/.test(end.port)) return example;
        other ??= example;
      }
    }
  return other;
}
