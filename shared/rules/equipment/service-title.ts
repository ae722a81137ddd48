import { address, nth } from "../../design/address.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";

const two = (title: string) =>
  equipped(`service "mill" 1 GE\nservice "${title}" 1 GE\nchassis COPSE {\n  slot 4 FERN\n}`);

export const serviceTitle: SiteRule = {
  scope: "network",
  each: "site",
  id: "service-title",
  severity: "warning",
  title: "Services of a site are told apart by their titles",
  checks: "Titles of the services at each site: that each has one, and none has another's.",
  why: "The cables and the port plan name a service by its title; who patches them sees nothing else.",
  fix: "A title of its own, or one service with more ports.",
  source: "common practice",
  good: two("quarry"),
  bad: two("mill"),
  check({ plan, report }) {
    const first = new Map<string, number>();
    for (const [index, { title }] of (plan.equipment?.services ?? []).entries()) {
      const at = address("site", plan.site.name, nth("service", index));
      const key = title.trim();
      const before = first.get(key);
      if (key === "") report({ at, message: `this service at ${plan.site.name} has no title` });
      else if (before === undefined) first.set(key, index);
      else {
        const other = address("site", plan.site.name, nth("service", before));
        report({
          at,
          message: `two services at ${plan.site.name} are called "${key}"`,
          related: [{ at: other, message: "the other" }],
        });
      }
    }
  },
};
