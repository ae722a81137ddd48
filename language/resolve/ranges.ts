/** `17.7 GHz to 19.7 GHz`, whichever edge is written first. */
import type { FrequencyRange } from "../../shared/design/frequency-range.js";
import { type Fact, quantityOf } from "../facts/fact.js";

export function rangeOf(fact: Fact | undefined): FrequencyRange | undefined {
  const fromHz = quantityOf(fact, "from");
  const toHz = quantityOf(fact, "to");
  if (fromHz === undefined || toHz === undefined) return undefined;
  return fromHz <= toHz ? { fromHz, toHz } : { fromHz: toHz, toHz: fromHz };
}
