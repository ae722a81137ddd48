import { address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import type { EndGeometry } from "../evaluate/account/path-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { metres } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import { meantWords, unitOfGround } from "./feet.js";
import { GROUND_TOLERANCE_M, HOPELESS_GROUND_M } from "./ground-differs-from-terrain.js";
import { spotKey } from "./position-slips.js";
import { gathering, type NetworkContext } from "./rule.js";

export const surveyDiffersFromTerrain = gathering<HopResult>({
  scope: "network",
  ofResults: true,
  id: "survey-differs-from-terrain",
  severity: "warning",
  title: "Survey and terrain disagree about a site",
  checks:
    "Ground that a survey gives a site, where the design states none, against the terrain at its position, or against what the site's other hops have without a survey; 15 m allowed. An error, whatever `severity` says, where they are more than 100 m apart, where the figure fits in feet, or where the survey fits counted from the other end.",
  why: "A survey counted from the wrong end, of another path, or in feet clears what the path does not; and a site stands at one height, whichever of its hops is looked at.",
  fix: "Name the end that the distances count from, and state the unit of heights in the header line. Where the survey is right, accept the finding on the hop.",
  source: "common practice",
  good: exampleHop({ more: 'survey "too-long.csv" from KELD by map' }),
  bad: exampleHop({ more: 'survey "in-feet.csv" from KELD by field' }),
  each: "hop",
  note: ({ surveyFile }, result) => (surveyFile === undefined ? undefined : result),
  tell(noted, context) {
    for (const { hop, note } of noted) judge(hop, note, context);
  },
});

interface Disagreeing {
  readonly site: string;
  readonly surveyedM: number;
  readonly terrainM: number;
}

function judge(hop: Hop, { geometry, profile }: HopResult, context: NetworkContext): void {
  if (profile?.kind !== "survey" || geometry === undefined) return;
  const ends = geometry.map((end) => ({ end, terrainM: terrainAt(hop, end, context) }));
  const off = ends.flatMap(({ end: { site, groundM, groundFrom }, terrainM }): Disagreeing[] =>
    // What the design states itself is held against the survey elsewhere.
    groundFrom === "survey" && terrainM !== undefined && Math.abs(groundM - terrainM) > GROUND_TOLERANCE_M
      ? [{ site, surveyedM: groundM, terrainM }]
      : [],
  );
  const [first] = off;
  if (first === undefined) return;
  const unit = unitOfGround(first.surveyedM, first.terrainM, GROUND_TOLERANCE_M);
  const turned = off.length === 2 && fitsTurned(off);
  const isHopeless = off.some(
    ({ surveyedM, terrainM }) => Math.abs(surveyedM - terrainM) > HOPELESS_GROUND_M,
  );
  const other = hop.ends[hop.surveyReversed ? 0 : 1].site.name;
  context.report(
    {
      at: address("hop", hop.name, "survey"),
      severity: isHopeless || turned || unit !== undefined ? "error" : undefined,
      message: `the survey has ground at ${off.map(words).join(", and at ")}`,
      help: turned ? `Counted from ${other} it fits.` : unit && `${meantWords(first.surveyedM, unit)}.`,
      related: off.map(({ site }) => ({ at: address("site", site, "at"), message: `position of ${site}` })),
    },
    hop.name,
  );
}

function words({ site, surveyedM, terrainM }: Disagreeing): string {
  return `${metres(surveyedM)} at ${site}, where it lies at ${metres(terrainM)}`;
}

function fitsTurned([a, b]: readonly Disagreeing[]): boolean {
  const fits = (one: Disagreeing, other: Disagreeing) =>
    Math.abs(one.surveyedM - other.terrainM) <= GROUND_TOLERANCE_M;
  return fits(a!, b!) && fits(b!, a!);
}

/** By the terrain itself, else by another hop of the site. */
function terrainAt(
  hop: Hop,
  { site }: EndGeometry,
  { design, results, heights }: NetworkContext,
): number | undefined {
  const position = hop.ends.find((end) => end.site.name === site)?.site.position;
  const height = position && heights.get(spotKey(position));
  if (height !== undefined || heights.size > 0) return height;
  for (const name of design.hops.keys())
    for (const other of results.get(name)?.geometry ?? [])
      if (other.site === site && other.groundFrom === "terrain") return other.groundM;
  return undefined;
}
