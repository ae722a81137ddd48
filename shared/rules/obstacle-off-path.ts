import { address, nth } from "../design/address.js";
import { obstacleTitle, standsOnPath } from "../evaluate/path/profile.js";
import { apart, kilometres } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const obstacleOffPath: HopRule = {
  scope: "hop",
  id: "obstacle-off-path",
  severity: "error",
  title: "An obstacle must stand between the two sites",
  checks: "The distance of each obstacle against the length of the path.",
  why: "An obstacle outside the path is not counted; the one that was meant stands somewhere else.",
  fix: "Mend the distance, or name the other end after `from`.",
  source: "common practice",
  needs: ["distance"],
  good: exampleHop({ more: 'obstacle "spruce" 14 m at 6.2 km from KELD' }),
  bad: exampleHop({ more: 'obstacle "spruce" 14 m at 62 km from KELD' }),
  check({ hop, result, report }) {
    const distanceM = result.distanceM!;
    for (const [index, obstacle] of hop.obstacles.entries()) {
      if (standsOnPath(obstacle, distanceM)) continue;
      const from = hop.ends[0].site.name;
      const [place, length] = apart(kilometres, obstacle.distanceM, distanceM);
      report({
        at: address("hop", hop.name, nth("obstacle", index)),
        message: `"${obstacleTitle(obstacle)}" stands ${place} from ${from}, the path is ${length} long`,
      });
    }
  },
};
