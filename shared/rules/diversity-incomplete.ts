import { address } from "../design/address.js";
import { hasFrequencyDiversity, hasSpaceDiversity } from "../evaluate/fading/diversity.js";
import { arrangementAt } from "../radio/arrangement-pairs.js";
import { arrangementByName } from "../radio/arrangements.js";
import { furtherAddress } from "./carriers.js";
import { exampleHop } from "./example-preamble.js";
import { removeAntenna } from "./fixes/further-antennas.js";
import type { HopRule } from "./rule.js";

export const diversityIncomplete: HopRule = {
  scope: "hop",
  id: "diversity-incomplete",
  severity: "warning",
  arrangements: () => true,
  title: "Arrangement and diversity must agree",
  checks:
    "A diversity arrangement states its second antennas or its second channel; neither is stated without such an arrangement.",
  why: "Diversity that is paid for but not counted makes the hop look worse, the other way round better than it is.",
  fix: "State `diversity-antenna` at both ends, or a second `channel`, or choose the arrangement that is meant.",
  source: "Rec. ITU-R P.530-18 section 6.2",
  needs: [],
  restsOn: ["arrangement", "diversity-antenna"],
  fixes: removeAntenna,
  good: exampleHop(),
  bad: exampleHop({
    keld: "antenna DISH60-18 at 40 m\n    diversity-antenna DISH60-18 at 30 m\n    transmits high",
  }),
  check({ hop, report, has }) {
    const common = hop.arrangement.name;
    const at = address("hop", hop.name, "arrangement");
    const second = (hop.furtherChannels ?? []).length > 0;
    for (const one of hop.ends) {
      const { site, diversityAntenna, diversityHeightM } = one;
      const name = arrangementAt(hop, one);
      const space = hasSpaceDiversity(hop, one);
      const stated = diversityAntenna !== undefined && diversityHeightM !== undefined;
      const end = address("hop", hop.name, site.name);
      if (space && !stated && !has("antenna-ports-short"))
        report({ at: end, message: `${name} has no diversity antenna at ${site.name}` });
      else if (!space && diversityAntenna !== undefined)
        report({
          at: address("hop", hop.name, site.name, "diversity-antenna"),
          message: `${site.name} has a diversity antenna, but the arrangement is ${name}; it is not counted`,
          help:
            (arrangementByName(name)?.antennas ?? 1) > 1
              ? `The second antenna of ${name} is stated as \`second-antenna\`.`
              : undefined,
        });
    }
    if (hasFrequencyDiversity(hop) && !second)
      report({ at, message: `${common} has no second channel; its improvement is not counted` });
    else if (!hasFrequencyDiversity(hop) && second && (arrangementByName(common)?.frequencyPairs ?? 1) < 2)
      report({
        at: furtherAddress(hop, 0),
        message: `a second channel is stated, but the arrangement is ${common}; it is not counted`,
      });
  },
};
