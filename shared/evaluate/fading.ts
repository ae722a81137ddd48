import type { Hop } from "../design/design.js";
import { metres, trimmed } from "../format/numbers.js";
import { METHOD as ANNUAL, annualConversion, annualFadeDistribution } from "../propagation/p530/annual.js";
import { METHOD as DISTRIBUTION, fadeDistribution } from "../propagation/p530/fade-distribution.js";
import { METHOD as MULTIPATH, multipathOccurrence, SHORTEST_PATH_M } from "../propagation/p530/multipath.js";
import { METHOD as MULTIPATH17, multipathOccurrence17 } from "../propagation/p530/multipath17.js";
import { METHOD as RAIN, rainLaw } from "../propagation/p530/rain.js";
import { rainCoefficients, rainValidity } from "../propagation/p838.js";
import type { Fading } from "./availability.js";
import { rainRate001 } from "./climate.js";
import type { Course, Heights } from "./geometry.js";
import type { ProfileSummary } from "./result.js";
import { cite, citeAs, missing, note, type Trace, use } from "./trace.js";

/** The path as the fading methods see it. */
export interface FadingPath {
  readonly course: Course;
  readonly heights: Heights;
  /** The known part of the profile; its mean height enters the multipath method. */
  readonly terrain?: ProfileSummary;
}

/** Multipath (worst month and year) and rain of one direction, each only when its inputs are known. */
export function fadingOf(hop: Hop, path: FadingPath, frequencyHz: number, trace: Trace): Fading {
  return {
    ...multipathOf(hop, path, frequencyHz / 1e9, trace),
    rain: rainOf(hop, path, frequencyHz / 1e9, trace),
  };
}

function multipathOf(
  hop: Hop,
  path: FadingPath,
  frequencyGHz: number,
  trace: Trace,
): Pick<Fading, "multipathMonth" | "multipathYear"> {
  const { course, heights } = path;
  const occurrencePercent = occurrenceOf(hop, path, frequencyGHz, trace);
  if (occurrencePercent === undefined) return {};
  if (occurrencePercent === 0)
    return { multipathMonth: fadeDistribution(0), multipathYear: fadeDistribution(0) };

  const inclinationMrad =
    Math.abs(heights.antennaAslM[0] - heights.antennaAslM[1]) / (course.distanceM / 1000);
  const year = annualConversion({
    latitudeDeg: course.latitudeDeg,
    distanceM: course.distanceM,
    inclinationMrad,
  });
  if (!year.ok) {
    missing(trace, `Multipath: ${year.refusal}`);
    return {};
  }
  note(trace, ...year.validity);
  cite(trace, DISTRIBUTION);
  cite(trace, ANNUAL);
  return {
    multipathMonth: fadeDistribution(occurrencePercent),
    multipathYear: annualFadeDistribution(occurrencePercent, year.conversionDb),
  };
}

/** p0 of the average worst month, percent, by the newest method whose inputs are there. */
function occurrenceOf(hop: Hop, path: FadingPath, frequencyGHz: number, trace: Trace): number | undefined {
  const { logK, dN75, dN1 } = hop.climate;
  const { course, heights, terrain } = path;
  const meanTerrainM = terrain?.meanM;
  if (course.distanceM <= SHORTEST_PATH_M) {
    cite(trace, MULTIPATH);
    note(trace, "Up to 5 km multipath is not reckoned with.");
    return 0;
  }
  const common = {
    distanceM: course.distanceM,
    frequencyGHz,
    antenna1AslM: heights.antennaAslM[0],
    antenna2AslM: heights.antennaAslM[1],
  };
  if (logK !== undefined && dN75 !== undefined && meanTerrainM !== undefined) {
    use(trace, "logK", trimmed(logK, 3), "design");
    use(trace, "dN75", `${trimmed(dN75, 2)} N-units`, "design");
    use(trace, "mean terrain", metres(meanTerrainM), terrain?.kind ?? "terrain");
    cite(trace, MULTIPATH);
    return occurrence(multipathOccurrence({ ...common, logK, dN75, meanTerrainAslM: meanTerrainM }), trace);
  }
  if (dN1 !== undefined) {
    use(trace, "dN1", `${trimmed(dN1, 1)} N/km`, "design");
    cite(trace, MULTIPATH17);
    note(
      trace,
      "Multipath by the initial-planning method of P.530-17 from dN1; logK and dN75 would serve the present edition.",
    );
    return occurrence(multipathOccurrence17({ ...common, dN1 }), trace);
  }
  if (logK !== undefined && dN75 !== undefined) {
    missing(trace, "Multipath outage: the mean terrain height is not known without a profile.");
  } else {
    missing(trace, "Multipath outage: the climate gives neither logK with dN75 nor dN1.");
  }
  return undefined;
}

function occurrence(
  outcome:
    | { ok: true; occurrencePercent: number; validity: readonly string[] }
    | { ok: false; refusal: string },
  trace: Trace,
): number | undefined {
  if (!outcome.ok) {
    missing(trace, `Multipath outage: ${outcome.refusal}`);
    return undefined;
  }
  note(trace, ...outcome.validity);
  return outcome.occurrencePercent;
}

function rainOf(hop: Hop, path: FadingPath, frequencyGHz: number, trace: Trace): Fading["rain"] {
  const rainRate001MmH = rainRate001(hop.climate, trace);
  if (rainRate001MmH === undefined || hop.polarization === undefined) return undefined;
  // The path's own elevation changes nothing worth counting on a terrestrial hop.
  const wave = { frequencyGHz, polarizationTiltDeg: hop.polarization === "horizontal" ? 0 : 90 };
  const { k: kCoefficient, alpha } = rainCoefficients(wave);
  const rain = rainLaw({
    rainRate001MmH,
    kCoefficient,
    alpha,
    distanceM: path.course.distanceM,
    frequencyGHz,
  });
  if (!rain.ok) {
    missing(trace, `Rain outage: ${rain.refusal}`);
    return undefined;
  }
  use(trace, "polarization", hop.polarization, "design");
  citeAs(trace, "Rec. ITU-R P.838-3", "verified", "Specific rain attenuation");
  cite(trace, RAIN);
  note(trace, ...rain.validity, ...rainValidity(wave));
  return rain.law;
}
