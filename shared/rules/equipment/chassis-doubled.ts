import { address, nth } from "../../design/address.js";
import type { SiteRule } from "../rule.js";
import { equipped } from "./example-equipment.js";

const two = (name: string) => equipped(`chassis COPSE as A {\n}\nchassis COPSE as ${name} {\n}`);

export const chassisDoubled: SiteRule = {
  scope: "network",
  each: "site",
  id: "chassis-doubled",
  severity: "error",
  title: "Chassis of a site are told apart by their names",
  checks:
    "Names of the chassis at each site against each other; a chassis without a name is called by its number.",
  why: "Ports, feeds and labels name the chassis: with two of one name nobody knows which is meant.",
  fix: "Another name behind `as`.",
  source: "common practice",
  good: two("B"),
  bad: two("A"),
  check({ plan, report }) {
    const first = new Map<string, number>();
    for (const [index, { name }] of (plan.equipment?.chassis ?? []).entries()) {
      const before = first.get(name);
      if (before === undefined) {
        first.set(name, index);
        continue;
      }
      report({
        at: address("site", plan.site.name, nth("chassis", index)),
        message: `two chassis at ${plan.site.name} are called ${name}`,
        related: [{ at: address("site", plan.site.name, nth("chassis", before)), message: "the other" }],
      });
    }
  },
};
