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
  /** Whole and checked, but nothing that is shown rests on it: its functions are tagged `@nofigure`. */
  readonly usedByNoFigure?: true;
}

/** Words of a status for people. */
export function statusText(status: MethodStatus): string {
  return status === "from memory" ? "from memory, not checked against the Recommendation" : status;
}
