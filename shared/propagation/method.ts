/** Who vouches for a formula: decides what an explanation may claim of a figure. */
export type MethodStatus =
  /** Read in several public implementations that agree and recomputed, or confirmed by independent derivation. */
  | "verified"
  /** Read in at least one public implementation, not beside the Recommendation's own text. */
  | "read in implementations"
  /** Not checked against the Recommendation. */
  | "from memory";

/** The method that a module implements: cited by explanations and listed in the table of standards. */
export interface MethodReference {
  /** With its edition, for example `ITU-R P.530-18`. */
  readonly recommendation: string;
  readonly section: string;
  readonly title: string;
  readonly status: MethodStatus;
  /** What the status rests on, where readings differ, and what is left out. */
  readonly note: string;
  /** What it is held against. */
  readonly checked: {
    readonly by: string;
    /** Files of `tests/vectors/`. */
    readonly vectors?: readonly string[];
    readonly tolerance: string;
  };
  /** Whole and checked, but nothing that is shown rests on it: its functions are tagged `@nofigure`. */
  readonly usedByNoFigure?: true;
}

/** The same of what no Recommendation gives. */
export type MethodStanding = MethodStatus | "own rule" | "common practice";

/** For example `Rec. ITU-R P.530-18 section 2.3.1` or `Rec. ITU-R P.841 Annex 1`. */
export function sourceOf({ recommendation, section }: MethodReference): string {
  const document = recommendation.startsWith("ITU-") ? `Rec. ${recommendation}` : recommendation;
  if (section === "") return document;
  return /^\d/.test(section) ? `${document} section ${section}` : `${document} ${section}`;
}
