/** A hop of the examples, read, evaluated and held against its readings. */
import { DesignModel } from "../../language/model/design-model.js";
import { readSource } from "../../language/model/source-file.js";
import { heldReadings } from "../../shared/as-built/held.js";
import type { Hop } from "../../shared/design/design.js";
import type { HopResult } from "../../shared/evaluate/account/result.js";
import { evaluateHop } from "../../shared/evaluate/hop.js";
import { EXAMPLE_PREAMBLE } from "../../shared/rules/example-preamble.js";
import { exampleGround } from "../rules/example-design.js";

export interface Measured {
  readonly hop: Hop;
  readonly result: HopResult;
  /** Messages of the text. */
  readonly problems: readonly string[];
}

/** @param text behind the preamble of the examples; its first hop is taken */
export function evaluated(text: string): Measured {
  const model = new DesignModel("/example");
  model.setFile(readSource("/example/example.hop", `${EXAMPLE_PREAMBLE}\n${text}`));
  const [hop] = [...model.design().hops.values()];
  return {
    hop: hop!,
    result: evaluateHop(hop!, exampleGround(hop!)),
    problems: model.problemsOf("/example/example.hop").map(({ message }) => message),
  };
}

export function heldIn(text: string) {
  const { hop, result } = evaluated(text);
  return heldReadings(hop, result)!;
}
