/** What the IF cable of a unit loses, beside what the unit makes up for. */
import { cableLength } from "./cable-run.js";
import { type CoaxModel, coaxLoss, fitCoax } from "./coax.js";
import type { SiteEnd, SitePlan } from "./site-plan.js";

export interface IfCableLoss {
  readonly lossDb: number;
  /** Most that the unit equalizes. */
  readonly limitDb: number;
  /** Its highest IF, where both hold. */
  readonly frequencyHz: number;
  readonly lossDbPerM: number;
  readonly lengthM: number;
  readonly estimated: boolean;
  /** Through so many points of the catalogue. */
  readonly points: number;
  readonly model: CoaxModel;
  readonly greatestErrorPercent: number;
}

/** Undefined when cable, its loss, its length or what the unit equalizes is not known. */
export function ifCableLoss(
  { hop, end }: Pick<SiteEnd, "hop" | "end">,
  { equipment }: Pick<SitePlan, "equipment">,
): IfCableLoss | undefined {
  const cable = end.installation?.cable;
  const limit = hop.radio?.unit?.ifLimit;
  const length = cableLength(end, equipment);
  if (cable === undefined || limit === undefined || length === undefined) return undefined;
  const points = cable.loss.flatMap(({ lossDbPerM, frequencyHz }) =>
    frequencyHz === undefined ? [] : [{ lossDbPerM, frequencyHz }],
  );
  const fit = fitCoax(points);
  if (!fit.ok) return undefined;
  const { frequencyHz, lossDb: limitDb } = limit;
  const { model, greatestErrorPercent } = fit;
  const loss = coaxLoss(model, { frequencyHz, lengthM: length.lengthM });
  if (!loss.ok) return undefined;
  const { lossDb, lossDbPerM } = loss;
  return {
    ...{ lossDb, limitDb, frequencyHz, lossDbPerM, ...length },
    ...{ points: points.length, model, greatestErrorPercent },
  };
}
