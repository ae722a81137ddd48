/**
 * Intermediate values in words: what the method calls a thing, with its symbol where the Recommendation has one, and its
 * unit. The compiler asks for a row for every step that a method records.
 */
import type { ConversionSteps } from "../propagation/p530/annual.js";
import type { ClearAirXpdSteps, PrecipitationXpdSteps } from "../propagation/p530/cross-polar.js";
import type { DiversitySteps } from "../propagation/p530/diversity.js";
import type { FadeSteps } from "../propagation/p530/fade-distribution.js";
import type { MultipathSteps } from "../propagation/p530/multipath.js";
import type { Multipath17Steps } from "../propagation/p530/multipath17.js";
import type { RainSteps } from "../propagation/p530/rain.js";
import type { SelectiveSteps } from "../propagation/p530/selective.js";

type KeyOf<T> = T extends unknown ? keyof T & string : never;

/** Steps that are words, not figures. */
type NoFigure = "branch" | "sign";

/** What `record` is given beside the steps of a method. */
type OwnKey =
  | "k"
  | "alpha"
  | "Phi1"
  | "Phi2"
  | "H"
  | "A2Db"
  | "turnedDb"
  | "hrainM"
  | "P0Percent"
  | "greatestMultiplier"
  | "I"
  | "ISecond"
  | "unit"
  | "end"
  | "firstEnd"
  | "secondEnd"
  | "bothEnds"
  | "switching"
  | "meanHeightM"
  | "oxygenDbPerKm"
  | "waterVapourDbPerKm";

export type StepKey = Exclude<
  | KeyOf<MultipathSteps | Multipath17Steps | FadeSteps | ConversionSteps | RainSteps>
  | KeyOf<SelectiveSteps | ClearAirXpdSteps | PrecipitationXpdSteps | DiversitySteps>
  | OwnKey,
  NoFigure
>;

/** Words and unit; without a unit it is a pure number. */
export const STEP_WORDS: Readonly<Record<StepKey, readonly [words: string, unit?: string]>> = {
  K: ["geoclimatic factor K"],
  epMrad: ["path inclination |εp|", "mrad"],
  hcM: ["mean clearance over the terrain at k 4/3, hc", "m"],
  hLM: ["height of the lower antenna a.s.l., hL", "m"],
  vsrlim: ["limit of the sub-refraction term, vsrlim"],
  vsrUnlimited: ["sub-refraction term without its limit"],
  vsr: ["sub-refraction term vsr"],
  exponent: ["power of ten at no fade depth"],
  distanceFrequencyFactor: ["length and frequency, d^3.51 (f² + 13)^0.447"],
  p0Percent: ["multipath occurrence factor p0", "%"],

  AtDb: ["fade depth where the deep tail begins, At", "dB"],
  ptPercent: ["share of the worst month at that depth, pt", "%"],
  qaPrime: ["shape of shallow fading at At, qa'"],
  qt: ["shape of shallow fading, qt"],
  qa: ["shape of shallow fading at this margin, qa"],

  latitudeTerm: ["latitude term |cos 2ξ|^0.7"],
  dGUncappedDb: ["worst month to year before its limit", "dB"],
  dGDb: ["worst month to year, ΔG", "dB"],

  k: ["coefficient of specific attenuation k"],
  alpha: ["exponent of the rain rate α"],
  gammaRDbPerKm: ["specific attenuation γR", "dB/km"],
  denominator: ["denominator of the distance factor"],
  r: ["distance factor r"],
  deffKm: ["effective path length deff", "km"],
  A001Db: ["attenuation at 0.01 % of the year, A0.01", "dB"],
  C0: ["coefficient of the rain law C0"],
  C1: ["coefficient of the rain law C1"],
  C2: ["coefficient of the rain law C2"],
  C3: ["coefficient of the rain law C3"],
  Phi1: ["frequency function of the measurement Φ1"],
  Phi2: ["frequency function of the hop Φ2"],
  H: ["exponent of the scaling H"],
  A2Db: ["attenuation scaled to the hop's frequency A2", "dB"],
  turnedDb: ["attenuation in the hop's polarization", "dB"],
  hrainM: ["rain height a.s.l.", "m"],
  P0Percent: ["probability of rain P0", "%"],
  greatestMultiplier: ["greatest multiplier of wet snow"],

  P0: ["multipath occurrence factor P0, fraction"],
  tauMeanNs: ["mean echo delay τm", "ns"],
  eta: ["multipath activity η"],
  termMinimum: ["signature term, minimum phase"],
  termNonMinimum: ["signature term, non-minimum phase"],
  I: ["diversity improvement I"],
  ISecond: ["improvement of the second diversity"],
  kns2: ["squared correlation of flat fading kns²"],
  rw: ["correlation of relative amplitudes rw"],
  ks2: ["squared correlation of selective fading ks²"],
  Pdns: ["flat outage with diversity Pdns, fraction"],
  Pds: ["selective outage with diversity Pds, fraction"],
  kns2Space: ["squared correlation kns², space"],
  kns2Frequency: ["squared correlation kns², frequency"],
  mns: ["combined decorrelation mns"],

  XPD0Db: ["cross-polar discrimination without fading XPD0", "dB"],
  kXP: ["factor of the transmit antennas kXP"],
  QDb: ["decrease of discrimination Q", "dB"],
  CDb: ["constant C = XPD0 + Q", "dB"],
  MXPDDb: ["margin of discrimination MXPD", "dB"],
  UDb: ["discrimination in rain at 1 dB, U", "dB"],
  V: ["slope of discrimination over attenuation V"],
  ApDb: ["equivalent attenuation Ap", "dB"],
  m: ["intermediate value m"],
  n: ["logarithm of the outage in percent n"],

  unit: ["unavailability of one unit, fraction"],
  end: ["unavailability of one end, fraction"],
  firstEnd: ["unavailability of the first end, fraction"],
  secondEnd: ["unavailability of the second end, fraction"],
  bothEnds: ["unavailability of both ends, fraction"],
  switching: ["unavailability by switching over, fraction"],

  meanHeightM: ["mean height of the path a.s.l.", "m"],
  oxygenDbPerKm: ["specific attenuation by oxygen", "dB/km"],
  waterVapourDbPerKm: ["specific attenuation by water vapour", "dB/km"],
};
