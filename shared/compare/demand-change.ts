/** A demand whose figures a change makes others: plain data. */
export interface DemandFigureChange {
  readonly kind:
    | "route"
    | "second-route"
    | "availability"
    | "availability-with-equipment"
    | "latency"
    | "stricter"
    | "load"
    | "growth";
  readonly label: string;
  /** As printed; undefined: there is none, or it could not be computed. */
  readonly was?: string;
  readonly is?: string;
  /** As printed, with its sign; undefined where one side is missing, and of routes. */
  readonly difference?: string;
  /** The same as a number, in percent, seconds or bit/s. */
  readonly by?: number;
  readonly verdict: "worse" | "better" | "changed";
}

export interface DemandChange {
  readonly demand: string;
  readonly title?: string;
  readonly figures: readonly DemandFigureChange[];
  /** What changed on its way: `hop KELD-TARN removed`, `demand HALL`, `traffic`. */
  readonly because: readonly string[];
  readonly worse: boolean;
}
