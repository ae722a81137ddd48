/** JSON that a terminal can show: what would steer it stands escaped, and reads back as the same value. */
import { steeringEscaped } from "../../../shared/format/steering.js";

/** @param indent blanks a level; 0 puts all in one line */
export function jsonText(value: object, indent: 0 | 1): string {
  return steeringEscaped(JSON.stringify(value, twelveDigits, indent));
}

/** The last bits of a double differ between machines, and a difference of texts should not show them. */
function twelveDigits(_key: string, part: unknown): unknown {
  return typeof part === "number" && !Number.isInteger(part) ? Number(part.toPrecision(12)) : part;
}
