import { licenceName } from "../../licence/words.js";
import { readEmission } from "../../spectrum/emission-designator.js";
import type { NetworkRule } from "../rule.js";
import { licensedHop } from "./example-licence.js";

export const licenceIncomplete: NetworkRule = {
  scope: "network",
  id: "licence-incomplete",
  severity: "warning",
  title: "A licence says its frequency, and its emission as it is written",
  checks:
    "Whether a licence states the frequency that it grants, and whether its emission is a designator of Radio Regulations Appendix 1: three numerals and a letter, then class and details.",
  why: "Without it nobody knows which transmission it is for, and a hop may move to another channel unseen.",
  fix: "Write the frequency that was granted, and with it what else the licence says.",
  source: "common practice",
  good: licensedHop("frequency 18.93 GHz"),
  bad: licensedHop("polarization vertical"),
  check({ design: { licences = [], hops }, report }) {
    for (const licence of licences) {
      const { emission } = licence;
      if (emission !== undefined && readEmission(emission) === undefined)
        report(
          {
            at: licence.at,
            about: `${licence.number} ${licence.hop} ${licence.site} emission`,
            message: `${licenceName(licence)}: ${emission} is no emission designator, and counts as not stated`,
            help: "three numerals with a letter in place of the decimal point, then the class: 56M0D7W",
          },
          hops.has(licence.hop) ? licence.hop : undefined,
        );
      if (licence.frequencyHz !== undefined || licence.frequencyUnreadable) continue;
      const { number, hop, site, at } = licence;
      const message = `${licenceName(licence)} states no frequency: it is held against ${hop} whatever ${site} sends`;
      const help = "write what was granted: frequency, emission, polarization, eirp, height, until";
      const about = `${number} ${hop} ${site}`;
      report({ at, about, message, help }, hops.has(hop) ? hop : undefined);
    }
  },
};
