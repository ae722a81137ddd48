/** What does not stand at any time, as if it had failed, and how demands go on then. */
import type { Demand } from "../../shared/design/demand.js";
import type { Licence } from "../../shared/design/licence.js";

export class TakenOut {
  static readonly NOTHING = new TakenOut([], new Map());
  /** `hop KELD-TARN` */
  readonly keys: ReadonlySet<string>;

  /** @param goingOn demands that go on otherwise than stated; undefined: not at all */
  constructor(
    hops: readonly string[],
    private readonly goingOn: ReadonlyMap<string, Demand | undefined>,
  ) {
    this.keys = new Set(hops.map((name) => `hop ${name}`));
  }

  /** Nothing is wrong with the licence of a hop that has failed. */
  licencesLeft(licences: readonly Licence[] | undefined): readonly Licence[] | undefined {
    if (this.keys.size === 0) return licences;
    return licences?.filter(({ hop }) => !this.keys.has(`hop ${hop}`));
  }

  demandsLeft(demands: ReadonlyMap<string, Demand>): ReadonlyMap<string, Demand> {
    if (this.goingOn.size === 0) return demands;
    const left = new Map(demands);
    for (const [name, demand] of this.goingOn) {
      if (!left.has(name)) continue;
      if (demand === undefined) left.delete(name);
      else left.set(name, demand);
    }
    return left;
  }
}
