import type { Address } from "./address.js";
import type { Change } from "./change.js";
import type { Severity } from "./severity.js";

/** A place that helps to understand a finding: a fact of the design, or a file (terrain, survey). */
export interface RelatedPlace {
  readonly at?: Address;
  readonly file?: string;
  readonly message: string;
}

/** What a rule has to say about one fact. Data only: every printer lays it out in its own way. */
export interface Finding {
  /** Identifier of the rule; it never changes its meaning. */
  readonly rule: string;
  readonly severity: Severity;
  /** Where it belongs. */
  readonly at: Address;
  /** What it is about, where it is said once for many places: it stays the same finding at whichever of them it is told. */
  readonly about?: string;
  /** One sentence with the numbers in it, as an engineer would say it. */
  readonly message: string;
  /** What to do, if one thing can be named. */
  readonly help?: string;
  /** What `help` proposes as data: with each of them the finding is gone, as was tried. */
  readonly changes?: readonly Change[];
  readonly related?: readonly RelatedPlace[];
  /** Of `not-judged`: the rules whose criteria have no verdict. */
  readonly notJudged?: readonly string[];
  /** Set when the design accepts it. */
  readonly accepted?: { readonly reason?: string; readonly until?: string };
}
