import { address } from "../design/address.js";
import { isEmissionClass, USUAL_EMISSION_CLASS } from "../licence/transmissions.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";

export const emissionClass = gathering<string>({
  scope: "network",
  id: "emission-class",
  severity: "warning",
  title: "The letters of an emission designator can be read",
  checks:
    "The letters of `emission-class`: modulation, signal and information, three symbols, and the two optional ones of details and multiplexing behind them.",
  why: "The designator goes into the application for a licence; letters that mean nothing come back with it.",
  fix: "Write the letters that the administration asks for: D7W for QAM, G7W where only the phase is modulated.",
  source: "Radio Regulations Appendix 1, read in 47 CFR 2.201; the optional symbols are from memory",
  good: exampleHop({ more: "emission-class G7W" }),
  bad: exampleHop({ more: "emission-class QAM" }),
  each: "hop",
  note: ({ emissionClass: letters }) =>
    letters === undefined || isEmissionClass(letters) ? undefined : letters,
  tell(noted, { report }) {
    for (const [letters, those] of Map.groupBy(noted, ({ note }) => note)) {
      const [first, ...others] = those;
      const { name } = first!.hop;
      const more = others.length === 0 ? "" : `; ${others.length} more with the same`;
      report(
        {
          at: address("hop", name, "emission-class"),
          about: `emission-class ${letters}`,
          message: `${letters} are no letters of an emission: ${name} is told as ${USUAL_EMISSION_CLASS}${more}`,
          help: "write three symbols: modulation (D, G, F), signal (7, 1), information (W, D), for example D7W",
        },
        name,
      );
    }
  },
});
