/** What hangs on the structure and the wind on it, for the structural engineer who releases it: an aid, no proof. */
import type { SitePlan } from "../../equipment/site-plan.js";
import { structureLoad } from "../../equipment/structure-load.js";
import { trimmed } from "../../format/numbers.js";
import type { Fact, Section } from "../document/document.js";
import type { SheetWords } from "./words/sheet-words.js";

export function loadSection(plan: SitePlan, words: SheetWords): Section {
  const { load } = words.installation;
  const { wind, windLimitN, weightLimitKg } = plan.equipment ?? {};
  const { parts, weightKg, windN, unknown, leftOut } = structureLoad(plan);
  const areas = parts.flatMap((part) => part.wind?.areaM2 ?? []);
  const areaM2 = areas.length === 0 ? undefined : areas.reduce((sum, one) => sum + one, 0);
  const open = (label: string, value: number | undefined, digits: number, unit: string): Fact => ({
    label,
    value: value === undefined ? words.common.notStated : words.figure(`${trimmed(value, digits)} ${unit}`),
  });
  const kN = (forceN: number | undefined) => (forceN === undefined ? undefined : forceN / 1000);
  const weighed = parts.some((part) => part.weightKg !== undefined);
  const facts: Fact[] = [
    open(load.weight, weighed ? weightKg : undefined, 1, "kg"),
    open(load.weightLimit, weightLimitKg, 1, "kg"),
    open(load.area, areaM2, 2, "m²"),
    open(load.basicWind, wind?.basicSpeedMPerS, 1, "m/s"),
    open(load.wind, kN(windN), 2, "kN"),
    open(load.windLimit, kN(windLimitN), 2, "kN"),
  ];
  const told = [
    load.told,
    ...(unknown.length === 0 ? [] : [load.without(unknown.join(", "))]),
    load.leftOut(leftOut.includes("mounts")),
  ];
  return {
    id: "load",
    title: load.title,
    blocks: [
      { type: "facts", facts },
      { type: "paragraph", text: { text: told.join(" "), mark: "quiet" } },
    ],
  };
}
