import { address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import { asksAnything } from "./asked.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const objectiveMissing: HopRule = {
  scope: "hop",
  id: "objective-missing",
  severity: "info",
  title: "Without an objective the hop is computed, not judged",
  checks:
    "Whether a hop that could be computed has an objective. A hop that has one which asks nothing is an error, whatever `severity` says.",
  why: "A hop of which nothing is asked has no findings on clearance, margin or availability, which reads as if all were well.",
  fix: "Name an objective in the hop or in the defaults of hops; state in it what is asked, or accept on the hop that nothing is.",
  source: "common practice",
  once: true,
  needs: [],
  quietAfter: ["path-length"],
  good: exampleHop(),
  bad: exampleHop().replace("  objective trunk\n", ""),
  check({ hop, result, report }) {
    const { objective } = hop;
    if (objective === undefined && result.clearance.length === 0 && result.directions.length === 0) return;
    if (objective !== undefined && asksAnything(objective)) return;
    const found = [
      result.clearance.length > 0 ? "clearance" : [],
      result.directions.length > 0 ? ["fade margin", "availability", "capacity"] : [],
    ].flat();
    const why =
      objective === undefined ? "there is no objective" : `objective ${objective.name} asks nothing`;
    const computed = `${found.join(", ")} ${found.length > 1 ? "are" : "is"} computed, not judged`;
    report({
      // To name an objective is to ask for a verdict.
      severity: objective === undefined ? undefined : "error",
      at: place(hop),
      message: found.length === 0 ? why : `${why}: ${computed}`,
    });
  },
};

function place({ name, objective }: Hop): string {
  return objective === undefined ? address("hop", name) : address("hop", name, "objective");
}
