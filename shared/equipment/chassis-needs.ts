/** Fan and power cards that a chassis does not work without, against those it has. */
import type { Chassis, ChassisNeed, InstalledChassis } from "../design/equipment.js";
import { isInlet, type PlacedCard } from "./placement.js";

export interface ChassisLack {
  readonly kind: ChassisNeed["kind"];
  readonly needed: number;
  readonly has: number;
  /** As the chassis states; else it has slots for such cards, which ask for one. Common practice. */
  readonly stated: boolean;
}

const KINDS: readonly ChassisNeed["kind"][] = ["fan", "power"];

/**
 * @param cards of one site
 * @returns nothing for a chassis without a card: it is not planned that far
 */
export function chassisLacks(
  installed: InstalledChassis,
  cards: readonly PlacedCard[],
): readonly ChassisLack[] {
  const own = cards.filter(({ chassis }) => chassis === installed);
  const { chassis } = installed;
  if (chassis === undefined || own.length === 0) return [];
  return KINDS.flatMap((kind) => {
    const need = neededBy(chassis, kind);
    const has = own.filter(({ card }) => (kind === "power" ? isInlet(card) : card.kind === kind)).length;
    return has < need.needed ? [{ kind, has, ...need }] : [];
  });
}

function neededBy({ needs, slots }: Chassis, kind: ChassisNeed["kind"]) {
  const stated = needs?.find((need) => need.kind === kind)?.count;
  const usual = slots.some((slot) => slot.kind === kind) ? 1 : 0;
  return { needed: stated ?? usual, stated: stated !== undefined };
}
