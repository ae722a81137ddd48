/** What a receiver is allowed, as I/N: stated by the network, else what planners allow as a rule. */
import type { InterferenceTerms } from "../design/interference.js";
import { interferenceToNoiseDb } from "../radio/degradation.js";
import { isOwn, type Receiver } from "./station.js";

/** Degradation that planners allow as a rule, where nothing is stated. Common practice, from memory. */
export const USUAL_DEGRADATION_DB = 1;
/** I/N that the receiver of another is left as a rule. From memory (F.758). */
export const USUAL_TOWARD_OTHERS_DB = -10;
/** A limit is passed by more than this: to a hundredth, as it is written. */
export const ROUNDING_DB = 0.005;

/** Most I/N of the sum and of one entry in the long term, and of one in the short term; undefined: any. */
export interface Limits {
  readonly sumDb?: number;
  readonly singleDb?: number;
  readonly shortDb?: number;
}

export function limitsAt({ of }: Receiver, terms: InterferenceTerms): Limits {
  return isOwn(of) ? ofDegradation(terms) : towardOthers(terms);
}

function ofDegradation(terms: InterferenceTerms): Limits {
  const { singleEntryDegradationDb, aggregateDegradationDb, shortTermDegradationDb } = terms;
  const stated = (singleEntryDegradationDb ?? aggregateDegradationDb ?? shortTermDegradationDb) !== undefined;
  const ratio = (db: number | undefined) =>
    db === undefined ? undefined : interferenceToNoiseDb(db + ROUNDING_DB);
  return {
    sumDb: ratio(stated ? aggregateDegradationDb : USUAL_DEGRADATION_DB),
    singleDb: ratio(singleEntryDegradationDb),
    shortDb: ratio(shortTermDegradationDb),
  };
}

function towardOthers({
  towardOthersLongTermDb: long,
  towardOthersShortTermDb: short,
}: InterferenceTerms): Limits {
  const usual = long === undefined && short === undefined;
  return {
    ...(long !== undefined && { sumDb: long + ROUNDING_DB }),
    ...(usual && { sumDb: USUAL_TOWARD_OTHERS_DB }),
    ...(short !== undefined && { shortDb: short + ROUNDING_DB }),
  };
}
