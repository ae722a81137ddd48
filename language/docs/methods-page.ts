/** The table of standards: what is implemented, how far it is vouched for, how it is checked and to what tolerance. */
import { METHOD as EQUIPMENT } from "../../shared/availability/equipment.js";
import { METHOD_F1668, METHOD_F1703 } from "../../shared/availability/objectives.js";
import { type MethodReference, sourceOf } from "../../shared/propagation/method.js";
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
import { shown } from "../../shared/words/message.js";
import { standingMessage } from "../../shared/words/methods.js";

const TWICE = "two independent computations of each step";
const TEN_DIGITS = "1e-6 of each value (ten digits given)";

/** How a method is checked, by which file of tests/vectors where there is one, and to what tolerance. */
const TABLE: readonly (readonly [method: MethodReference, checked: string, tolerance: string])[] = [
  [MULTIPATH, `${TWICE}; two public implementations run; multipath-p530-18`, TEN_DIGITS],
  [MULTIPATH17, `${TWICE}; multipath-p530-17`, TEN_DIGITS],
  [FADES, `${TWICE}; two public implementations run; distribution-all-percentages`, TEN_DIGITS],
  [ENHANCEMENT, `${TWICE}; enhancement`, TEN_DIGITS],
  [ANNUAL, `${TWICE}; annual-conversion`, TEN_DIGITS],
  [SHORTER, `${TWICE}; shorter-periods`, TEN_DIGITS],
  [SERIES, "limits and properties", "exact"],
  [RAIN, `${TWICE}; two public implementations run; rain`, TEN_DIGITS],
  [WET_SNOW, `${TWICE}; rain-wet-snow`, TEN_DIGITS],
  [MELTING, `${TWICE}; one public implementation run; rain-wet-snow`, TEN_DIGITS],
  [RAIN_FREQUENCY, `${TWICE}; one public implementation run; rain-scaling`, TEN_DIGITS],
  [METHOD_POLARIZATION, `${TWICE}; each the inverse of the other; rain-scaling`, TEN_DIGITS],
  [METHOD_EVENTS, `${TWICE}; rain-scaling`, TEN_DIGITS],
  [ACTIVITY, `${TWICE}; xpd`, TEN_DIGITS],
  [METHOD_CLEAR_AIR, `${TWICE}; xpd`, TEN_DIGITS],
  [METHOD_PRECIPITATION, `${TWICE}; xpd`, TEN_DIGITS],
  [SELECTIVE, `${TWICE} of the remembered formula; selective-and-diversity`, TEN_DIGITS],
  [SPACE_DIVERSITY, `${TWICE} of the remembered formula; selective-and-diversity`, TEN_DIGITS],
  [FREQUENCY_DIVERSITY, `${TWICE} of the remembered formula; selective-and-diversity`, TEN_DIGITS],
  [
    DIVERSITY_OUTAGE,
    `${TWICE} of the remembered formula; the branches meet; selective-and-diversity`,
    TEN_DIGITS,
  ],
  [TOTAL, "sums and limits", "exact"],
  [CLEARANCE, `${TWICE}; clearance`, TEN_DIGITS],
  [REFLECTION, `${TWICE}, one of them by bisection; reflection`, TEN_DIGITS],
  [METHOD_SPACING, "derivative of the path difference", "1 % (a finite difference)"],
  [COEFFICIENT, "limits of Fresnel's equations", "1e-9"],
  [
    P838,
    "published values of Study Group 3 and the table of older editions; p838",
    "1e-13; 5e-6 and 1.2e-3 for rounded tables",
  ],
  [P837, "40 ITU-R Study Group 3 values; p837", "1e-5"],
  [METHOD_RAIN_ZONES, "one public source file", "digits printed"],
  [P841, `${TWICE}; branches meet, published inverse follows; worst-month-rain-p841`, TEN_DIGITS],
  [P676, "394 ITU-R Study Group 3 values; p676", "1e-13"],
  [P835, "25 ITU-R Study Group 3 values; p835", "1e-12"],
  [P840, "ITU-R Study Group 3 values; p840", "1e-13"],
  [P453, "ITU-R Study Group 3 values; p453", "1e-13"],
  [P1144, "an independent library; bilinear", "1e-12"],
  [P525, "exact formula and conversions; p525", "1e-12"],
  [METHOD_FRESNEL, "geometry; p526-knife-edge", "1e-12"],
  [METHOD_KNIFE_EDGE, "two forms of the loss and Fresnel integrals; p526-knife-edge", "1e-11 dB"],
  [METHOD_SPHERICAL_EARTH, "a reference implementation; p526-spherical-earth", "1e-7 dB"],
  [
    METHOD_DELTA_BULLINGTON,
    "20 ITU-R examples, two reference implementations; p526-delta-bullington, p526-general-paths",
    "0.01 dB; 1e-7 dB",
  ],
  [EQUIPMENT, "by hand and by enumeration; equipment-availability", TEN_DIGITS],
  [METHOD_F1703, "worked by hand; both rows meet at 250 km", "1e-9"],
  [METHOD_F1668, "worked by hand", "1e-12"],
];

export function methodsPage(): string {
  const rows = TABLE.map(([method, checked, tolerance]) =>
    line([
      sourceOf(method),
      method.title,
      shown(standingMessage(method.status)),
      basisOf(method),
      checked,
      tolerance,
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
time lost, the share of a link by length.

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
