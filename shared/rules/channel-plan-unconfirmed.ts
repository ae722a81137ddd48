import { address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";

/** Words with which a plan's status begins when its figures may be relied upon. */
const CONFIRMED = /^(confirmed|stated|by nesting of the confirmed|derived from confirmed)/;

export const channelPlanUnconfirmed: NetworkRule = {
  scope: "network",
  id: "channel-plan-unconfirmed",
  severity: "info",
  title: "The figures of a channel plan are not confirmed",
  checks: "The status that the table of plans gives to each plan in use.",
  why: "A frequency goes into the licence; it must be looked up in the plan of the administration first.",
  fix: "Compare with the national plan, or declare the plan in the catalogue.",
  source: "the project's own table of plans",
  good: exampleHop(),
  bad: exampleHop().replace("P18 / 55 MHz / 4", "F.386 / 29.65 MHz / 2"),
  check({ design, report }) {
    const byPlan = new Map<string, Hop[]>();
    for (const hop of design.hops.values()) {
      if (hop.channel === undefined || CONFIRMED.test(hop.channel.status)) continue;
      const key = `${hop.channel.plan} ${hop.channel.bandwidthHz}`;
      const others = byPlan.get(key);
      if (others) others.push(hop);
      else byPlan.set(key, [hop]);
    }
    for (const [about, [first, ...others]] of byPlan) {
      const { plan, status } = first!.channel!;
      const more =
        others.length === 0
          ? ""
          : others.length === 1
            ? "; 1 more hop uses it"
            : `; ${others.length} more hops use it`;
      report(
        {
          at: address("hop", first!.name, "channel"),
          about,
          message: `the figures of plan ${plan} are ${status}${more}`,
        },
        first!.name,
      );
    }
  },
};
