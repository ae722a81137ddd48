/**
 * Where the equipment of a site is joined to its earth. Common practice, no source: local codes and the owner of the
 * structure come first.
 */
import { cableLength, groundingKits } from "../cable-run.js";
import type { SitePlan } from "../site-plan.js";
import type { Wiring } from "./wiring.js";

export interface EarthPoint {
  /** `chassis A`, `unit KELD-TARN main` */
  readonly part: string;
  readonly what: "stud of the chassis" | "stud of the unit" | "kits along the cable" | "panel of the rack";
  readonly count: number;
}

/** @param everyM a grounding kit for so much cable; undefined: the usual one */
export function earthPoints(plan: SitePlan, wiring: Wiring, everyM?: number): readonly EarthPoint[] {
  const ends = new Map(plan.ends.map((one) => [one.hop.name, one]));
  return [...wiring.parts.values()].flatMap(({ id, kind, of }): EarthPoint[] => {
    if (kind === "chassis") return [{ part: id, what: "stud of the chassis", count: 1 }];
    if (kind === "balun") return [{ part: id, what: "panel of the rack", count: 1 }];
    if (kind !== "unit") return [];
    const end = of && ends.get(of.hop);
    if (end?.facts?.outdoorUnits === 0) return [];
    const stud: EarthPoint = { part: id, what: "stud of the unit", count: 1 };
    const cable = end?.end.installation?.cable;
    const length = end && cableLength(end.end, plan.equipment);
    // Fibre has no screen to earth.
    if (cable === undefined || cable.kind === "fibre" || length === undefined) return [stud];
    return [stud, { part: id, what: "kits along the cable", count: groundingKits(length.lengthM, everyM) }];
  });
}
