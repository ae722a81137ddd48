/** The table of standards: what is implemented, how far it is vouched for, how it is checked and to what tolerance. */
import { METHOD as EQUIPMENT } from "../../shared/availability/equipment.js";
import { METHOD_F1668, METHOD_F1703 } from "../../shared/availability/objectives.js";
import { METHOD as OFF_AXIS } from "../../shared/geodesy/off-axis.js";
import { METHOD as ORBIT } from "../../shared/geodesy/orbit.js";
import { type MethodReference, sourceOf } from "../../shared/propagation/method.js";
import { METHOD as P452 } from "../../shared/propagation/p452/clear-air.js";
import { METHOD as P452_BOUND } from "../../shared/propagation/p452/lower-bound.js";
import { METHOD as P452_YEAR } from "../../shared/propagation/p452/worst-month.js";
import { METHOD as P453 } from "../../shared/propagation/p453.js";
import { METHOD as P525 } from "../../shared/propagation/p525.js";
import { METHOD_DELTA_BULLINGTON } from "../../shared/propagation/p526/delta-bullington.js";
import { METHOD_FRESNEL } from "../../shared/propagation/p526/fresnel.js";
import { METHOD_KNIFE_EDGE } from "../../shared/propagation/p526/knife-edge.js";
import { METHOD_SPHERICAL_EARTH } from "../../shared/propagation/p526/spherical-earth.js";
import { METHOD as ANNUAL } from "../../shared/propagation/p530/annual.js";
import { METHOD as CLEARANCE } from "../../shared/propagation/p530/clearance.js";
import { METHOD_CLEAR_AIR, METHOD_PRECIPITATION } from "../../shared/propagation/p530/cross-polar.js";
import {
  METHOD_OUTAGE as DIVERSITY_OUTAGE,
  METHOD_FREQUENCY as FREQUENCY_DIVERSITY,
  METHOD_SPACE as SPACE_DIVERSITY,
} from "../../shared/propagation/p530/diversity.js";
import { METHOD as ENHANCEMENT } from "../../shared/propagation/p530/enhancement.js";
import { METHOD as FADES } from "../../shared/propagation/p530/fade-distribution.js";
import { METHOD as MELTING } from "../../shared/propagation/p530/melting-layer.js";
import { METHOD as MULTIPATH } from "../../shared/propagation/p530/multipath.js";
import { METHOD as ACTIVITY } from "../../shared/propagation/p530/multipath-activity.js";
import { METHOD as MULTIPATH17 } from "../../shared/propagation/p530/multipath17.js";
import { METHOD as RAIN } from "../../shared/propagation/p530/rain.js";
import {
  METHOD_EVENTS,
  METHOD_POLARIZATION,
  METHOD_FREQUENCY as RAIN_FREQUENCY,
} from "../../shared/propagation/p530/rain-scaling.js";
import { METHOD_SPACING, METHOD as REFLECTION } from "../../shared/propagation/p530/reflection.js";
import { METHOD as COEFFICIENT } from "../../shared/propagation/p530/reflection-coefficient.js";
import { METHOD as SELECTIVE } from "../../shared/propagation/p530/selective.js";
import { METHOD as SERIES } from "../../shared/propagation/p530/several-hops.js";
import { METHOD as SHORTER } from "../../shared/propagation/p530/shorter-periods.js";
import { METHOD as TOTAL } from "../../shared/propagation/p530/total.js";
import { METHOD as WET_SNOW } from "../../shared/propagation/p530/wet-snow.js";
import { METHOD as P676 } from "../../shared/propagation/p676.js";
import { METHOD as P835 } from "../../shared/propagation/p835.js";
import { METHOD_RAIN_ZONES, METHOD as P837 } from "../../shared/propagation/p837.js";
import { METHOD as P838 } from "../../shared/propagation/p838.js";
import { METHOD as P840 } from "../../shared/propagation/p840.js";
import { METHOD as P841 } from "../../shared/propagation/p841.js";
import { METHOD as P1144 } from "../../shared/propagation/p1144.js";
import { METHOD_DEGRADATION } from "../../shared/radio/degradation.js";
import { METHOD as ARTICLE21 } from "../../shared/spectrum/article21.js";
import { METHOD as EMISSION } from "../../shared/spectrum/emission-designator.js";
import { METHOD as F699 } from "../../shared/spectrum/f699.js";
import { METHOD as F1245 } from "../../shared/spectrum/f1245.js";
import { METHOD as FILTER } from "../../shared/spectrum/net-filter-discrimination.js";
import { METHOD as COUPLING } from "../../shared/spectrum/polarization-coupling.js";
import { METHOD as US_MASK } from "../../shared/spectrum/us-emission-mask.js";
import { shown } from "../../shared/words/message.js";
import { standingMessage } from "../../shared/words/methods.js";

/** In the order of the page. */
const LISTED: readonly MethodReference[] = [
  MULTIPATH,
  MULTIPATH17,
  FADES,
  ENHANCEMENT,
  ANNUAL,
  SHORTER,
  SERIES,
  RAIN,
  WET_SNOW,
  MELTING,
  RAIN_FREQUENCY,
  METHOD_POLARIZATION,
  METHOD_EVENTS,
  ACTIVITY,
  METHOD_CLEAR_AIR,
  METHOD_PRECIPITATION,
  SELECTIVE,
  SPACE_DIVERSITY,
  FREQUENCY_DIVERSITY,
  DIVERSITY_OUTAGE,
  TOTAL,
  CLEARANCE,
  REFLECTION,
  METHOD_SPACING,
  COEFFICIENT,
  P838,
  P837,
  METHOD_RAIN_ZONES,
  P841,
  P676,
  P835,
  P840,
  P453,
  P1144,
  P525,
  METHOD_FRESNEL,
  METHOD_KNIFE_EDGE,
  METHOD_SPHERICAL_EARTH,
  METHOD_DELTA_BULLINGTON,
  P452,
  P452_BOUND,
  P452_YEAR,
  OFF_AXIS,
  ORBIT,
  F699,
  F1245,
  COUPLING,
  FILTER,
  METHOD_DEGRADATION,
  EMISSION,
  ARTICLE21,
  US_MASK,
  EQUIPMENT,
  METHOD_F1703,
  METHOD_F1668,
];

export function methodsPage(): string {
  const rows = LISTED.map((method) =>
    line([
      sourceOf(method),
      method.title,
      shown(standingMessage(method.status)),
      basisOf(method),
      [method.checked.by, ...(method.checked.vectors ? [method.checked.vectors.join(", ")] : [])].join("; "),
      method.checked.tolerance,
    ]),
  );
  return `${[HEAD, ...rows].join("\n")}\n`;
}

function basisOf({ note, usedByNoFigure }: MethodReference): string {
  return usedByNoFigure ? `Used by no figure. ${note}` : note;
}

const HEAD = `# Standards and methods

Made from the methods themselves (shared); do not edit by hand.

Hopwright computes after the editions named here. Newer ones exist of some (P.530-19, P.837-8, P.526-16); what they
change was not seen. \`verified\`: read in several public implementations that agree and recomputed, or derived
independently. \`read in implementations\`: read in at least one. \`from memory\`: nobody has compared it with the text;
\`unchecked-methods leave-out\` in a climate keeps such methods out of every figure, and each explanation says so.
Nothing drawn only as a curve is built in: the effective Earth radius factor that the clearance is held at comes from
the design's objective. Angle diversity is not built.

Not from any Recommendation, and marked so where they count: both directions together (rain of the worse, multipath of
both), the passing of selective, diversity and cross-polar outage from the worst month to the year by the factor of deep
fading, the dispersive fade margin, the carrier to interference a mode needs (its signal-to-noise ratio), hysteresis as
time lost, the share of a link by length. Of equipment: loss of IF cables (fitted through the catalogue's points),
consumption (sum of greatest ones) and battery by common practice; powered ports after IEEE 802.3 and wind after the form
of EN 1991-1-4 from memory; test voltage, weight and the placing of cards and ports by rules of our own.

A figure that a method gives beyond its stated range counts, and carries a remark wherever it is shown, for these: rain
beyond 60 km and outside 1 to 100 GHz; rain in less than 0.001 % of the year, and cross-polar interference in it, where
the law is continued in its own form as an estimate (\`est.\` beside the figure, behind it the bound that is all the
Recommendation says; beyond the law's greatest attenuation rain counts as nothing; \`rare-rain bound\` in a climate counts
the bound alone); lengths, frequencies, inclinations and spacings beyond those of multipath, of diversity, of cross-polar
interference in rain and of rain scaled with frequency. Rain in more than 1 % of the year is a bound and never a figure.

The vectors named stand in tests/vectors; each file names its source.

| Source | What | Status | What it rests on | Checked by | Tolerance |
| --- | --- | --- | --- | --- | --- |`;

function line(cells: readonly string[]): string {
  return `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
}
