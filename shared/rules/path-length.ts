import { address } from "../design/address.js";
import type { Hop, HopEnd, Position } from "../design/design.js";
import type { HopResult } from "../evaluate/account/result.js";
import { kilometres } from "../format/numbers.js";
import { inverse } from "../geodesy/geodesic.js";
import { mendedBy } from "../geodesy/slips.js";
import { exampleHop } from "./example-preamble.js";
import { USUAL_HOP_M } from "./position-slips.js";
import type { HopRule } from "./rule.js";

/** Longer than any usual terrestrial hop. */
const LONGEST_HOP_M = 200_000;

/** Whether the rule tells a hop's length, no milder than it is of itself: what would explain it is told there. */
export function lengthTold({ accepts, policy }: Hop, { distanceM }: HopResult): boolean {
  const isOwn = ({ rule }: { readonly rule: string }) => rule === pathLength.id;
  const milder = policy?.statements.some((one) => isOwn(one) && one.severity !== undefined) ?? false;
  return distanceM !== undefined && distanceM > LONGEST_HOP_M && !milder && !accepts.some(isOwn);
}

export const pathLength: HopRule = {
  scope: "hop",
  id: "path-length",
  severity: "error",
  title: "The two sites must be a hop apart",
  checks: "The length of the path: not zero, and not above 200 km.",
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
    } else if (result.distanceM > LONGEST_HOP_M) {
      const message = `${from.site.name} and ${to.site.name} are ${kilometres(result.distanceM)} apart`;
      report({
        at: address("hop", hop.name),
        message,
        help: slipHint(hop, result.distanceM),
        related: sites(hop),
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

/** The slip that would explain the length: without it the hop were a usual one, and a fraction as long. */
function slipHint(hop: Hop, distanceM: number): string | undefined {
  const [a, b] = hop.ends.map(({ site }) => site) as [HopEnd["site"], HopEnd["site"]];
  const [ofFirst, ofSecond] = [explaining(a, b), explaining(b, a)];
  const best = [...ofFirst, ...ofSecond].sort((one, other) => one.lengthM - other.lengthM)[0];
  if (best === undefined || !(best.lengthM < distanceM / 4)) return undefined;
  // A wrong sign at one site looks the same as at the other: only their neighbours tell which.
  const either = [ofFirst, ofSecond].every((of) =>
    of.some(({ said, lengthM }) => said === best.said && Math.abs(lengthM - best.lengthM) < 1),
  );
  const where = either ? `${a.name} or ${b.name}` : best.site;
  return `With ${best.said} at ${where} it would be ${kilometres(best.lengthM)}.`;
}

/** What the length would be with a slip of one site mended, where that is a usual one. */
function explaining(site: HopEnd["site"], other: HopEnd["site"]) {
  return mendedBy(site.position!).flatMap(({ slip: { said }, mended }) => {
    const lengthM = inverse({ from: mended, to: other.position! }).distanceM;
    return lengthM > 0 && lengthM < USUAL_HOP_M ? [{ site: site.name, said, lengthM }] : [];
  });
}
