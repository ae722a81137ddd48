import { address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import type { ProfileSummary } from "../evaluate/result.js";
import { fixed, kilometres } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

const GAPS_TOLD = 3;

export const terrainGap: HopRule = {
  scope: "hop",
  id: "terrain-gap",
  severity: "warning",
  title: "Parts of the profile have no heights",
  checks: "Stretches of the path where the rasters hold voids or end.",
  why: "An unknown stretch is not a clear one: the highest hill may stand in it.",
  fix: "Add a raster that covers the stretch, or a surveyed profile.",
  source: "common practice",
  needs: [],
  quietAfter: ["path-length", "survey-length"],
  good: exampleHop(),
  bad: `site EDGE {\n  at 47.5 -29.9\n}\n\nhop KELD-EDGE {\n  KELD { }\n  EDGE { }\n}`,
  check({ hop, result, report }) {
    if (result.profile === undefined || result.profile.gaps.length === 0) return;
    const { gaps, sources, highestM } = result.profile;
    const told = gaps.slice(0, GAPS_TOLD).map(stretch).join(", ");
    const more = gaps.length > GAPS_TOLD ? ` and ${gaps.length - GAPS_TOLD} more` : "";
    const tiles = tilesOf(hop, result.distanceM, gaps);
    report({
      at: address("hop", hop.name),
      message:
        highestM === undefined
          ? `no heights on the whole path (${cause(gaps)}): clearance is not judged`
          : `no heights ${told}${more}: clearance is judged over the rest only`,
      help: tiles.length > 0 ? `Add a raster that covers ${tiles.join(", ")}.` : undefined,
      related: sources.slice(0, GAPS_TOLD).map(({ file }) => ({ file, message: "terrain of this path" })),
    });
  },
};

type Gap = ProfileSummary["gaps"][number];

function stretch({ fromM, toM, reason }: Gap): string {
  const place = fromM === toM ? `at ${kilometres(fromM)}` : `from ${kilometres(fromM)} to ${kilometres(toM)}`;
  return `${place} (${WORDS[reason]})`;
}

const WORDS: Readonly<Record<Gap["reason"], string>> = { void: "void in the raster", uncovered: "no raster" };

function cause(gaps: readonly Gap[]): string {
  return [...new Set(gaps.map(({ reason }) => WORDS[reason]))].join(" and ");
}

/** Degree tiles under the middle of the gaps, named by their south-west corner as height tiles usually are. */
function tilesOf(hop: Hop, distanceM: number | undefined, gaps: readonly Gap[]): string[] {
  const from = hop.ends[0].site.position;
  const to = hop.ends[1].site.position;
  if (from === undefined || to === undefined || distanceM === undefined) return [];
  const names = gaps.map(({ fromM, toM }) => {
    const share = (fromM + toM) / 2 / distanceM;
    const latitudeDeg = from.latitudeDeg + share * (to.latitudeDeg - from.latitudeDeg);
    const longitudeDeg = from.longitudeDeg + share * (to.longitudeDeg - from.longitudeDeg);
    return `${tileName(latitudeDeg, longitudeDeg)} (${fixed(latitudeDeg, 3)}, ${fixed(longitudeDeg, 3)})`;
  });
  return [...new Set(names)].slice(0, GAPS_TOLD);
}

function tileName(latitudeDeg: number, longitudeDeg: number): string {
  const south = Math.floor(latitudeDeg);
  const west = Math.floor(longitudeDeg);
  const latitude = `${south < 0 ? "S" : "N"}${String(Math.abs(south)).padStart(2, "0")}`;
  return `${latitude}${west < 0 ? "W" : "E"}${String(Math.abs(west)).padStart(3, "0")}`;
}
