import { exampleHop } from "../example-preamble.js";
import type { NetworkRule } from "../rule.js";

export const sheetsDoubled: NetworkRule = {
  scope: "network",
  id: "sheets-doubled",
  severity: "error",
  title: "Each template of sheets has a name of its own",
  checks: "The names of all templates of sheets.",
  why: "Sheets would be made by the first one, whichever was meant.",
  fix: "Give one of them another name.",
  source: "common practice",
  good: `sheets DESK { language de }\nsheets FIELD { language en }\n\n${exampleHop()}`,
  bad: `sheets DESK { language de }\nsheets DESK { language en }\n\n${exampleHop()}`,
  check({ design, report }) {
    const seen = new Map<string, string>();
    for (const { at, name } of design.sheets ?? []) {
      const first = seen.get(name);
      if (first === undefined) seen.set(name, at);
      else
        report({
          at,
          about: at,
          message: `sheets ${name} are stated twice; these do not count`,
          related: [{ at: first, message: `the first sheets ${name} stand here` }],
        });
    }
  },
};
