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
  check({ design, report }) {
    const used = new Set(design.sitesOfUnfinished);
    for (const { ends } of design.hops.values()) for (const { site } of ends) used.add(site.name);
    for (const name of design.sites.keys()) {
      if (!used.has(name)) report({ at: address("site", name), message: `no hop ends at ${name}` });
    }
  },
};
