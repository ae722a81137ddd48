import type { Hop, MeasuredRain, Polarization } from "../design/design.js";
import { decibels, frequency, metres, outage } from "../format/numbers.js";
import {
  METHOD as RAIN,
  type RainDistribution,
  rainDistribution,
  rainLaw,
} from "../propagation/p530/rain.js";
import {
  horizontalFromVertical,
  METHOD_FREQUENCY,
  METHOD_POLARIZATION,
  scaleRainFrequency,
  verticalFromHorizontal,
} from "../propagation/p530/rain-scaling.js";
import { precipitationDistribution, METHOD as WET_SNOW } from "../propagation/p530/wet-snow.js";
import { coefficientValidity, rainCoefficients, METHOD as SPECIFIC } from "../propagation/p838.js";
import { type ClimateInUse, rainRate001, usesUnchecked } from "./climate.js";
import type { Fading, FadingPath } from "./fading-model.js";
import { radiatesBoth, tiltDeg } from "./polarization.js";
import { cite, missing, note, record, refused, type Trace, use } from "./trace.js";

/** The law of rain on the path, and of rain with wet snow where the rain height and the probability of rain are known. */
export function rainOf(
  hop: Hop,
  path: FadingPath,
  climate: ClimateInUse,
  frequencyHz: number,
  trace: Trace,
): Pick<Fading, "rain" | "precipitation"> {
  const law =
    hop.measuredRain === undefined
      ? lawOfRate(hop, path, climate, frequencyHz, trace)
      : lawOfMeasurement(hop, hop.measuredRain, climate, frequencyHz, trace);
  return law === undefined ? {} : { rain: law, precipitation: withWetSnow(law, path, climate, trace) };
}

function lawOfRate(
  hop: Hop,
  path: FadingPath,
  climate: ClimateInUse,
  frequencyHz: number,
  trace: Trace,
): RainDistribution | undefined {
  const rainRate001MmH = rainRate001(climate, trace);
  if (rainRate001MmH === undefined || hop.polarization === undefined) return undefined;
  // The path's own elevation changes nothing worth counting on a terrestrial hop.
  const wave = { frequencyHz, polarizationTiltDeg: tiltDeg(hop.polarization) };
  const { k: kCoefficient, alpha } = rainCoefficients(wave);
  const rain = rainLaw({
    rainRate001MmH,
    kCoefficient,
    alpha,
    distanceM: path.course.distanceM,
    frequencyHz,
  });
  if (!rain.ok) {
    refused(trace, "rain", rain.refusal);
    return undefined;
  }
  const both = radiatesBoth(hop) && hop.polarization !== "slant";
  const judged = both ? "both polarizations are on the air; judged for the worse" : undefined;
  use(trace, "polarization", hop.polarization, "design", judged);
  cite(trace, SPECIFIC);
  cite(trace, RAIN);
  note(
    trace,
    ...rain.validity,
    ...coefficientValidity(wave).map((text) => `Specific attenuation of rain: ${text}`),
  );
  record(trace, "2.4.1", { k: kCoefficient, alpha, ...rain.steps });
  return rain.law;
}

/** Attenuation measured on this path, brought to the hop's frequency and polarization. */
function lawOfMeasurement(
  hop: Hop,
  measured: MeasuredRain,
  climate: ClimateInUse,
  frequencyHz: number,
  trace: Trace,
): RainDistribution | undefined {
  const { attenuation001Db, frequencyHz: measuredHz } = measured;
  use(
    trace,
    "rain attenuation measured at 0.01 %",
    `${decibels(attenuation001Db)} at ${frequency(measuredHz)}`,
    "design",
  );
  const turned = turnedTo(hop.polarization, measured, climate, trace);
  if (turned === undefined) return undefined;
  const scaled = scaleRainFrequency({
    fromHz: measuredHz,
    attenuationDb: turned,
    toHz: frequencyHz,
  });
  if (!scaled.ok) {
    refused(trace, "rain", scaled.refusal);
    return undefined;
  }
  cite(trace, METHOD_FREQUENCY);
  cite(trace, RAIN);
  note(trace, ...scaled.validity.map((text) => `Rain scaled with frequency: ${text}`));
  record(trace, "2.4.3", { ...scaled.steps, A2Db: scaled.attenuationDb });
  return rainDistribution(scaled.attenuationDb, frequencyHz);
}

function turnedTo(
  wanted: Polarization | undefined,
  { attenuation001Db: attenuationDb, polarization: had = wanted }: MeasuredRain,
  { climate }: ClimateInUse,
  trace: Trace,
): number | undefined {
  if (wanted === undefined || had === undefined) return undefined;
  if (wanted === had) return attenuationDb;
  if (wanted === "slant" || had === "slant") {
    refused(
      trace,
      "rain",
      "measured rain is turned from horizontal to vertical or back only, not to 45 degrees",
    );
    return undefined;
  }
  if (!usesUnchecked(climate, "Rain outage by the scaling with polarization", trace)) {
    missing(trace, {
      code: "left out",
      of: ["rain"],
      said: "the measured rain is of the other polarization, whose scaling is left out",
    });
    return undefined;
  }
  const turned =
    wanted === "vertical"
      ? verticalFromHorizontal({ attenuationDb })
      : horizontalFromVertical({ attenuationDb });
  if (!turned.ok) {
    refused(trace, "rain", turned.refusal);
    return undefined;
  }
  cite(trace, METHOD_POLARIZATION);
  record(trace, "2.4.4", { turnedDb: turned.attenuationDb });
  return turned.attenuationDb;
}

function withWetSnow(
  law: RainDistribution,
  { heights }: FadingPath,
  { climate, origin }: ClimateInUse,
  trace: Trace,
): Fading["precipitation"] {
  const { rainHeightM, rainProbabilityPercent } = climate;
  if (rainHeightM === undefined) return undefined;
  const highest = Math.max(...heights.antennaAslM);
  const of = origin("rainHeightM");
  // So far below the melting layer the combined method is that of rain alone, whatever the probability of rain.
  const farBelow = highest <= rainHeightM - 3600;
  if (rainProbabilityPercent === undefined && !farBelow) {
    use(trace, "rain height", metres(rainHeightM), of.origin, of.note);
    note(
      trace,
      "Rain alone is counted: the path may reach into the melting layer, but the probability of rain is not known.",
    );
    return undefined;
  }
  if (farBelow) return undefined;
  const found = precipitationDistribution({
    law,
    antenna1AslM: heights.antennaAslM[0],
    antenna2AslM: heights.antennaAslM[1],
    meanRainHeightM: rainHeightM,
    rainProbabilityPercent: rainProbabilityPercent!,
  });
  if (!found.ok) {
    note(trace, `Rain alone is counted: ${found.refusal}`);
    return undefined;
  }
  use(trace, "rain height", metres(rainHeightM), of.origin, of.note);
  use(trace, "probability of rain", outage(rainProbabilityPercent!), origin("rainProbabilityPercent").origin);
  cite(trace, WET_SNOW);
  const { zone, multipliers } = found.distribution;
  note(
    trace,
    zone === "none"
      ? "The path lies above all precipitation that attenuates."
      : "Rain and wet snow are counted together.",
  );
  record(trace, "2.4.2", {
    hrainM: rainHeightM,
    P0Percent: rainProbabilityPercent,
    greatestMultiplier: Math.max(0, ...multipliers.map(({ g }) => g)),
  });
  return found.distribution;
}
