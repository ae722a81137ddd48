import { licenceName } from "../../licence/words.js";
import type { NetworkRule } from "../rule.js";
import { licensedHop } from "./example-licence.js";

export const licenceIncomplete: NetworkRule = {
  scope: "network",
  id: "licence-incomplete",
  severity: "warning",
  title: "A licence says its frequency",
  checks: "Whether a licence states the frequency that it grants.",
  why: "Without it nobody knows which transmission it is for, and a hop may move to another channel unseen.",
  fix: "Write the frequency that was granted, and with it what else the licence says.",
  source: "common practice",
  good: licensedHop("frequency 18.93 GHz"),
  bad: licensedHop("polarization vertical"),
  check({ design: { licences = [], hops }, report }) {
    for (const licence of licences) {
      if (licence.frequencyHz !== undefined || licence.frequencyUnreadable) continue;
      const { number, hop, site, at } = licence;
      const message = `${licenceName(licence)} states no frequency: it is held against ${hop} whatever ${site} sends`;
      const help = "write what was granted: frequency, emission, polarization, eirp, height, until";
      const about = `${number} ${hop} ${site}`;
      report({ at, about, message, help }, hops.has(hop) ? hop : undefined);
    }
  },
};
