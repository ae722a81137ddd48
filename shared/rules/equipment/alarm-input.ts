import { address, nth } from "../../design/address.js";
import type { Fix } from "../../design/fact-change.js";
import { portsThere } from "../../equipment/ports.js";
import { sitePlans } from "../../equipment/site-plan.js";
import { siteHere } from "../fixes/cards.js";
import { decision, type Mending } from "../fixes/mending.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";
import { hasIndoorUnit } from "./site-rules.js";

export const alarmInput: SiteRule = {
  scope: "network",
  each: "site",
  id: "alarm-input",
  severity: "error",
  title: "An alarm input is there and serves one alarm",
  checks: "Numbers of the alarms of a site, each once, against the alarm inputs of its chassis and cards.",
  why: "Two contacts on one input cannot be told apart; a contact on none is never seen.",
  fix: "A free input, or another card with inputs.",
  source: "common practice",
  fixes: otherInput,
  good: equipped('alarm 1 "door" open\nalarm 12 "mains"\nchassis COPSE {\n  slot 3 LICHEN\n}'),
  bad: equipped('alarm 1 "door" open\nalarm 1 "mains"\nchassis COPSE {\n  slot 3 LICHEN\n}'),
  check({ plan, report }) {
    if (!hasIndoorUnit(plan)) return;
    const inputs = portsThere(plan).get("alarm-in") ?? 0;
    const first = new Map<number, number>();
    for (const [index, { input, title }] of (plan.equipment?.alarms ?? []).entries()) {
      const before = first.get(input);
      first.set(input, before ?? index);
      if (before === undefined && input <= inputs) continue;
      const at = address("site", plan.site.name, nth("alarm", index));
      const taken = plan.equipment!.alarms[before ?? index]!.title;
      report(
        before === undefined
          ? {
              at,
              message: `there is no alarm input ${input} at ${plan.site.name} for "${title}": there are ${inputs}`,
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
  },
};

/** Gives an alarm the first input that no other has. */
function otherInput(mending: Mending): readonly Fix[] {
  const plan = sitePlans(mending.design).get(siteHere(mending));
  const inputs = plan ? (portsThere(plan).get("alarm-in") ?? 0) : 0;
  const taken = new Set(plan?.equipment?.alarms.map(({ input }) => input));
  const free = Array.from({ length: inputs }, (_, index) => index + 1).find((input) => !taken.has(input));
  if (free === undefined) return [];
  return [
    decision(`Give this alarm input ${free}`, {
      do: "replace",
      at: mending.finding.at,
      argument: "input",
      by: String(free),
    }),
  ];
}
