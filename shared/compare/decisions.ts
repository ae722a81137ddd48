/** Which decisions changed: was, is, in the words of the language. */
import type { DecidedFact } from "./facts.js";
import { meaningNow, type Renames, siteNow } from "./renames.js";

export interface DecisionChange {
  /** Site of the end that it stands at. */
  readonly site?: string;
  readonly within?: string;
  readonly word: string;
  /** Undefined: was not stated. */
  readonly was?: string;
  /** Undefined: is not stated any more. */
  readonly is?: string;
  /** Set when neither the old nor the new fact stands in the hop itself: the declaration that changed it. */
  readonly from?: string;
}

/**
 * Facts of the same place and word are held against each other; of repeatable ones the equal go first, then those
 * that say most in common. What means the same is no change, however it is written and wherever it stands.
 */
export function decisionChanges(
  was: readonly DecidedFact[],
  is: readonly DecidedFact[],
  renames: Renames,
): DecisionChange[] {
  const placeOf = (fact: DecidedFact, site: string | undefined) =>
    [site ?? "", fact.within ?? "", fact.word].join("\t");
  const before = Map.groupBy(was, (fact) =>
    placeOf(fact, fact.site === undefined ? undefined : siteNow(fact.site, renames)),
  );
  const after = Map.groupBy(is, (fact) => placeOf(fact, fact.site));
  const places = new Set([...after.keys(), ...before.keys()]);
  return [...places].flatMap((place) => changesAt(before.get(place) ?? [], after.get(place) ?? [], renames));
}

function changesAt(
  before: readonly DecidedFact[],
  after: readonly DecidedFact[],
  renames: Renames,
): DecisionChange[] {
  const rest = [...after];
  const changed = before.filter((fact) => {
    const meaning = meaningNow(fact.meaning, renames).join("\t");
    const equal = rest.findIndex((other) => other.meaning.join("\t") === meaning);
    if (equal >= 0) rest.splice(equal, 1);
    return equal < 0;
  });
  const alone = changed.length === 1 && rest.length === 1;
  const changes = changed.map((fact) => {
    const meaning = meaningNow(fact.meaning, renames);
    const inCommon = (other: DecidedFact) => other.meaning.filter((part) => meaning.includes(part)).length;
    const best = rest
      .filter((other) => alone || !fact.repeatable || inCommon(other) > 0)
      .toSorted((a, b) => inCommon(b) - inCommon(a))[0];
    if (best) rest.splice(rest.indexOf(best), 1);
    return change(fact, best, renames);
  });
  return [...changes, ...rest.map((fact) => change(undefined, fact, renames))];
}

function change(was: DecidedFact | undefined, is: DecidedFact | undefined, renames: Renames): DecisionChange {
  const fact = (is ?? was)!;
  const own = [was, is].some((one) => one !== undefined && one.from === undefined);
  return {
    site: is || fact.site === undefined ? fact.site : siteNow(fact.site, renames),
    within: fact.within,
    word: fact.word,
    was: was?.text,
    is: is?.text,
    from: own ? undefined : (is?.from ?? was?.from),
  };
}
