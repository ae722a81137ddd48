import { address } from "../../design/address.js";
import { asksForOne } from "../../licence/held.js";
import { onTheAir } from "../../licence/words.js";
import { exampleHop } from "../example-preamble.js";
import type { NetworkRule } from "../rule.js";

export const licenceMissing: NetworkRule = {
  scope: "network",
  id: "licence-missing",
  severity: "warning",
  title: "What is built has a licence",
  checks:
    "Each transmission of a hop that is stated as built, in a design that states licences; with `licences required` in the network, of each hop that is not merely planned, and then it is an error. A design that uses no licences hears nothing.",
  why: "A hop that is on the air without a licence may be switched off by whoever has one, and is protected from nobody.",
  fix: "Apply for it, and write down what was granted; the editor writes one with the figures of the design, whose number is still to be filled in.",
  source: "common practice",
  good: exampleHop({ more: "state built" }),
  bad: `licences required\n\n${exampleHop()}`,
  check({ design, licences, report }) {
    const required = design.licenceTerms?.required;
    for (const [name, { hop, held }] of licences) {
      if (!asksForOne(design, hop)) continue;
      const open = held.filter(({ licence }) => licence === undefined);
      if (open.length === 0) continue;
      for (const [site, those] of Map.groupBy(open, ({ sent }) => sent.site)) {
        const what = those.map(({ sent }) => onTheAir(sent)).join("; ");
        report(
          {
            at: address("hop", name, site),
            message: `${site} sends ${what} to ${those[0]!.sent.farSite} without a licence`,
            help: `state it: licence "NUMBER" of ${name} from ${site} { ... }`,
            ...(required && { severity: "error" as const }),
          },
          name,
        );
      }
    }
  },
};
