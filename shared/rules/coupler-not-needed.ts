import { address } from "../design/address.js";
import { decibels } from "../format/numbers.js";
import { arrangementByName } from "../radio/arrangements.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const couplerNotNeeded: HopRule = {
  scope: "hop",
  id: "coupler-not-needed",
  severity: "warning",
  title: "A coupler without a second unit costs level for nothing",
  checks: "Whether an end states a coupler that its arrangement has no use for.",
  why: "It takes its loss at both ends all year. As a provision for a later second unit it is a decision worth writing down.",
  fix: "Remove the coupler, or accept it with the reason.",
  source: "common practice",
  needs: [],
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna A18-06 at 40 m\n    coupler H18-E direct\n    transmits high" }),
  check({ hop, report }) {
    const facts = arrangementByName(hop.arrangement.name);
    if (facts === undefined || facts.coupler !== undefined) return;
    for (const { site, coupler } of hop.ends) {
      if (coupler === undefined) continue;
      const cost = coupler.mainLossDb === undefined ? "" : ` and costs ${decibels(coupler.mainLossDb)}`;
      report({
        at: address("hop", hop.name, site.name, "coupler"),
        message: `${hop.arrangement.name} needs no coupler; ${coupler.name} at ${site.name} joins nothing${cost}`,
      });
    }
  },
};
