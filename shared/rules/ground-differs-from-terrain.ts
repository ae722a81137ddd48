import { address } from "../design/address.js";
import { metres } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import { meantWords, unitOfGround } from "./feet.js";
import type { NetworkRule } from "./rule.js";

/** Rasters of 30 to 90 m smooth a summit by some metres; more is another place. */
export const GROUND_TOLERANCE_M = 15;

/** No raster errs so far: an antenna on such ground hangs in the air, or under it, and clears what it does not. */
export const HOPELESS_GROUND_M = 100;

export const groundDiffersFromTerrain: NetworkRule = {
  scope: "network",
  ofResults: true,
  id: "ground-differs-from-terrain",
  severity: "warning",
  title: "Stated ground and terrain disagree",
  checks:
    "Ground level stated for a site against the terrain at its position, 15 m allowed; an error, whatever `severity` says, where they are more than 100 m apart or the figure fits in feet.",
  why: "Either the coordinates are some hundred metres off, or the height is that of the mast top, of another datum, or in feet.",
  fix: "Check position and height against the survey. Where the stated ground is right, accept the finding at the site.",
  source: "common practice",
  good: exampleHop(),
  bad: `site HIGH {\n  at 47.55 -30.4\n  ground 320 m\n}\n\n${exampleHop().replaceAll("TARN", "HIGH")}`,
  check({ design, results, slips, report }) {
    const told = new Set<string>();
    for (const hop of design.hops.keys()) {
      const { geometry, profile } = results.get(hop) ?? {};
      for (const end of geometry ?? []) {
        // Where the ground is that of a mended position, the position tells it.
        const isSlip = slips.get(end.site)?.evidence === "ground";
        if (end.terrainGroundM === undefined || told.has(end.site) || isSlip) continue;
        const offM = Math.abs(end.groundM - end.terrainGroundM);
        if (offM <= GROUND_TOLERANCE_M) continue;
        told.add(end.site);
        const unit = unitOfGround(end.groundM, end.terrainGroundM, GROUND_TOLERANCE_M);
        report({
          at: address("site", end.site, "ground"),
          severity: unit !== undefined || offM > HOPELESS_GROUND_M ? "error" : undefined,
          message: `ground at ${metres(end.groundM)}, the ${profile?.kind ?? "terrain"} has ${metres(end.terrainGroundM)} at this position`,
          help: unit && `${meantWords(end.groundM, unit)}.`,
          related: [{ at: address("site", end.site, "at"), message: `position of ${end.site}` }],
        });
      }
    }
  },
};
