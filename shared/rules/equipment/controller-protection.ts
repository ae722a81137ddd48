import { addController } from "../fixes/cards.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { chassisAddress, chassisWords, hasIndoorUnit } from "./site-rules.js";

export const controllerProtection: SiteRule = {
  scope: "network",
  each: "site",
  id: "controller-protection",
  severity: "error",
  title: "A chassis needs a controller, and two where protection is asked for",
  checks:
    "Controllers of each chassis that has cards, built in or on a card, against one, or two with `protect controller`.",
  why: "Everything passes the controller: without it nothing works, and with one its failure takes every hop of the site.",
  fix: "Add a controller card, or take a chassis that has room for two.",
  source: "common practice",
  fixes: addController,
  good: equipped("chassis HEDGE {\n  protect controller\n  card HEATH 2\n  card MIST\n}"),
  bad: equipped("chassis HEDGE {\n  protect controller\n  card HEATH\n  card MIST\n}"),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const cards = Map.groupBy(plan.placed.cards, ({ chassis }) => chassis);
    for (const installed of plan.equipment?.chassis ?? []) {
      const own = cards.get(installed) ?? [];
      const { chassis, controllersProtected } = installed;
      const builtIn = chassis?.controllerBuiltIn ? 1 : 0;
      const takes = chassis?.slots.some(({ kind }) => kind === "controller") || builtIn > 0;
      // A chassis without a single card, or that says nothing of controllers, is not planned that far.
      if (own.length === 0 || !takes) continue;
      const count = builtIn + own.filter(({ card }) => card.kind === "controller").length;
      const wanted = controllersProtected ? 2 : 1;
      if (count >= wanted) continue;
      report({
        at: chassisAddress(plan, installed, ...(controllersProtected ? ["protect"] : [])),
        severity: count === 0 && !controllersProtected ? "warning" : undefined,
        message: `${chassisWords(plan, installed)} has ${count === 0 ? "no controller" : builtIn > 0 ? "one controller, built in" : "one controller"}, ${wanted === 2 ? "protection asks for two" : "it needs one"}`,
      });
    }
  },
};
