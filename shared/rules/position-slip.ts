import { address } from "../design/address.js";
import type { Design } from "../design/design.js";
import { kilometres, metres } from "../format/numbers.js";
import { lengthTold } from "./path-length.js";
import type { PositionSlip } from "./position-slips.js";
import type { NetworkContext, NetworkRule } from "./rule.js";

const site = (name: string, at: string) => `site ${name} {\n  at ${at}\n}\n`;
const far = (longitudeDeg: number) =>
  `${[site("MOSS", "47.4 0.75"), site("FELL", "47.41 0.8"), site("FAR", `47.42 ${longitudeDeg}`)].join("\n")}\nhop MOSS-FAR {\n  MOSS { }\n  FAR { }\n}`;

export const positionSlip: NetworkRule = {
  scope: "network",
  id: "position-slip",
  severity: "warning",
  title: "A position fits better with a slip of the pen mended",
  checks:
    "Each site of a hop as it would stand with the other sign of a coordinate, or with latitude and longitude exchanged (their signs with them, or not), where that brings it within 80 km of the far ends of its hops. Told where the ground stated for the site is that of the terrain there and not here, where there is no land here and land there, and where the site stands four times as far from every other site as it would: further than 80 km, or alone on its side of the equator, of the meridian of Greenwich, or of the line where latitude and longitude are equal, with three others on the other side. A path above 200 km tells it itself (`path-length`).",
  why: "A wrong sign is easily written, and near the equator or the meridian of Greenwich the path looks like any other.",
  fix: "Look the position up; the fix writes it as it is suspected to be meant. Where it is right, accept the finding at the site.",
  source: "common practice",
  good: far(0.6),
  bad: far(-0.6),
  check({ design, results, slips, report }) {
    if (slips.size === 0) return;
    const told = sitesOfLongHops(design, results);
    for (const slip of slips.values()) {
      if (told.has(slip.site)) continue;
      report({
        at: address("site", slip.site, "at"),
        message: `${evidence(slip)}; with ${slip.slip.said}${slip.or === undefined ? "" : ` here or at ${slip.or}`} ${meant(slip)}`,
        related: [{ at: address("site", slip.near, "at"), message: `position of ${slip.near}` }],
      });
    }
  },
};

/** A path that no hop has tells its slip itself. */
function sitesOfLongHops({ hops }: Design, results: NetworkContext["results"]): ReadonlySet<string> {
  const long = [...hops.values()].filter((hop) => {
    const result = results.get(hop.name);
    return result !== undefined && lengthTold(hop, result);
  });
  return new Set(long.flatMap(({ ends }) => ends.map(({ site }) => site.name)));
}

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
