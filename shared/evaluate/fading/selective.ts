import type { RadioMode } from "../../design/catalogue.js";
import type { Climate } from "../../design/climate.js";
import { selectiveOutage } from "../../propagation/p530/selective.js";
import { cite, isFirst, note, record, refused, type Trace, use } from "../account/trace.js";
import { usesUnchecked } from "../path/climate.js";
import type { MultipathFading } from "./fading-model.js";

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
    note(trace, { code: "selective-fading-not-counted" });
    return 0;
  }
  if (!usesUnchecked(climate, "selective-fading", trace)) return 0;
  if (signature === undefined) return byDispersiveMargin(modulation, dispersiveMarginDb!, multipath, trace);
  const { widthHz, depthDb, referenceDelayNs } = signature;
  if (isFirst(trace, signature)) {
    use(trace, { code: "signature", modulation, widthHz, depthDb, referenceDelayNs }, "catalogue");
  }
  cite(trace, "selective");
  const found = selectiveOutage({
    occurrencePercent,
    distanceM,
    minimumPhase: { widthHz, depthDb, referenceDelayNs },
  });
  record(trace, "5.1", found.steps);
  if (found.ok) return found.outageFraction;
  refused(trace, "multipath", found.refusal, { of: mode, figure: "selective-fading" });
  return undefined;
}

/** Dispersive fading taken to follow the deep tail as flat fading does: practice of the trade, no Recommendation. */
function byDispersiveMargin(
  modulation: string,
  dispersiveMarginDb: number,
  { occurrencePercent }: MultipathFading,
  trace: Trace,
): number {
  use(trace, { code: "dispersive-margin", modulation, marginDb: dispersiveMarginDb }, "catalogue");
  cite(trace, "dispersive-margin");
  return Math.min(1, (occurrencePercent / 100) * 10 ** (-dispersiveMarginDb / 10));
}
