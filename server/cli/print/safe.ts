import { withoutSteering } from "../../../shared/format/steering.js";

/** Control characters in a design must not steer the terminal; each keeps its one column. */
export function safe(text: string): string {
  return withoutSteering(text, (character) => (character === "\t" ? " " : "·"));
}
