/**
 * Where the equipment of a site is joined to its earth. Common practice, no source: local codes and the owner of the
 * structure come first.
 */
import { cableLength, groundingKits } from "../cable-run.js";
import type { SitePlan } from "../site-plan.js";
import { takesOwnFeed } from "./supply.js";
import type { Wiring } from "./wiring.js";

export interface EarthPoint {
  /** `chassis A`, `unit KELD-TARN main` */
  readonly part: string;
  readonly what:
    | "stud of the chassis"
    | "stud of the unit"
    | "kits along the cable"
    | "kits along the supply pair"
    | "kits along the guide"
    | "panel of the rack";
  readonly count: number;
}

/** @param everyM a grounding kit for so much cable; undefined: the usual one */
export function earthPoints(plan: SitePlan, wiring: Wiring, everyM?: number): readonly EarthPoint[] {
  const ends = new Map(plan.ends.map((one) => [one.hop.name, one]));
  const guides = guidesDown(plan, wiring);
  return [...wiring.parts.values()].flatMap(({ id, kind, of }): EarthPoint[] => {
    if (kind === "chassis") return [{ part: id, what: "stud of the chassis", count: 1 }];
    if (kind === "balun") return [{ part: id, what: "panel of the rack", count: 1 }];
    if (kind === "antenna")
      return (guides.get(id) ?? []).map((lengthM) => ({
        part: id,
        what: "kits along the guide",
        count: groundingKits(lengthM, everyM),
      }));
    if (kind !== "unit") return [];
    const end = of && ends.get(of.hop);
    if (end?.facts?.outdoorUnits === 0) return [];
    const stud: EarthPoint = { part: id, what: "stud of the unit", count: 1 };
    const cable = end?.end.installation?.cable;
    const length = end && cableLength(end.end, plan.equipment);
    if (cable === undefined || end === undefined || length === undefined) return [stud];
    const count = groundingKits(length.lengthM, everyM);
    // Fibre has no screen to earth; the pair beside it, as long, has.
    if (takesOwnFeed(end)) return [stud, { part: id, what: "kits along the supply pair", count }];
    return cable.kind === "fibre" ? [stud] : [stud, { part: id, what: "kits along the cable", count }];
  });
}

/** Lengths of the guides that run down from each antenna, m: of radios that stand indoors; the others are short pieces. */
function guidesDown({ ends, equipment }: SitePlan, { parts, joints }: Wiring): Map<string, number[]> {
  const byHop = new Map(ends.map((one) => [one.hop.name, one]));
  const lengths = new Map<string, number[]>();
  for (const { by, ends: both } of joints) {
    const antenna = both.map(({ part }) => parts.get(part)).find((part) => part?.kind === "antenna");
    const end = antenna?.of && byHop.get(antenna.of.hop);
    if (by.kind !== "waveguide" || end?.facts?.construction !== "all-indoor") continue;
    const lengthM = by.lengthM ?? cableLength(end.end, equipment)?.lengthM;
    if (lengthM !== undefined) lengths.set(antenna!.id, [...(lengths.get(antenna!.id) ?? []), lengthM]);
  }
  return lengths;
}
