/** A finding that the design accepts on purpose. */
export interface Acceptance {
  readonly rule: string;
  readonly reason?: string;
  /** ISO date; undefined: no end. */
  readonly until?: string;
}
