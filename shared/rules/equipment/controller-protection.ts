import type { NetworkRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { chassisAddress, chassisWords, equippedSites } from "./site-rules.js";

export const controllerProtection: NetworkRule = {
  scope: "network",
  id: "controller-protection",
  severity: "error",
  title: "A chassis needs a controller, and two where protection is asked for",
  checks: "Controller cards of each chassis that has cards, against one, or two with `protect controller`.",
  why: "Everything passes the controller: without it nothing works, and with one its failure takes every hop of the site.",
  fix: "Add a controller card.",
  source: "common practice",
  good: equipped("chassis HEDGE {\n  protect controller\n  card HEATH 2\n  card MIST\n}"),
  bad: equipped("chassis HEDGE {\n  protect controller\n  card HEATH\n  card MIST\n}"),
  check(context) {
    for (const plan of equippedSites(context)) {
      const cards = Map.groupBy(plan.placed.cards, ({ chassis }) => chassis);
      for (const installed of plan.equipment?.chassis ?? []) {
        const own = cards.get(installed) ?? [];
        // A chassis without a single card, or without slots for controllers, is not planned that far.
        const takes = installed.chassis?.slots.some(({ kind }) => kind === "controller");
        if (own.length === 0 || !takes) continue;
        const count = own.filter(({ card }) => card.kind === "controller").length;
        const wanted = installed.controllersProtected ? 2 : 1;
        if (count >= wanted) continue;
        context.report({
          at: chassisAddress(plan, installed, ...(installed.controllersProtected ? ["protect"] : [])),
          severity: count === 0 && !installed.controllersProtected ? "warning" : undefined,
          message: `${chassisWords(plan, installed)} has ${count === 0 ? "no controller" : "one controller"}, ${wanted === 2 ? "protection asks for two" : "it needs one"}`,
        });
      }
    }
  },
};
