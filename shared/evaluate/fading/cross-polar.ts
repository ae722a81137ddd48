import type { RadioMode } from "../../design/catalogue.js";
import type { Climate } from "../../design/climate.js";
import type { Hop, HopEnd } from "../../design/design.js";
import { antennasUsed } from "../../equipment/mounting.js";
import type { TimeShare } from "../../propagation/outcome.js";
import { clearAirXpdOutage, precipitationXpdOutage } from "../../propagation/p530/cross-polar.js";
import { arrangementByName } from "../../radio/arrangements.js";
import { modeThreshold, noisePowerDbm, symbolRateHz } from "../../radio/threshold.js";
import { cite, note, record, refused, remarksOf, type Trace, use } from "../account/trace.js";
import { rareOutage } from "../path/climate.js";
import type { CrossPolar, Fading } from "./fading-model.js";

/** Gain of a canceller where the radio states none, dB: the usual figure that P.530's text is remembered for. */
const USUAL_XPIC_GAIN_DB = 20;

/** @returns undefined when only one polarization is on the channel, or the antennas' discrimination is not known */
export function crossPolarOf(hop: Hop, from: HopEnd, to: HopEnd, trace: Trace): CrossPolar | undefined {
  if (!arrangementByName(hop.arrangement.name)?.xpicPairs) return undefined;
  const discrimination = [from, to].flatMap((end) => [
    end.antenna?.crossPolarDiscriminationDb,
    ...antennasUsed(hop, end).map(({ antenna }) => antenna?.crossPolarDiscriminationDb),
  ]);
  if (discrimination.some((xpdDb) => xpdDb === undefined)) {
    note(trace, { code: "cross-polar-not-counted" });
    return undefined;
  }
  const antennaXpdDb = Math.min(...(discrimination as number[]));
  use(trace, { code: "antenna-discrimination", discriminationDb: antennaXpdDb }, "catalogue");
  const stated = hop.radio?.xpicGainDb;
  use(
    trace,
    { code: "canceller-gain", gainDb: stated ?? USUAL_XPIC_GAIN_DB },
    stated === undefined ? "default" : "catalogue",
  );
  return { antennaXpdDb, improvementDb: stated ?? USUAL_XPIC_GAIN_DB };
}

export interface CrossPolarOutage {
  /** Fraction of the average worst month in clear air. */
  readonly clearAirFraction: number;
  /** Share of the average year in precipitation; undefined where rain is not known. */
  readonly rain?: TimeShare;
}

/** Outage of one mode by its cross-polar twin; `unknown` when the method refuses. */
export function crossPolarOutage(
  hop: Hop,
  fading: Fading,
  mode: RadioMode,
  climate: Climate,
  trace: Trace,
): CrossPolarOutage | "unknown" | undefined {
  const { crossPolar, multipath, rain, frequencyHz } = fading;
  if (crossPolar === undefined || multipath === undefined) return undefined;
  const carrierToInterferenceDb = requiredRatioDb(hop, mode);
  if (carrierToInterferenceDb === undefined) {
    note(trace, { code: "cross-polar-not-counted", modulation: mode.modulation });
    return undefined;
  }
  use(
    trace,
    {
      code: "required-ratio",
      modulation: mode.modulation,
      ratioDb: carrierToInterferenceDb,
      from: mode.requiredSnrDb === undefined ? "threshold" : "snr",
    },
    "catalogue",
  );
  const { antennaXpdDb, improvementDb } = crossPolar;
  const clearAir = clearAirXpdOutage({
    occurrencePercent: multipath.occurrencePercent,
    antennaXpdDb,
    carrierToInterferenceDb,
    frequencyHz,
    improvementDb,
  });
  cite(trace, "cross-polar-clear-air");
  record(trace, "4.1", clearAir.steps);
  if (!clearAir.ok) {
    refused(trace, "cross-polar", clearAir.refusal, { of: mode, figure: "cross-polar" });
    return "unknown";
  }
  if (rain === undefined) return { clearAirFraction: clearAir.outageFraction };
  const wet = precipitationXpdOutage({
    attenuation001Db: rain.A001Db,
    frequencyHz,
    carrierToInterferenceDb,
    improvementDb,
    rare: rareOutage(climate),
  });
  cite(trace, "cross-polar-rain");
  if (!wet.ok) {
    refused(trace, "cross-polar", wet.refusal, { of: mode, figure: "cross-polar" });
    return "unknown";
  }
  record(trace, "4.2", wet.steps);
  note(trace, ...remarksOf("cross-polar-in-rain", wet.validity));
  return { clearAirFraction: clearAir.outageFraction, rain: wet.time };
}

/** C0/I of a mode: the signal-to-noise ratio it needs, stated or found between its threshold and thermal noise. */
function requiredRatioDb({ radio }: Hop, mode: RadioMode): number | undefined {
  if (mode.requiredSnrDb !== undefined) return mode.requiredSnrDb;
  const threshold = modeThreshold(mode, radio?.noiseFigureDb);
  if (threshold === undefined || radio?.noiseFigureDb === undefined) return undefined;
  return threshold.thresholdDbm - noisePowerDbm(symbolRateHz(mode.bandwidthHz), radio.noiseFigureDb);
}
