/** Cables, chassis and cards in a few lines. */
import { trimmed } from "../../shared/format/numbers.js";
import type { DesignModel } from "../model/design-model.js";

export function indoorLines(
  model: DesignModel,
  kind: "cable" | "chassis" | "card",
  name: string,
): readonly string[] {
  switch (kind) {
    case "cable": {
      const cable = model.lookup.cable(name);
      return lines(cable?.kind, cable?.longestM === undefined ? undefined : `${cable.longestM} m at most`);
    }
    case "chassis": {
      const chassis = model.lookup.chassis(name);
      const slots = chassis?.slots.map(({ from, to, kind }) =>
        from === to ? `slot ${from} ${kind}` : `slots ${from} to ${to} ${kind}`,
      );
      return lines(
        chassis?.rackUnits === undefined ? undefined : `${trimmed(chassis.rackUnits, 1)} U`,
        slots?.join(", "),
      );
    }
    case "card": {
      const card = model.lookup.card(name);
      const ports = card?.ports.map(
        ({ count, type, powered }) => `${count} ${type}${powered ? " powered" : ""}`,
      );
      return lines(card?.kind, ports?.join(", "), card?.xpic ? "XPIC" : undefined);
    }
  }
}

function lines(...said: readonly (string | undefined)[]): string[] {
  return said.filter((line) => line !== undefined && line !== "") as string[];
}
