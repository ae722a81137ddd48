/** Cables, chassis and cards in a few lines. */
import type { Cable, Card, Chassis } from "../../shared/design/equipment.js";
import { trimmed } from "../../shared/format/numbers.js";

export function cableLines(cable: Cable | undefined): string[] {
  return lines(cable?.kind, cable?.longestM === undefined ? undefined : `${cable.longestM} m at most`);
}

export function chassisLines(chassis: Chassis | undefined): string[] {
  const slots = chassis?.slots.map(({ from, to, kind }) =>
    from === to ? `slot ${from} ${kind}` : `slots ${from} to ${to} ${kind}`,
  );
  return lines(
    chassis?.rackUnits === undefined ? undefined : `${trimmed(chassis.rackUnits, 1)} U`,
    slots?.join(", "),
    chassis?.needs && `needs ${chassis.needs.map(({ count, kind }) => `${count} ${kind}`).join(", ")}`,
  );
}

export function cardLines(card: Card | undefined): string[] {
  const ports = card?.ports.map(({ count, type, powered }) => `${count} ${type}${powered ? " powered" : ""}`);
  return lines(
    card?.kind,
    card?.slotCount === undefined || card.slotCount === 1 ? undefined : `${card.slotCount} slots wide`,
    card?.supplyBuiltIn ? "supply built in" : undefined,
    ports?.join(", "),
    card?.xpic ? "XPIC" : undefined,
    card?.drives && `drives ${card.drives.join(", ")}`,
    card?.highestModulation && `up to ${card.highestModulation}`,
  );
}

function lines(...said: readonly (string | undefined)[]): string[] {
  return said.filter((line) => line !== undefined && line !== "") as string[];
}
