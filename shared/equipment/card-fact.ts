/** Which line of a chassis states a card that has its slot. */
import { nth } from "../design/address.js";
import type { PlacedCard } from "./placement.js";

/** @returns step of an address below that of the chassis: `slot#2`; of equal cards without a slot, the first line */
export function cardFact({ chassis, slot, card, automatic }: PlacedCard): string {
  return automatic
    ? nth(
        "card",
        Math.max(
          0,
          chassis.loose.findIndex((line) => line.card === card),
        ),
      )
    : nth(
        "slot",
        Math.max(
          0,
          chassis.slots.findIndex((line) => line.slot === slot),
        ),
      );
}
