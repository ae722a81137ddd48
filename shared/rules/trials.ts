/** Advice is tried before it is given: the hop with a change, evaluated and judged as the hop itself was. */
import type { Address } from "../design/address.js";
import { type Change, type Stock, withChange } from "../design/change.js";
import type { Hop } from "../design/design.js";
import type { Finding } from "../design/finding.js";
import type { HopResult } from "../evaluate/account/result.js";

/** What a host lends to a judgement. Nothing of it is asked for a hop that has nothing to be mended. */
export interface Trials {
  /** For the frequencies of the hop. */
  readonly stock: Stock;
  /** Over the same ground. */
  evaluate(changed: Hop): HopResult;
}

/** Findings, with the rules of which nobody knows what they would find. */
export interface Judged {
  readonly findings: readonly Finding[];
  readonly passedOver: ReadonlySet<string>;
}

interface Attempt {
  readonly result: HopResult;
  /** The rule finds nothing any more that is not accepted, and what it judges is judged. */
  readonly mends: boolean;
  /** Rules that find an error which was not there before. */
  readonly brings: readonly string[];
}

export interface Tried {
  readonly stock: Stock;
  /**
   * @param at where the finding stands, of several that the rule may have
   * @returns undefined where the hop has no place for the change
   */
  attempt(rule: string, change: Change, at?: Address): Attempt | undefined;
}

/**
 * @param judge judges a hop without trying anything
 * @param uncovers whether a rule is quiet behind the other: mending that one uncovers it, which is no fault of the change
 */
export function triedOn(
  hop: Hop,
  result: HopResult,
  trials: Trials,
  judge: (hop: Hop, result: HopResult) => Judged,
  uncovers: (rule: string, hidden: string) => boolean,
): Tried {
  let before: ReadonlySet<string> | undefined;
  const known = new Map<string, (Judged & { readonly result: HopResult }) | undefined>();
  const outcomeOf = (change: Change) => {
    const key = JSON.stringify(change);
    if (!known.has(key)) {
      const changed = withChange(hop, change, trials.stock);
      const after = changed && trials.evaluate(changed);
      known.set(key, after && { result: after, ...judge(changed, after) });
    }
    return known.get(key);
  };
  return {
    get stock() {
      return trials.stock;
    },
    attempt(rule, change, at) {
      const outcome = outcomeOf(change);
      if (outcome === undefined) return undefined;
      before ??= errorsOf(judge(hop, result).findings);
      const { findings, passedOver } = outcome;
      return {
        result: outcome.result,
        mends:
          !passedOver.has(rule) &&
          !findings.some(
            (one) => one.rule === rule && one.accepted === undefined && (at === undefined || one.at === at),
          ),
        brings: [...errorsOf(findings)].filter(
          (one) => one !== rule && !before!.has(one) && !uncovers(rule, one),
        ),
      };
    },
  };
}

function errorsOf(findings: readonly Finding[]): Set<string> {
  return new Set(
    findings
      .filter(({ severity, accepted }) => severity === "error" && accepted === undefined)
      .map(({ rule }) => rule),
  );
}
