import { address } from "../design/address.js";
import type { Hop, HopEnd, Position } from "../design/design.js";
import { kilometres } from "../format/numbers.js";
import { inverse } from "../geodesy/geodesic.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

/** Longer than any usual terrestrial hop. */
const LONGEST_HOP_M = 200_000;

/** Longer ones are seldom; such a length is told when a slip of the pen explains it. */
const USUAL_HOP_M = 80_000;

export const pathLength: HopRule = {
  scope: "hop",
  id: "path-length",
  severity: "error",
  title: "The two sites must be a hop apart",
  checks:
    "The length of the path: not zero, not above 200 km, and not above 80 km where a wrong sign or an exchange of latitude and longitude at one site explains it. Too long a path is a warning, since it may be meant.",
  why: "Coordinates that are exchanged, of another datum, with the wrong letter or copied from the wrong line show in the length first.",
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
    } else if (result.distanceM > USUAL_HOP_M) {
      const help = slipHint(hop, result.distanceM);
      if (help === undefined && result.distanceM <= LONGEST_HOP_M) return;
      const message = `${from.site.name} and ${to.site.name} are ${kilometres(result.distanceM)} apart`;
      report({
        at: address("hop", hop.name),
        message,
        help,
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

/** What may have gone wrong with one coordinate: mended and in words. */
const SLIPS: readonly { readonly mend: (at: Position) => Position; readonly said: string }[] = [
  {
    mend: ({ latitudeDeg, longitudeDeg }) => ({ latitudeDeg, longitudeDeg: -longitudeDeg }),
    said: "the other sign of the longitude (E for W, or W for E)",
  },
  {
    mend: ({ latitudeDeg, longitudeDeg }) => ({ latitudeDeg: -latitudeDeg, longitudeDeg }),
    said: "the other sign of the latitude (N for S, or S for N)",
  },
  {
    mend: ({ latitudeDeg, longitudeDeg }) => ({ latitudeDeg: longitudeDeg, longitudeDeg: latitudeDeg }),
    said: "latitude and longitude exchanged",
  },
];

/** The slip that would explain the length: without it the hop were a usual one, and a fraction as long. */
function slipHint(hop: Hop, distanceM: number): string | undefined {
  const [a, b] = hop.ends.map(({ site }) => site) as [HopEnd["site"], HopEnd["site"]];
  const explaining = SLIPS.flatMap(({ mend, said }) => {
    const [ofFirst, ofSecond] = [lengthBetween(mend(a.position!), b), lengthBetween(mend(b.position!), a)];
    // A wrong sign at one site looks the same as at the other: only their neighbours tell which.
    const either = Math.abs(ofFirst - ofSecond) < 1;
    return [
      { lengthM: ofFirst, said, where: either ? `${a.name} or ${b.name}` : a.name },
      { lengthM: ofSecond, said, where: b.name },
    ];
  }).filter(({ lengthM }) => lengthM > 0 && lengthM < USUAL_HOP_M && lengthM < distanceM / 4);
  const best = explaining.sort((one, other) => one.lengthM - other.lengthM)[0];
  return best && `With ${best.said} at ${best.where} it would be ${kilometres(best.lengthM)}.`;
}

/** Infinite from where no place is. */
function lengthBetween(from: Position, to: HopEnd["site"]): number {
  if (Math.abs(from.latitudeDeg) > 90) return Number.POSITIVE_INFINITY;
  return inverse({ from, to: to.position! }).distanceM;
}
