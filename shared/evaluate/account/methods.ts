/** The methods that figures rest on, a row each: a result names them by identifier, and who shows it looks here. */
import { METHOD as EQUIPMENT } from "../../availability/equipment.js";
import { METHOD_F1668, METHOD_F1703 } from "../../availability/objectives.js";
import { type MethodReference, type MethodStanding, sourceOf } from "../../propagation/method.js";
import { METHOD as INTERFERENCE_LOSS } from "../../propagation/p452/clear-air.js";
import { METHOD as LEAST_LOSS } from "../../propagation/p452/lower-bound.js";
import { METHOD as P525 } from "../../propagation/p525.js";
import { METHOD_DELTA_BULLINGTON } from "../../propagation/p526/delta-bullington.js";
import { METHOD_FRESNEL } from "../../propagation/p526/fresnel.js";
import { METHOD as ANNUAL } from "../../propagation/p530/annual.js";
import { METHOD_CLEAR_AIR, METHOD_PRECIPITATION } from "../../propagation/p530/cross-polar.js";
import { METHOD_FREQUENCY, METHOD_OUTAGE, METHOD_SPACE } from "../../propagation/p530/diversity.js";
import { METHOD as ENHANCEMENT } from "../../propagation/p530/enhancement.js";
import { METHOD as FADES } from "../../propagation/p530/fade-distribution.js";
import { METHOD as MULTIPATH } from "../../propagation/p530/multipath.js";
import { METHOD as MULTIPATH17 } from "../../propagation/p530/multipath17.js";
import { METHOD as RAIN } from "../../propagation/p530/rain.js";
import {
  METHOD_POLARIZATION,
  METHOD_FREQUENCY as RAIN_FREQUENCY,
} from "../../propagation/p530/rain-scaling.js";
import { METHOD_SPACING, METHOD as REFLECTION } from "../../propagation/p530/reflection.js";
import { METHOD as COEFFICIENT } from "../../propagation/p530/reflection-coefficient.js";
import { METHOD as SELECTIVE } from "../../propagation/p530/selective.js";
import { METHOD as TOTAL } from "../../propagation/p530/total.js";
import { METHOD as WET_SNOW } from "../../propagation/p530/wet-snow.js";
import { METHOD as P676 } from "../../propagation/p676.js";
import { METHOD as P835 } from "../../propagation/p835.js";
import { METHOD_RAIN_ZONES } from "../../propagation/p837.js";
import { METHOD as P838 } from "../../propagation/p838.js";
import { METHOD as P841 } from "../../propagation/p841.js";
import { METHOD_DEGRADATION } from "../../radio/degradation.js";
import { METHOD as ENVELOPE_PATTERN } from "../../spectrum/f699.js";
import { METHOD as AVERAGE_PATTERN } from "../../spectrum/f1245.js";
import { METHOD as FILTERS } from "../../spectrum/net-filter-discrimination.js";
import { METHOD as COUPLING } from "../../spectrum/polarization-coupling.js";

/** Identifier of a method; it never changes its meaning. */
export type MethodId =
  | "geodesic"
  | "elevation"
  | "fresnel-zone"
  | "free-space"
  | "gases"
  | "reference-atmosphere"
  | "diffraction"
  | "thermal-noise"
  | "multipath"
  | "multipath-preceding"
  | "fade-distribution"
  | "annual-conversion"
  | "enhancement"
  | "selective"
  | "dispersive-margin"
  | "space-diversity"
  | "frequency-diversity"
  | "diversity-outage"
  | "cross-polar-clear-air"
  | "cross-polar-rain"
  | "specific-rain"
  | "rain"
  | "rain-zones"
  | "rain-frequency"
  | "rain-polarization"
  | "wet-snow"
  | "worst-month"
  | "total-outage"
  | "directions-together"
  | "equipment"
  | "link-availability"
  | "link-quality"
  | "reflection"
  | "reflection-spacing"
  | "reflection-coefficient"
  | "if-cable"
  | "unit-supply"
  | "copper-ethernet"
  | "test-voltage"
  | "consumption"
  | "cooling-air"
  | "battery"
  | "wind-force"
  | "hung-weight"
  | "card-slots"
  | "if-ports"
  | "interference-loss"
  | "interference-least-loss"
  | "pattern-envelope"
  | "pattern-average"
  | "polarization-coupling"
  | "net-filter-discrimination"
  | "threshold-degradation";

export interface MethodRow {
  /** For example `Rec. ITU-R P.530-18 section 2.4.1`. */
  readonly source: string;
  readonly what: string;
  readonly standing: MethodStanding;
  /** Moves no availability: a worst month is told beside it, a sum needs no text. */
  readonly withoutWeight?: true;
  /** Has a rule of its own that tells how it stands. */
  readonly toldApart?: true;
}

/** @param own what the module's own row says more generally */
function row(
  method: MethodReference,
  own: Partial<Pick<MethodReference, "section" | "title">> = {},
): MethodRow {
  return {
    source: sourceOf({ ...method, ...own }),
    what: own.title ?? method.title,
    standing: method.status,
  };
}

export const METHODS: Readonly<Record<MethodId, MethodRow>> = {
  geodesic: { source: "Geodesic on WGS84 (Karney 2013)", what: "Length and azimuths", standing: "verified" },
  elevation: {
    source: "Geometry over the effective Earth",
    what: "Elevation of the ray at both ends",
    standing: "verified",
  },
  "fresnel-zone": row(METHOD_FRESNEL, { section: "2.1", title: "Radius of the first Fresnel zone" }),
  "free-space": row(P525),
  gases: row(P676, { title: "Attenuation by gases, line by line" }),
  "reference-atmosphere": row(P835, { title: "Reference atmosphere at the path's mean height" }),
  diffraction: row(METHOD_DELTA_BULLINGTON, {
    section: "4.5.2",
    title: "Diffraction loss over terrain (delta-Bullington), median k",
  }),
  "thermal-noise": {
    source: "Thermal noise k T0 B at 290 K, B = channel width / 1.15",
    what: "Threshold from noise figure and required SNR",
    standing: "common practice",
  },
  multipath: row(MULTIPATH),
  "multipath-preceding": row(MULTIPATH17),
  "fade-distribution": row(FADES),
  "annual-conversion": row(ANNUAL),
  enhancement: row(ENHANCEMENT),
  selective: row(SELECTIVE),
  "dispersive-margin": {
    source: "Dispersive fade margin",
    what: "Selective outage p0 10^(-margin/10) of the worst month",
    standing: "common practice",
  },
  "space-diversity": row(METHOD_SPACE),
  "frequency-diversity": row(METHOD_FREQUENCY),
  "diversity-outage": row(METHOD_OUTAGE),
  "cross-polar-clear-air": row(METHOD_CLEAR_AIR),
  "cross-polar-rain": row(METHOD_PRECIPITATION),
  "specific-rain": row(P838),
  rain: row(RAIN),
  "rain-zones": { ...row(METHOD_RAIN_ZONES), toldApart: true },
  "rain-frequency": row(RAIN_FREQUENCY),
  "rain-polarization": row(METHOD_POLARIZATION),
  "wet-snow": row(WET_SNOW),
  "worst-month": { ...row(P841), withoutWeight: true },
  "total-outage": { ...row(TOTAL), withoutWeight: true },
  "directions-together": {
    source: "Both directions together",
    what: "Rain of the worse direction, multipath of both",
    standing: "own rule",
  },
  equipment: row(EQUIPMENT),
  "link-availability": row(METHOD_F1703),
  "link-quality": row(METHOD_F1668),
  reflection: row(REFLECTION),
  "reflection-spacing": row(METHOD_SPACING),
  "reflection-coefficient": row(COEFFICIENT),
  "if-cable": {
    source: "Skin effect and loss tangent, a sqrt(f) + b f through the catalogue's points",
    what: "Loss of the IF cable at the unit's highest IF",
    standing: "common practice",
    withoutWeight: true,
  },
  "unit-supply": {
    source: "Ohm's law at constant power, (Vs + sqrt(Vs^2 - 4 P R)) / 2",
    what: "Voltage at the unit and what its cable loses",
    standing: "verified",
    withoutWeight: true,
  },
  "copper-ethernet": {
    source: "IEEE 802.3, types of powered devices",
    what: "What a unit takes from a powered port: its type's cable loss by the share of 100 m",
    standing: "from memory",
    withoutWeight: true,
  },
  "test-voltage": {
    source: "Straight lines between the catalogue's points",
    what: "Test voltage for the received level",
    standing: "own rule",
    withoutWeight: true,
  },
  consumption: {
    source: "Sum of greatest consumptions",
    what: "What is drawn, each unit with the loss in its cable",
    standing: "common practice",
    withoutWeight: true,
  },
  "cooling-air": {
    source: "Energy balance, V = P / (rho cp dT)",
    what: "Air that carries the heat away",
    standing: "verified",
    withoutWeight: true,
  },
  battery: {
    source: "Energy balance, C V DoD k / P, k the share left at the end of its life",
    what: "Hours on battery",
    standing: "common practice",
    withoutWeight: true,
  },
  "wind-force": {
    source: "Form of EN 1991-1-4:2005 section 4, orography and turbulence factors of 1; F = qp C A",
    what: "Peak wind pressure at each height and the force from the front",
    standing: "from memory",
    withoutWeight: true,
  },
  "hung-weight": {
    source: "Sum of weights",
    what: "What hangs on the structure",
    standing: "own rule",
    withoutWeight: true,
  },
  "card-slots": {
    source: "As stated; else the first free slot of the card's kind from a place drawn from its name",
    what: "Which slot takes which card",
    standing: "own rule",
    withoutWeight: true,
  },
  "if-ports": {
    source: "As stated; else from a place drawn from the unit's name, a search where that does not serve all",
    what: "Which IF port serves which unit",
    standing: "own rule",
    withoutWeight: true,
  },
  "interference-loss": row(INTERFERENCE_LOSS),
  "interference-least-loss": row(LEAST_LOSS),
  "pattern-envelope": row(ENVELOPE_PATTERN),
  "pattern-average": row(AVERAGE_PATTERN),
  "polarization-coupling": row(COUPLING),
  "net-filter-discrimination": row(FILTERS),
  "threshold-degradation": row(METHOD_DEGRADATION),
};
