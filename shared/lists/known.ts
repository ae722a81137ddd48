/** The design that lists come into. */
import type { Design } from "../design/design.js";
import type { Stocked } from "./part-book.js";

export interface Known {
  /** All that the text declares, whenever it stands: each thing as it stands last. */
  readonly design: Pick<Design, "sites" | "hops">;
  /** What of it does not stand once all that is planned does: `site KELD`, `hop KELD-TARN`. */
  readonly gone: ReadonlySet<string>;
  readonly hopNames: readonly string[];
  readonly objectives: readonly string[];
  readonly stocked: Stocked;
  /** Words that cannot be names of sites, since they mean something else in a hop. */
  readonly taken: ReadonlySet<string>;
}
