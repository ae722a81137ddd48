/** What completion looks at: the design, the file and the caret in it, and the hop around the caret. */
import { type Fact, factNamed, quantityOf, wordOf } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import { declaredName } from "../model/source-file.js";
import { END } from "../schema/index.js";
import type { Caret } from "./caret.js";
import type { Results } from "./results.js";

export interface Scene {
  readonly model: DesignModel;
  readonly path: string;
  readonly caret: Caret;
  readonly results?: Results;
  /** What each channel number comes to for the hop around the caret, the best first; undefined: it was not tried. */
  readonly tried?: readonly TriedNumber[];
}

export interface TriedNumber {
  readonly number: number;
  /** Behind its frequencies. */
  readonly figures: string;
}

/** Facts of the block that a hop's facts stand in: the hop's own, or those of `defaults hop`. */
export function hopFacts({ caret }: Scene): readonly Fact[] | undefined {
  const block = caret.enclosing.findLast((fact) => fact.context === "hop" || fact.context === "defaults hop");
  return block?.facts;
}

/** A fact of the hop around the caret, or of the defaults behind it. */
export function hopFact(scene: Scene, name: string): Fact | undefined {
  const own = hopFacts(scene);
  return own && (factNamed(own, name) ?? factNamed(scene.model.lookup.defaults("hop"), name));
}

/** A fact that the end around the caret states. */
export function endFact({ caret }: Scene, name: string): Fact | undefined {
  const block = caret.enclosing.findLast((fact) => fact.context === "end");
  return block && factNamed(block.facts, name);
}

export function siteNamesOfEnds(facts: readonly Fact[]): readonly string[] {
  return facts.flatMap((fact) => (fact.property === END ? (wordOf(fact, "site") ?? []) : []));
}

/** Name of the hop around the caret. */
export function hopName({ caret }: Scene): string | undefined {
  const hop = caret.enclosing.find((fact) => fact.context === "hop");
  return hop && declaredName(hop);
}

/** A frequency that equipment of the hop around the caret must suit, or undefined. */
export function hopFrequencyHz(scene: Scene): number | undefined {
  const name = hopName(scene);
  const resolved = name === undefined ? undefined : scene.model.hop(name)?.hop;
  const transmitted = resolved?.ends.find(
    (end) => end.transmitFrequencyHz !== undefined,
  )?.transmitFrequencyHz;
  if (transmitted !== undefined) return transmitted;
  const tuning = hopRadio(scene)?.tuning;
  return tuning && (tuning.fromHz + tuning.toHz) / 2;
}

export function hopRadio(scene: Scene) {
  const name = wordOf(hopFact(scene, "radio"), "radio");
  return name === undefined ? undefined : scene.model.lookup.radio(name);
}

/** The width that the hop's channel has. */
export function channelWidthHz(scene: Scene): number | undefined {
  return quantityOf(hopFact(scene, "channel"), "width");
}
