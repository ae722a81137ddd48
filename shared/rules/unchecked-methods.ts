import type { Address } from "../design/address.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";
import { remark, reportShared } from "./shared-remarks.js";

/** These do not move the availability: a worst month is told beside it, and a sum needs no text. Zones have a rule. */
const WITHOUT_WEIGHT = /P\.841|section 7$|PN\.837/;

export const uncheckedMethods: NetworkRule = {
  scope: "network",
  ofResults: true,
  id: "unchecked-methods",
  severity: "info",
  remarksOn: "methods from memory",
  title: "A figure rests on a method that was not checked against its Recommendation",
  checks:
    "Methods behind availability and objectives that were written from memory. Said once for all hops that use one.",
  why: "Nobody has compared them with the text; a constant may be wrong.",
  fix: "Compare the method with the Recommendation, or leave such methods out with `unchecked-methods leave-out` in the climate.",
  source: "the project's own table of methods",
  good: exampleHop(),
  bad: `objective far {
  availability 99.9 %
  availability-class long-haul over 180 km
}

${exampleHop().replace("objective trunk", "objective far")}`,
  check(context) {
    const remarks = new Map<string, { hops: string[]; at: Address; help?: string }>();
    for (const hop of context.design.hops.values()) {
      const result = context.results.get(hop.name);
      if (result?.availability === undefined) continue;
      for (const { source, status, what } of result.methods) {
        if (!status.startsWith("from memory") || WITHOUT_WEIGHT.test(source)) continue;
        const message = `${what} after ${source} is from memory, not checked against the Recommendation`;
        remark(remarks, message, hop.name, "network / climate");
      }
    }
    reportShared(context, uncheckedMethods.id, remarks);
  },
};
