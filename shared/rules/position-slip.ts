import { address } from "../design/address.js";
import { kilometres, metres } from "../format/numbers.js";
import type { PositionSlip } from "./position-slips.js";
import type { NetworkRule } from "./rule.js";

const others = ["MOSS", "FELL"].map((name, i) => `site ${name} {\n  at 47.4${i} -30.${i}5\n}\n`).join("\n");
const far = (longitudeDeg: number) =>
  `${others}\nsite FAR {\n  at 47.52 ${longitudeDeg}\n}\n\nhop KELD-FAR {\n  KELD { }\n  FAR { }\n}`;

export const positionSlip: NetworkRule = {
  scope: "network",
  id: "position-slip",
  severity: "warning",
  title: "A position fits better with a slip of the pen mended",
  checks:
    "Each site of a hop as it would stand with the other sign of a coordinate, or with latitude and longitude exchanged (their signs with them, or not), where that brings it within 80 km of the far ends of its hops. Told where the ground stated for the site is that of the terrain there and not here, where there is no land here and land there, and where the site stands four times as far from every other site as it would: further than 80 km, or alone on its side of the equator, of the meridian of Greenwich, or of the line where latitude and longitude are equal, with three others on the other side.",
  why: "A wrong sign is easily written, and near the equator or the meridian of Greenwich the path looks like any other.",
  fix: "Look the position up; the fix writes it as it is suspected to be meant. Where it is right, accept the finding at the site.",
  source: "common practice",
  good: far(-30.4),
  bad: far(30.4),
  check({ slips, report }) {
    for (const slip of slips.values()) {
      report({
        at: address("site", slip.site, "at"),
        message: `${evidence(slip)}; with ${slip.slip.said}${slip.or === undefined ? "" : ` here or at ${slip.or}`} ${meant(slip)}`,
        related: [{ at: address("site", slip.near, "at"), message: `position of ${slip.near}` }],
      });
    }
  },
};

function evidence({ evidence: kind, site, near, statedM, groundM, statedTerrainM }: PositionSlip): string {
  switch (kind) {
    case "ground":
      return `${site} states its ground at ${metres(groundM!)}, the terrain has ${metres(statedTerrainM!)} at this position`;
    case "no land":
      return `there is no land at this position of ${site}`;
    case "sites":
      return `${site} is ${kilometres(statedM)} from ${near} and apart from every other site`;
  }
}

function meant({ evidence: kind, near, mendedM, mendedTerrainM }: PositionSlip): string {
  const away = `${kilometres(mendedM)} from ${near}`;
  return kind === "sites"
    ? `it would be ${away}`
    : `it would be ${away}, on ground at ${metres(mendedTerrainM!)}`;
}
