import type { Antenna } from "../../design/catalogue.js";
import type { Hop, Surface, SurfaceKind } from "../../design/design.js";
import { earthBulgeM } from "../../propagation/earth.js";
import {
  lobeSpacing,
  type ReflectionGeometry,
  type ReflectionInputs,
  reflectionGeometry,
} from "../../propagation/p530/reflection.js";
import { effectiveReflection } from "../../propagation/p530/reflection-coefficient.js";
import { discriminationDb } from "../../radio/discrimination.js";
import { closeToEnds, withPointsAt } from "../../terrain/between.js";
import type { TerrainProfile } from "../../terrain/profile.js";
import type { ReflectionEnd, ReflectionResult } from "../account/reflection-result.js";
import { cite, note, type Trace } from "../account/trace.js";
import type { Course, Heights } from "./geometry.js";
import type { GroundPath } from "./ground-path.js";
import { meanHeight } from "./profile.js";

/**
 * Constants of the surfaces at microwaves: usual figures, from memory, of a calm and smooth surface, which is the
 * worst case. At the few milliradians of a terrestrial path the reflection hardly depends on them.
 */
const SURFACES: Readonly<
  Record<Exclude<SurfaceKind, "rough">, { permittivity: number; conductivity: number }>
> = {
  water: { permittivity: 80, conductivity: 0.01 },
  sea: { permittivity: 70, conductivity: 5 },
  flat: { permittivity: 30, conductivity: 0.01 },
};

/** Range of k looked at where the objective names none: sub-refraction to a strong super-refraction (own choice). */
const LEAST_K = 0.9;
const GREATEST_K = 10;

/** A ratio above this cancels by more than 60 dB, which no real surface does: told as a bound. */
const GREATEST_RATIO = 0.999;

/** One result for each reflecting surface of the hop at the higher of both frequencies. */
export function reflectionsOf(
  hop: Hop,
  { course, heights, profile, kFactor: medianK }: PathOverSurfaces,
  trace: Trace,
): readonly ReflectionResult[] | undefined {
  const frequencyHz = Math.max(0, ...hop.ends.map(({ transmitFrequencyHz = 0 }) => transmitFrequencyHz));
  if (!(frequencyHz > 0)) return undefined;
  const fine = profile?.straight ? withPointsAt(profile, closeToEnds(course.distanceM)) : profile;
  const path = { hop, course, heights, profile: fine, medianK, frequencyHz };
  const results = (hop.surfaces ?? [])
    .filter(({ kind }) => kind !== "rough")
    .flatMap((surface) => reflectionOf(path, surface, trace) ?? []);
  return results.length === 0 ? undefined : results;
}

/** What is known of the ground may be no more than the heights that the surfaces state. */
type PathOverSurfaces = Pick<GroundPath, "course" | "heights" | "kFactor"> & Partial<GroundPath>;

interface Path {
  readonly hop: Hop;
  readonly course: Course;
  readonly heights: Heights;
  readonly profile: TerrainProfile | undefined;
  readonly medianK: number;
  readonly frequencyHz: number;
}

function reflectionOf(path: Path, surface: Surface, trace: Trace): ReflectionResult | undefined {
  const { hop, course, heights, medianK } = path;
  const { kind, fromM, toM } = surface;
  const notCounted = { code: "surface-not-counted", surface: kind, fromM, toM } as const;
  const surfaceAslM =
    surface.heightM ?? (path.profile && meanHeight(path.profile, surface.fromM, surface.toM));
  if (surfaceAslM === undefined) {
    note(trace, notCounted);
    return undefined;
  }
  const inputs = (k: number): ReflectionInputs => ({
    distanceM: course.distanceM,
    frequencyHz: path.frequencyHz,
    k,
    antenna1AboveSurfaceM: heights.antennaAslM[0] - surfaceAslM,
    antenna2AboveSurfaceM: heights.antennaAslM[1] - surfaceAslM,
  });
  const criteria = (hop.objective?.clearance ?? []).map(({ kFactor }) => kFactor);
  const kRange = [Math.min(LEAST_K, medianK, ...criteria), Math.max(GREATEST_K, medianK)] as const;
  const median = reflectionGeometry(inputs(medianK));
  const steep = reflectionGeometry(inputs(kRange[1]));
  // Below the horizon at the least k nothing reflects; the range then begins at the median.
  const flat = reflectionGeometry(inputs(kRange[0]));
  for (const geometry of [median, steep]) {
    if (geometry.ok) continue;
    note(trace, { ...notCounted, reason: geometry.refusal });
    return undefined;
  }
  if (!median.ok || !steep.ok) return undefined;
  const low = flat.ok ? flat : median;
  cite(trace, "reflection");
  const at = (geometry: ReflectionGeometry) => pointFromFirst(geometry, inputs(medianK));
  const on = (pointM: number) => pointM >= surface.fromM && pointM <= surface.toM;
  const points = [at(low), at(median), at(steep)];
  const onSurface = Math.max(...points) >= surface.fromM && Math.min(...points) <= surface.toM;
  const geometry = on(at(median)) ? median : on(at(low)) ? low : on(at(steep)) ? steep : median;
  const kFactor = geometry === median ? medianK : geometry === low ? kRange[0] : kRange[1];
  const pointM = at(geometry);
  const angles = anglesDeg(geometry, pointM, course.distanceM);
  const coefficient = coefficientOf(hop, surface.kind, geometry, path.frequencyHz);
  if (coefficient === undefined) return undefined;
  cite(trace, "reflection-coefficient");
  const antennaDiscriminationDb =
    discrimination(hop.ends[0].antenna, angles[0], path.frequencyHz) +
    discrimination(hop.ends[1].antenna, angles[1], path.frequencyHz);
  const ratio = coefficient * 10 ** (-antennaDiscriminationDb / 20);
  const deep = ratio > GREATEST_RATIO;
  const taus = [low, median, steep].map((one) => one.pathDifferenceWavelengths);
  return {
    surface: surface.kind,
    fromM: surface.fromM,
    toM: surface.toM,
    surfaceAslM,
    pointM,
    kFactor,
    onSurface,
    kRange,
    shielded: path.profile && isShielded(path.profile, heights.antennaAslM, pointM, surfaceAslM, kFactor),
    grazingMrad: geometry.grazingMrad,
    divergence: geometry.divergence,
    effectiveRatio: ratio,
    antennaDiscriminationDb,
    deepestFadeDb: -20 * Math.log10(1 - Math.min(ratio, GREATEST_RATIO)),
    deepestFadeBound: deep ? "at least" : undefined,
    highestGainDb: 20 * Math.log10(1 + ratio),
    pathDifferenceWavelengths: geometry.pathDifferenceWavelengths,
    spanWavelengths: Math.max(...taus) - Math.min(...taus),
    ends: [endOf(hop, 0, inputs(kFactor), geometry, trace), endOf(hop, 1, inputs(kFactor), geometry, trace)],
  };
}

function pointFromFirst(geometry: ReflectionGeometry, inputs: ReflectionInputs): number {
  return inputs.antenna1AboveSurfaceM >= inputs.antenna2AboveSurfaceM
    ? geometry.distanceFromHigherM
    : geometry.distanceFromLowerM;
}

/** Between direct and reflected ray at each antenna: twice the grazing angle times the other leg's share of the path. */
function anglesDeg(
  geometry: ReflectionGeometry,
  pointM: number,
  distanceM: number,
): readonly [number, number] {
  const twiceDeg = (2 * geometry.grazingMrad * 180) / (1000 * Math.PI);
  // Rounding may put the point a hair beyond an end.
  const share = Math.min(1, Math.max(0, pointM / distanceM));
  return [twiceDeg * (1 - share), twiceDeg * share];
}

function discrimination(antenna: Antenna | undefined, angleDeg: number, frequencyHz: number): number {
  return antenna === undefined ? 0 : discriminationDb(antenna, angleDeg, frequencyHz);
}

function coefficientOf(
  hop: Hop,
  kind: SurfaceKind,
  geometry: ReflectionGeometry,
  frequencyHz: number,
): number | undefined {
  if (kind === "rough") return undefined;
  const { permittivity, conductivity } = SURFACES[kind];
  const found = effectiveReflection({
    frequencyHz,
    grazingMrad: geometry.grazingMrad,
    // Slanted waves are half horizontal, which reflects the more.
    polarization: hop.polarization === "vertical" ? "vertical" : "horizontal",
    relativePermittivity: permittivity,
    conductivitySPerM: conductivity,
    roughnessM: 0,
    divergence: Math.min(1, geometry.divergence),
  });
  return found.ok ? found.coefficient : undefined;
}

function endOf(
  hop: Hop,
  end: 0 | 1,
  inputs: ReflectionInputs,
  geometry: ReflectionGeometry,
  trace: Trace,
): ReflectionEnd {
  const { site, antennaHeightM } = hop.ends[end];
  const { antenna1AboveSurfaceM: one, antenna2AboveSurfaceM: other } = inputs;
  const lobes = lobeSpacing(
    end === 0 ? inputs : { ...inputs, antenna1AboveSurfaceM: other, antenna2AboveSurfaceM: one },
  );
  if (!lobes.ok) return { site: site.name };
  cite(trace, "reflection-spacing");
  // The reflection turns the wave over, so the two rays add where the difference is an odd number of half waves.
  const tau = geometry.pathDifferenceWavelengths;
  const shiftM = (0.5 - (tau - Math.floor(tau))) * lobes.lobeSpacingM;
  const heightM = antennaHeightM === undefined ? undefined : antennaHeightM + shiftM;
  return {
    site: site.name,
    lobeSpacingM: lobes.lobeSpacingM,
    bestSpacingM: lobes.bestSpacingM,
    heightOfMaximumM: heightM !== undefined && heightM > 0 ? heightM : undefined,
  };
}

/** Close to the reflection point the ray runs along the surface itself; that part of the path is not looked at. */
const NEAR_THE_POINT = 0.03;

/** Whether terrain stands above either leg of the reflected ray, over an Earth of k a; undefined: unknown ground may. */
function isShielded(
  profile: TerrainProfile,
  antennaAslM: readonly [number, number],
  pointM: number,
  surfaceAslM: number,
  k: number,
): boolean | undefined {
  const { distanceM, heightM, coverM } = profile;
  const lengthM = distanceM.at(-1)!;
  for (let i = 1; i < heightM.length - 1; i++) {
    const at = distanceM[i]!;
    if (Math.abs(at - pointM) < NEAR_THE_POINT * lengthM) continue;
    const [startM, endM, startAslM, endAslM] =
      at < pointM ? [0, pointM, antennaAslM[0], surfaceAslM] : [pointM, lengthM, surfaceAslM, antennaAslM[1]];
    const share = (at - startM) / (endM - startM);
    const bulgeM = earthBulgeM(at - startM, endM - at, k);
    const topM = heightM[i]! + (coverM?.[i] ?? 0);
    if (topM + bulgeM > startAslM + (endAslM - startAslM) * share) return true;
  }
  return profile.gaps.length > 0 ? undefined : false;
}
