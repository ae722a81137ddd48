import { address, nth } from "../../design/address.js";
import type { NetworkRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { equippedSites } from "./site-rules.js";

export const alarmInput: NetworkRule = {
  scope: "network",
  id: "alarm-input",
  severity: "error",
  title: "An alarm input is there and serves one alarm",
  checks: "Numbers of the alarms of a site, each once, against the alarm inputs of its auxiliary cards.",
  why: "Two contacts on one input cannot be told apart; a contact on none is never seen.",
  fix: "A free input, or another auxiliary card.",
  source: "common practice",
  good: equipped('alarm 1 "door" open\nalarm 4 "mains"\nchassis HEDGE {\n  slot 3 DEW\n}'),
  bad: equipped('alarm 1 "door" open\nalarm 1 "mains"\nchassis HEDGE {\n  slot 3 DEW\n}'),
  check(context) {
    for (const plan of equippedSites(context)) {
      const inputs = plan.placed.cards
        .flatMap(({ card }) => card.ports)
        .reduce((sum, { count, type }) => sum + (type === "alarm-in" ? count : 0), 0);
      const first = new Map<number, number>();
      for (const [index, { input, title }] of (plan.equipment?.alarms ?? []).entries()) {
        const before = first.get(input);
        first.set(input, before ?? index);
        if (before === undefined && input <= inputs) continue;
        const at = address("site", plan.site.name, nth("alarm", index));
        const taken = plan.equipment!.alarms[before ?? index]!.title;
        context.report(
          before === undefined
            ? {
                at,
                message: `there is no alarm input ${input} at ${plan.site.name} for "${title}": its cards have ${inputs}`,
              }
            : {
                at,
                message: `alarm input ${input} at ${plan.site.name} serves "${taken}" already`,
                related: [
                  {
                    at: address("site", plan.site.name, nth("alarm", before)),
                    message: `"${taken}" has input ${input}`,
                  },
                ],
              },
        );
      }
    }
  },
};
