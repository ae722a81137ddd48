import type { MeasuredRain, Polarization } from "../../design/design.js";
import { type RainDistribution, rainDistribution, rainLaw } from "../../propagation/p530/rain.js";
import {
  horizontalFromVertical,
  scaleRainFrequency,
  verticalFromHorizontal,
} from "../../propagation/p530/rain-scaling.js";
import { precipitationDistribution } from "../../propagation/p530/wet-snow.js";
import { coefficientValidity, rainCoefficients } from "../../propagation/p838.js";
import { cite, missing, note, record, refused, remarksOf, type Trace, use } from "../account/trace.js";
import { radiatesBoth, tiltDeg } from "../level/polarization.js";
import { type ClimateInUse, rainRate001, usesUnchecked } from "../path/climate.js";
import type { Passage } from "../path/passage.js";
import type { Fading, FadingPath } from "./fading-model.js";

/** The law of rain on the path, and of rain with wet snow where the rain height and the probability of rain are known. */
export function rainOf(passage: Passage, path: FadingPath): Pick<Fading, "rain" | "precipitation"> {
  const { hop, climate, trace } = passage;
  const law =
    hop.measuredRain === undefined ? lawOfRate(passage, path) : lawOfMeasurement(passage, hop.measuredRain);
  return law === undefined ? {} : { rain: law, precipitation: withWetSnow(law, path, climate, trace) };
}

function lawOfRate(
  { hop, climate, frequencyHz, trace }: Passage,
  path: FadingPath,
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
  const { polarization } = hop;
  use(trace, { code: "polarization", polarization, ...(both && { both: true }) }, "design");
  cite(trace, "specific-rain");
  cite(trace, "rain");
  note(trace, ...remarksOf("rain", rain.validity), ...remarksOf("specific-rain", coefficientValidity(wave)));
  record(trace, "2.4.1", { k: kCoefficient, alpha, ...rain.steps });
  return rain.law;
}

/** Attenuation measured on this path, brought to the hop's frequency and polarization. */
function lawOfMeasurement(
  { hop, climate, frequencyHz, trace }: Passage,
  measured: MeasuredRain,
): RainDistribution | undefined {
  const { attenuation001Db, frequencyHz: measuredHz } = measured;
  use(trace, { code: "measured-rain", attenuationDb: attenuation001Db, frequencyHz: measuredHz }, "design");
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
  cite(trace, "rain-frequency");
  cite(trace, "rain");
  note(trace, ...remarksOf("rain-scaling", scaled.validity));
  record(trace, "2.4.3", { ...scaled.steps, A2Db: scaled.attenuationDb });
  return rainDistribution(scaled.attenuationDb, frequencyHz);
}

function turnedTo(
  wanted: Polarization | undefined,
  { attenuation001Db: attenuationDb, polarization: measured }: MeasuredRain,
  { climate }: ClimateInUse,
  trace: Trace,
): number | undefined {
  const had = measured ?? wanted;
  if (wanted === undefined || had === undefined) return undefined;
  if (wanted === had) return attenuationDb;
  if (wanted === "slant") {
    missing(trace, { code: "refusal", of: ["rain"], reason: { code: "rain-turned-from-slant" } });
    return undefined;
  }
  if (!usesUnchecked(climate, "rain-scaling-with-polarization", trace)) {
    missing(trace, {
      code: "left out",
      of: ["rain"],
      reason: { code: "rain-of-other-polarization" },
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
  cite(trace, "rain-polarization");
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
    use(trace, { code: "rain-height", heightM: rainHeightM }, of);
    note(trace, { code: "rain-alone-counted" });
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
    note(trace, { code: "rain-alone-counted", reason: found.refusal });
    return undefined;
  }
  use(trace, { code: "rain-height", heightM: rainHeightM }, of);
  use(
    trace,
    { code: "rain-probability", timePercent: rainProbabilityPercent! },
    origin("rainProbabilityPercent"),
  );
  cite(trace, "wet-snow");
  const { zone, multipliers } = found.distribution;
  note(trace, { code: zone === "none" ? "path-above-precipitation" : "wet-snow-counted" });
  record(trace, "2.4.2", {
    hrainM: rainHeightM,
    P0Percent: rainProbabilityPercent,
    greatestMultiplier: Math.max(0, ...multipliers.map(({ g }) => g)),
  });
  return found.distribution;
}
