import type { Climate, RadioMode } from "../design/design.js";
import { bandwidth, decibels } from "../format/numbers.js";
import { METHOD, selectiveOutage } from "../propagation/p530/selective.js";
import { usesUnchecked } from "./climate.js";
import type { MultipathFading } from "./fading-model.js";
import { cite, citeAs, isFirst, note, record, refused, type Trace, use } from "./trace.js";

/**
 * Outage of a mode by selective fading, fraction of the worst month: from its signature, else from its dispersive
 * margin. It does not depend on the flat margin.
 * @returns 0 when the radio says neither, told once; undefined when the method refuses
 */
export function selectiveFraction(
  mode: RadioMode,
  multipath: MultipathFading,
  distanceM: number,
  climate: Climate,
  trace: Trace,
): number | undefined {
  const { occurrencePercent } = multipath;
  if (occurrencePercent === 0) return 0;
  const { signature, dispersiveMarginDb, modulation } = mode;
  if (signature === undefined && dispersiveMarginDb === undefined) {
    note(
      trace,
      "Selective fading is not counted: the radio gives neither a signature nor a dispersive margin.",
    );
    return 0;
  }
  if (!usesUnchecked(climate, "Selective fading", trace)) return 0;
  if (signature === undefined) return byDispersiveMargin(modulation, dispersiveMarginDb!, multipath, trace);
  const { widthHz, depthDb, referenceDelayNs } = signature;
  if (isFirst(trace, signature)) {
    const value = `${bandwidth(widthHz)} wide, ${decibels(depthDb)} deep at ${referenceDelayNs} ns`;
    use(trace, `signature of ${modulation}`, value, "catalogue");
  }
  cite(trace, METHOD);
  const found = selectiveOutage({
    occurrencePercent,
    distanceM,
    minimumPhase: { widthHz, depthDb, referenceDelayNs },
  });
  record(trace, "5.1", found.steps);
  if (found.ok) return found.outageFraction;
  refused(trace, "multipath", `selective fading of ${modulation}: ${found.refusal}`, mode);
  return undefined;
}

/** Dispersive fading taken to follow the deep tail as flat fading does: practice of the trade, no Recommendation. */
function byDispersiveMargin(
  modulation: string,
  dispersiveMarginDb: number,
  { occurrencePercent }: MultipathFading,
  trace: Trace,
): number {
  use(trace, `dispersive margin of ${modulation}`, () => decibels(dispersiveMarginDb), "catalogue");
  citeAs(
    trace,
    "Dispersive fade margin",
    "common practice, unconfirmed",
    "Selective outage p0 10^(-margin/10) of the worst month",
  );
  return Math.min(1, (occurrencePercent / 100) * 10 ** (-dispersiveMarginDb / 10));
}
