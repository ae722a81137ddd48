import { address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import type { RelatedPlace } from "../design/finding.js";
import type { ProfileSummary } from "../evaluate/account/path-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { fixed } from "../format/numbers.js";
import { gapReasons, gapsTold, STRETCHES_TOLD, someTold, stretchTold } from "../words/gaps.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";
import { surveyLength } from "./survey-length.js";

export const terrainGap: HopRule = {
  scope: "hop",
  id: "terrain-gap",
  severity: "warning",
  title: "Parts of the profile have no heights",
  checks:
    "Stretches of the path where the rasters hold voids or end, or where a survey made from a map has no heights; where they keep open what an objective asks, not-judged tells them. Gaps that the network lets be bridged by a straight line are told as info.",
  why: "An unknown stretch is not a clear one: the highest hill may stand in it. Clearance, level, margin and availability are computed over the ground that is known, and where they are met there they stay open.",
  fix: "Add a raster that covers the stretch, or a surveyed profile; or let short gaps be bridged with `bridge-gaps` in the network.",
  source: "common practice",
  needs: [],
  quietAfter: ["path-length"],
  good: exampleHop(),
  bad: `site EDGE {\n  at 47.5 -29.9\n}\n\nhop KELD-EDGE {\n  KELD { }\n  EDGE { }\n}`,
  check({ hop, result, openLacks, leaveToCause, report }) {
    if (result.profile === undefined) return;
    const { gaps, bridges = [], kind, highestM } = result.profile;
    const at = kind === "survey" ? address("hop", hop.name, "survey") : address("hop", hop.name);
    const related = groundFiles(result);
    // Where the survey does not reach is told with its length.
    const untold = kind === "survey" ? gaps.filter(({ reason }) => reason === "void") : gaps;
    if (untold.length > 0 && [...openLacks].some(({ of }) => of.includes("profile"))) leaveToCause();
    else if (untold.length > 0) {
      const where =
        highestM === undefined ? `on the whole path (${gapReasons(untold, kind)})` : gapsTold(untold, kind);
      report({
        at,
        message: `no heights ${where}: whether the path is clear there is not known`,
        help: gapsHelp(hop, result, untold),
        related,
      });
    }
    if (bridges.length > 0)
      report({
        at,
        severity: "info",
        message: `no heights ${someTold(bridges.map(stretchTold))}, bridged by a straight line as \`bridge-gaps\` of the network states`,
        related: [{ at: "bridge-gaps", message: "bridges gaps shorter than this" }],
      });
  },
};

/** Files that the profile was read from. */
export function groundFiles({ profile }: HopResult): RelatedPlace[] {
  return (profile?.sources ?? [])
    .slice(0, STRETCHES_TOLD)
    .map(({ file }) => ({ file, message: `${profile!.kind} of this path` }));
}

type Gap = ProfileSummary["gaps"][number];

/** What would fill the gaps. */
export function gapsHelp(
  hop: Hop,
  { profile, survey, distanceM }: HopResult,
  gaps: readonly Gap[],
): string | undefined {
  if (profile?.kind === "survey") {
    if (gaps.every(({ reason }) => reason === "uncovered")) return surveyLength.fix;
    const joined = survey?.sourceStated
      ? ""
      : "; neighbours of a survey made in the field (`by field`) are joined";
    return `A survey made from a map has voids where a row has no height, and where its rows lie more than three usual steps, or 1 km, apart: add the rows that are missing${joined}.`;
  }
  const tiles = tilesOf(hop, distanceM, gaps);
  return tiles.length > 0 ? `Add a raster that covers ${tiles.join(", ")}.` : undefined;
}

/** Degree tiles under the middle of the gaps, named by their south-west corner as height tiles usually are. */
function tilesOf(hop: Hop, distanceM: number | undefined, gaps: readonly Gap[]): string[] {
  const from = hop.ends[0].site.position;
  const to = hop.ends[1].site.position;
  if (from === undefined || to === undefined || distanceM === undefined) return [];
  // By the shorter way around: at 180 degrees longitudes jump.
  const degrees = to.longitudeDeg - from.longitudeDeg;
  const eastwardsDeg = degrees - 360 * Math.round(degrees / 360);
  const names = gaps.map(({ fromM, toM }) => {
    const share = (fromM + toM) / 2 / distanceM;
    const latitudeDeg = from.latitudeDeg + share * (to.latitudeDeg - from.latitudeDeg);
    const unfoldedDeg = from.longitudeDeg + share * eastwardsDeg;
    const longitudeDeg = unfoldedDeg - 360 * Math.floor((unfoldedDeg + 180) / 360);
    return `${tileName(latitudeDeg, longitudeDeg)} (${fixed(latitudeDeg, 3)}, ${fixed(longitudeDeg, 3)})`;
  });
  return [...new Set(names)].slice(0, STRETCHES_TOLD);
}

function tileName(latitudeDeg: number, longitudeDeg: number): string {
  const south = Math.floor(latitudeDeg);
  const west = Math.floor(longitudeDeg);
  const latitude = `${south < 0 ? "S" : "N"}${String(Math.abs(south)).padStart(2, "0")}`;
  return `${latitude}${west < 0 ? "W" : "E"}${String(Math.abs(west)).padStart(3, "0")}`;
}
