/**
 * Basic transmission loss between two stations on the ground in clear air, not exceeded for a share of time: how strong
 * one station may become at another. Rec. ITU-R P.452-18 (10/2023).
 *
 * Not reciprocal: Fj is built from end t alone, so t is always the interferer. The result is sensitive to the step of
 * the profile: up to 16 dB on a ridge for 450 and 900 m.
 */
import type { MethodReference } from "../method.js";
import { type Outcome, outside, outsideRange, refuse } from "../outcome.js";
import type { GroundPolarization } from "../p526/index.js";
import { specificGasAttenuation } from "../p676.js";
import type { RefusalReason, Remark } from "../remark.js";
import { vapourPressureOfDensityHPa } from "../vapour.js";
import { type Combination, combination } from "./combination.js";
import {
  type Diffraction,
  type DiffractionPair,
  diffractionForTime,
  diffractionPair,
} from "./diffraction.js";
import { type Ducting, ducting } from "./ducting.js";
import type { ClearAirGeometry } from "./geometry.js";
import { type LineOfSight, lineOfSight } from "./line-of-sight.js";
import { type Troposcatter, troposcatter } from "./troposcatter.js";

export const METHOD: MethodReference = {
  recommendation: "ITU-R P.452-18",
  section: "4",
  title: "Loss between stations on the ground in clear air, for interference",
  status: "verified",
  note:
    "Read in implementations of three authors and computed anew; the text itself was not open, equation numbers are those of " +
    "P.452-17. Stated to 50 GHz. Rain scatter (section 5) is left out. Diffraction is the delta-Bullington of P.526.",
  checked: {
    by: "published results of the ITU-R Study Group 3 software; scratch computations and public implementations",
    vectors: ["p452-paths", "p452-cases", "p452-table", "p452-functions", "p452-published"],
    tolerance: "1e-6 dB",
  },
};

/** Shares of time that P.452 is given for, %. */
const LEAST_TIME_PERCENT = 0.001;
const GREATEST_TIME_PERCENT = 50;

/** Where diffraction begins and gas ends, far outside the stated range; and what no antenna leaves. */
const LOWEST_HZ = 10e6;
const HIGHEST_HZ = 1000e9;
const GREATEST_GAIN_DBI = 200;

/** The radio side. */
export interface ClearAirRadio {
  /** 10 MHz to 1000 GHz; stated for 0.1 to 50 GHz. */
  readonly frequencyHz: number;
  readonly polarization: GroundPolarization;
  /** Gains toward the horizons along the path, dBi; they count in troposcatter alone. */
  readonly gainTDbi: number;
  readonly gainRDbi: number;
  /** DRY pressure and temperature at the mean height of the path: 100 to 1200 hPa, 150 to 350 K. */
  readonly dryPressureHPa: number;
  readonly temperatureK: number;
}

/** The loss for one share of time with every step, under the symbols of the Recommendation. */
export interface ClearAirLoss extends LineOfSight, Diffraction, Troposcatter, Ducting, Combination {
  readonly timePercent: number;
}

export interface ClearAirLosses {
  /** In the order asked. */
  readonly losses: readonly ClearAirLoss[];
  /** Of the diffraction that all share. */
  readonly diffraction: DiffractionPair;
  /** Specific attenuation by gas, dB/km, at 7.5 + 2.5 omega g/m3 (of oxygen and of vapour) and at 3 g/m3. */
  readonly gammaOxygenDbPerKm: number;
  readonly gammaVapourDbPerKm: number;
  readonly gammaTropoDbPerKm: number;
}

/**
 * Losses of one path at one frequency for several shares of time; what is independent of time is computed once.
 *
 *     Lb = -5 log(10^(-0.2 Lbs) + 10^(-0.2 Lbam))       (64), of the parts in the modules of this folder
 *     rho = 7.5 + 2.5 omega, in troposcatter 3          g/m3, water vapour for gas (9a)
 *
 * @param geometry from `clearAirGeometry`, shared by frequencies and polarizations
 * @param timePercents p, each 0.001 to 50 %; 20 for the long term, 0.01 for the short (common practice, from memory)
 * @returns LbDb of each, with steps. Refused outside that range of time and for values that mean nothing; always
 *   remarked that rain scatter is not considered; outside 0.1 to 50 GHz remarked and computed all the same
 * @see Rec. ITU-R P.452-18 section 4. Verified, see METHOD
 */
export function clearAirLosses(
  geometry: ClearAirGeometry,
  radio: ClearAirRadio,
  timePercents: readonly number[],
): Outcome<ClearAirLosses> {
  const unusable = radioRefusal(radio, timePercents);
  if (unusable) return refuse(unusable);
  const { frequencyHz } = radio;
  const fGHz = frequencyHz / 1e9;
  const gas = specificGas(radio, 7.5 + 2.5 * geometry.omega);
  const gammaTropoDbPerKm = specificGas(radio, 3).totalDbPerKm;
  const diffraction = diffractionPair(geometry, frequencyHz, radio.polarization);
  const gains = radio.gainTDbi + radio.gainRDbi;
  const losses = timePercents.map((timePercent): ClearAirLoss => {
    const sight = lineOfSight(geometry, fGHz, timePercent, gas.totalDbPerKm);
    const diffracted = diffractionForTime(diffraction, timePercent, geometry.beta0Percent);
    const scattered = troposcatter(geometry, fGHz, timePercent, gains, gammaTropoDbPerKm);
    const ducted = ducting(geometry, fGHz, timePercent, gas.totalDbPerKm);
    const whole = combination(geometry, timePercent, sight, diffracted, ducted.LbaDb, scattered.LbsDb);
    return { timePercent, ...sight, ...diffracted, ...scattered, ...ducted, ...whole };
  });
  const { oxygenDbPerKm: gammaOxygenDbPerKm, waterVapourDbPerKm: gammaVapourDbPerKm } = gas;
  // Every step ends in one of these; looking at each of a hundred numbers costs more than most formulas here.
  const sum = (total: number, one: ClearAirLoss) => total + one.LbDb + one.LbsDb + one.LbaDb + one.LbdDb;
  if (!Number.isFinite(losses.reduce(sum, 0))) return refuse({ code: "beyond-numbers" });
  return {
    ok: true,
    losses,
    diffraction,
    gammaOxygenDbPerKm,
    gammaVapourDbPerKm,
    gammaTropoDbPerKm,
    validity: remarksOf(fGHz),
  };
}

function remarksOf(fGHz: number): readonly Remark[] {
  const outsideStated = outsideRange(fGHz, 0.1, 50, "frequency", "GHz");
  return outsideStated === undefined ? NO_RAIN_SCATTER : [outsideStated, ...NO_RAIN_SCATTER];
}

const NO_RAIN_SCATTER: readonly Remark[] = [{ code: "rain-scatter-not-considered" }];

/** By the dry pressure; remembered, since the module below keeps its last few thousand inputs. */
function specificGas({ frequencyHz, dryPressureHPa, temperatureK }: ClearAirRadio, densityGm3: number) {
  const pressureHPa = dryPressureHPa + vapourPressureOfDensityHPa(densityGm3, temperatureK);
  return specificGasAttenuation({
    frequencyHz,
    pressureHPa,
    temperatureK,
    waterVapourDensityGm3: densityGm3,
  });
}

function radioRefusal(radio: ClearAirRadio, timePercents: readonly number[]): RefusalReason | undefined {
  const { frequencyHz, gainTDbi, gainRDbi, dryPressureHPa, temperatureK } = radio;
  let unusable =
    outside({ frequencyHz }, LOWEST_HZ, HIGHEST_HZ) ??
    outside({ gainTDbi, gainRDbi }, -GREATEST_GAIN_DBI, GREATEST_GAIN_DBI) ??
    outside({ dryPressureHPa }, 100, 1200) ??
    outside({ temperatureK }, 150, 350);
  for (const timePercent of timePercents) {
    unusable ??= outside({ timePercent }, LEAST_TIME_PERCENT, GREATEST_TIME_PERCENT);
  }
  return unusable;
}
