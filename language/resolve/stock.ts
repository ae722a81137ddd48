import type { Design } from "../../shared/design/design.js";
import type { SiteEquipment } from "../../shared/design/equipment.js";
import type { Fact } from "../facts/fact.js";
import { spareRulesOf } from "./equipment.js";
import { fieldsOf, type Names } from "./fields.js";

/** Equipment at sites, and what the network says of spares and grounding; what is not stated is left out. */
export function stockOf(
  network: readonly Fact[],
  equipment: ReadonlyMap<string, SiteEquipment>,
  names: Names,
): Pick<Design, "equipment" | "spares" | "groundingEveryM" | "labels" | "magneticDay"> {
  const spares = spareRulesOf(network);
  return {
    equipment: equipment.size > 0 ? equipment : undefined,
    spares: spares.length > 0 ? spares : undefined,
    ...fieldsOf("network", network, names),
  };
}
