import { address } from "../design/address.js";
import type { Fix } from "../design/fact-change.js";
import { metres } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import { meantWords, unitOfGround } from "./feet.js";
import { siteHere } from "./fixes/cards.js";
import { decision, type Mending } from "./fixes/mending.js";
import { gathering } from "./rule.js";

/** Rasters of 30 to 90 m smooth a summit by some metres; more is another place. */
export const GROUND_TOLERANCE_M = 15;

/** No raster errs so far: an antenna on such ground hangs in the air, or under it, and clears what it does not. */
export const HOPELESS_GROUND_M = 100;

export const groundDiffersFromTerrain = gathering<readonly Off[]>({
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
  fixes: removeGround,
  good: exampleHop(),
  bad: `site HIGH {\n  at 47.55 -30.4\n  ground 320 m\n}\n\n${exampleHop().replaceAll("TARN", "HIGH")}`,
  each: "hop",
  note: (_, result) => {
    const off = (result?.geometry ?? []).flatMap(({ site, groundM, terrainGroundM }): Off[] =>
      terrainGroundM !== undefined && Math.abs(groundM - terrainGroundM) > GROUND_TOLERANCE_M
        ? [{ site, groundM, terrainGroundM, from: result?.profile?.kind ?? "terrain" }]
        : [],
    );
    return off.length === 0 ? undefined : off;
  },
  tell(noted, { slips, report }) {
    const told = new Set<string>();
    for (const { site, groundM, terrainGroundM, from } of noted.flatMap(({ note }) => note)) {
      // Where the ground is that of a mended position, the position tells it.
      const isSlip = slips.get(site)?.evidence === "ground";
      if (told.has(site) || isSlip) continue;
      told.add(site);
      const unit = unitOfGround(groundM, terrainGroundM, GROUND_TOLERANCE_M);
      const isHopeless = Math.abs(groundM - terrainGroundM) > HOPELESS_GROUND_M;
      report({
        at: address("site", site, "ground"),
        severity: unit !== undefined || isHopeless ? "error" : undefined,
        message: `ground at ${metres(groundM)}, the ${from} has ${metres(terrainGroundM)} at this position`,
        help: unit && `${meantWords(groundM, unit)}.`,
        related: [{ at: address("site", site, "at"), message: `position of ${site}` }],
      });
    }
  },
});

interface Off {
  readonly site: string;
  readonly groundM: number;
  readonly terrainGroundM: number;
  /** What has the other height. */
  readonly from: string;
}

/** Leaves the ground level to the terrain. */
function removeGround(mending: Mending): readonly Fix[] {
  const site = siteHere(mending);
  const title = `Take the ground level of ${site} from the terrain (removes the stated one)`;
  return [decision(title, { do: "remove", at: address("site", site, "ground") })];
}
