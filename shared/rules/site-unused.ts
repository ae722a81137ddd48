import { address } from "../design/address.js";
import { exampleHop } from "./example-preamble.js";
import type { NetworkRule } from "./rule.js";

export const siteUnused: NetworkRule = {
  scope: "network",
  id: "site-unused",
  severity: "info",
  title: "A site that no hop uses",
  checks: "Whether each site is an end of some hop, of an unfinished one too.",
  why: "A site is left over from a hop that was taken away or named wrongly, or its hop is still to be written.",
  fix: "Write its hop, or take the site away.",
  source: "common practice",
  good: exampleHop(),
  bad: `site MOSS {\n  at 47.45 -30.45\n}\n\n${exampleHop()}`,
  check({ design, sites, report }) {
    for (const name of design.sites.keys()) {
      const isUsed = (sites.get(name)?.plan.ends.length ?? 0) > 0 || design.sitesOfUnfinished?.has(name);
      if (!isUsed) report({ at: address("site", name), message: `no hop ends at ${name}` });
    }
  },
};
