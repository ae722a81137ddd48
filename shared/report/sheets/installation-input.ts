/** What the sheet that a site is built by is made of. */
import type { Design } from "../../design/design.js";
import type { SitePlan } from "../../equipment/site-plan.js";
import type { HopResult } from "../../evaluate/account/result.js";
import type { Pair } from "../../network/in-network.js";
import type { ErrorsOf } from "./design-errors.js";
import type { MagneticDay } from "./running.js";
import type { SheetWords } from "./words/sheet-words.js";

export interface InstallationInput {
  readonly plan: SitePlan;
  readonly design: Pick<Design, "labels" | "groundingEveryM">;
  /** Of the hops that end there, by name. */
  readonly results: ReadonlyMap<string, HopResult>;
  /** The other hop of a dual-band pair, by the name of its own. */
  readonly pairs: ReadonlyMap<string, Pair>;
  /** What was found at the site, and at the hops that end there. */
  readonly errors: readonly ErrorsOf[];
  /** Undefined: there is none, and bearings for a compass are left out. */
  readonly magneticDay?: MagneticDay | undefined;
  /** Of the design. */
  readonly title?: string;
  readonly name: string;
  readonly words: SheetWords;
  readonly colophon: string;
}
