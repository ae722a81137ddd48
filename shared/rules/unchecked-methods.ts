import { METHODS } from "../evaluate/methods.js";
import { shown } from "../words/message.js";
import { methodShown } from "../words/methods.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";
import { type Remarks, remark, reportShared } from "./shared-remarks.js";

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
    const remarks: Remarks = new Map();
    for (const hop of context.design.hops.values()) {
      const result = context.results.get(hop.name);
      if (result?.availability === undefined) continue;
      for (const id of result.methods) {
        const { standing, withoutWeight, toldApart } = METHODS[id];
        if (standing !== "from memory" || withoutWeight || toldApart) continue;
        const { what, source, standing: told } = methodShown(id);
        const message = `${shown(what)} after ${shown(source)} is ${shown(told)}`;
        remark(remarks, { about: id, message, at: "network / climate" }, hop.name);
      }
    }
    reportShared(context, uncheckedMethods.id, remarks);
  },
};
