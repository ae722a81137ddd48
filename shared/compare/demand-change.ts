/** What a change makes of demands, and of what hops have to carry: plain data. */
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

/** A demand whose figures a change makes others. */
export interface DemandChange {
  readonly demand: string;
  readonly title?: string;
  readonly figures: readonly DemandFigureChange[];
  /** What did it, its own edit first: `demand HALL`, `hop KELD-TARN removed`, `traffic`. */
  readonly because: readonly string[];
  readonly worse: boolean;
}

/** A hop that carried too much in a failure before and does so now, or is outgrown in another year: by how much. */
export interface LoadChange {
  readonly hop: string;
  readonly figures: readonly DemandFigureChange[];
  /** What did it: `demand HALL`, `hop KELD-TARN removed`, `traffic`. */
  readonly because: readonly string[];
  readonly worse: boolean;
}
