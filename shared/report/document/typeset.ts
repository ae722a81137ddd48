/** How print sets what pages say in plain characters. */
import { withMinus } from "./markup.js";

const BEFORE_UNIT =
  /(?<=\d) (?=(dBm?i?|k?m|[MG]Hz|%|F1|deg|[MG]bit\/s|min|s a)(?![\w-]))|(?<=\bk|[<≤≥]) (?=\d)/g;

/** True minus signs, and figures that keep their unit beside them. */
export function typeset(text: string): string {
  return withMinus(text).replace(BEFORE_UNIT, "\u00a0");
}
