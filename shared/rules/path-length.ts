import { address } from "../design/address.js";
import type { Hop, Position } from "../design/design.js";
import { kilometres } from "../format/numbers.js";
import { inverse } from "../geodesy/geodesic.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

/** Longer than any usual terrestrial hop. */
const LONGEST_HOP_M = 200_000;

export const pathLength: HopRule = {
  scope: "hop",
  id: "path-length",
  severity: "error",
  title: "The two sites must be a hop apart",
  checks: "The length of the path: not zero, and not above 200 km.",
  why: "Coordinates that are exchanged, of another datum or copied from the wrong line show in the length first.",
  fix: "Check latitude and longitude of both sites.",
  source: "common practice",
  needs: [],
  good: exampleHop(),
  bad: `site FAR {\n  at -30.4 47.55\n}\n\nhop KELD-FAR {\n  KELD { }\n  FAR { }\n}`,
  check({ hop, result, report }) {
    const [from, to] = hop.ends;
    if (from.site.position === undefined || to.site.position === undefined) return;
    if (result.distanceM === undefined) {
      if (!isSamePlace(from.site.position, to.site.position)) return;
      const message = `${from.site.name} and ${to.site.name} stand at the same place`;
      report({ at: address("hop", hop.name), message, related: sites(hop) });
    } else if (result.distanceM > LONGEST_HOP_M) {
      const message = `${from.site.name} and ${to.site.name} are ${kilometres(result.distanceM)} apart`;
      report({
        at: address("hop", hop.name),
        message,
        help: exchangedHint(hop),
        related: sites(hop),
        severity: "warning",
      });
    }
  },
};

function isSamePlace(a: Position, b: Position): boolean {
  return a.latitudeDeg === b.latitudeDeg && a.longitudeDeg === b.longitudeDeg;
}

function sites(hop: Hop) {
  return hop.ends.map(({ site }) => ({
    at: address("site", site.name, "at"),
    message: `position of ${site.name}`,
  }));
}

/** Which site comes near when its latitude and longitude change places. */
function exchangedHint(hop: Hop): string | undefined {
  const [a, b] = hop.ends.map(({ site }) => site.position!) as [Position, Position];
  for (const [end, moved, other] of [
    [0, a, b],
    [1, b, a],
  ] as const) {
    const exchanged = { latitudeDeg: moved.longitudeDeg, longitudeDeg: moved.latitudeDeg };
    if (Math.abs(exchanged.latitudeDeg) > 90) continue;
    const { distanceM } = inverse({ from: exchanged, to: other });
    if (distanceM > 0 && distanceM < LONGEST_HOP_M) {
      return `With latitude and longitude of ${hop.ends[end].site.name} exchanged it would be ${kilometres(distanceM)}.`;
    }
  }
  return undefined;
}
