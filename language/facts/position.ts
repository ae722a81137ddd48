/** Where a site lies: two angles, or projected coordinates with the word of their system. */
import type { Position } from "../../shared/design/design.js";
import { parsePosition } from "../../shared/geodesy/coordinates.js";
import {
  isProjected,
  parseProjected,
  projectedReadings,
  type WrittenSystem,
} from "../../shared/terrain/written-projected.js";
import type { Atom } from "../syntax/tree.js";
import { canonicalAngle } from "./angle.js";
import { type PositionReading, positionReadings } from "./position-readings.js";
import type { Reading } from "./reading.js";

/** Takes every atom that is left: `at` has no other argument. */
export function readPosition(atoms: readonly Atom[], at: number): Reading {
  const rest = atoms.slice(at);
  const range = { start: rest[0]!.start, end: rest.at(-1)!.end };
  const written = rest.map(({ kind, text }) => (kind === "angle" ? canonicalAngle(text) : text)).join(" ");
  const found = isProjected(written) ? projected(written) : angles(written);
  if (found.ok)
    return {
      value: { type: "position", position: found.position, ...(found.system && { system: found.system }) },
      next: atoms.length,
    };
  return {
    problem: {
      rule: "value-range",
      severity: "error",
      ...range,
      message: found.reason,
      help: found.help,
      fixes: found.readings.map(({ certain, newText }) => ({
        title: `Write ${newText}`,
        ...range,
        newText,
        certain,
      })),
    },
    next: atoms.length,
  };
}

type Found =
  | { readonly ok: true; readonly position: Position; readonly system?: WrittenSystem }
  | {
      readonly ok: false;
      readonly reason: string;
      readonly help: string;
      readonly readings: readonly PositionReading[];
    };

function projected(written: string): Found {
  const parsed = parseProjected(written);
  if (parsed.ok) return parsed;
  return {
    ...parsed,
    help: "for example: at utm 32 north 412345 E 5261234 N, or at epsg 25832 412345 E 5261234 N",
    readings: readingsOf(parsed.readings),
  };
}

function angles(written: string): Found {
  const parsed = parsePosition(written);
  if (parsed.ok) return parsed;
  const utm = projectedReadings(written);
  return {
    ...parsed,
    reason:
      utm.length > 0
        ? "these are no angles; projected coordinates begin with the word of their system"
        : parsed.reason,
    help: `for example: at 47.4534 -30.5808, or at 47°27'12.4"N 30°34'51.0"W`,
    readings: utm.length > 0 ? readingsOf(utm) : positionReadings(written),
  };
}

/** One reading alone is beyond doubt. */
function readingsOf(texts: readonly string[]): readonly PositionReading[] {
  return texts.map((newText) => (texts.length === 1 ? { newText, certain: true } : { newText }));
}
