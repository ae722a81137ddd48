/** From the modulation in a hop's `mode` or `modes` to the line of the radio that states it. */
import { type Fact, factNamed, factsNamed, quantityOf, wordOf } from "../facts/fact.js";
import type { DesignModel } from "../model/design-model.js";
import type { Declaration } from "../model/source-file.js";
import type { FileRange } from "./text-range.js";
import type { FactAt } from "./walk.js";

/** Name of the radio that the facts of a hop (or of `defaults hop`) use, defaults included. */
export function radioNameOf(facts: readonly Fact[], model: DesignModel): string | undefined {
  const own = wordOf(factNamed(facts, "radio"), "radio");
  return own ?? wordOf(factNamed(model.lookup.defaults("hop"), "radio"), "radio");
}

export function modeLineAt({ fact, path, arg }: FactAt, model: DesignModel): FileRange | undefined {
  const hop = path.at(-1);
  const isMode = fact.property.name === "mode" || fact.property.name === "modes";
  if (!hop || !isMode || !hop.context?.endsWith("hop") || arg?.value?.type !== "free") return undefined;
  const radio = radioNameOf(hop.facts, model);
  return radio === undefined
    ? undefined
    : modeLine(radio, quantityOf(fact, "bandwidth"), arg.value.word, model);
}

/** The line in the radio itself, or in the nearest one it is made like that states modes. */
function modeLine(
  radio: string,
  bandwidthHz: number | undefined,
  modulation: string,
  model: DesignModel,
): FileRange | undefined {
  const visited = new Set<string>();
  let entry: Declaration | undefined = model.declarations(`radio ${radio}`)[0];
  while (entry && !visited.has(entry.name)) {
    visited.add(entry.name);
    const modes = factsNamed(entry.fact.facts, "mode");
    const mode = modes.find(
      (one) => wordOf(one, "modulation") === modulation && quantityOf(one, "bandwidth") === bandwidthHz,
    );
    if (mode) return { file: entry.file, start: mode.args[0]!.start, end: mode.args.at(-1)!.end };
    const like = modes.length > 0 ? undefined : wordOf(entry.fact, "like");
    entry = like === undefined ? undefined : model.declarations(`radio ${like}`)[0];
  }
  return undefined;
}
