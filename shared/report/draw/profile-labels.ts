/** The labels of a drawn profile: where the path comes nearest to the ground, and what stands on it. */
import type { Hop } from "../../design/design.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { fresnelAsked, kFactor, metres } from "../../format/numbers.js";
import { clearanceAgainst } from "../clearance-against.js";
import { bulgeM, type ProfilePoint, sameK } from "./profile-points.js";

export interface Label {
  readonly distanceM: number;
  /** Height on the drawing, bulge included. */
  readonly drawnM: number;
  readonly text: string;
  /** In short, for a narrow drawing. */
  readonly brief: string;
  readonly tone: "good" | "error" | "accepted" | "info";
}

/** Where the path comes nearest to the ground, for each criterion. */
export function labelsOf(result: HopResult, lengthM: number, k: number, accepted: boolean): Label[] {
  return result.clearance.map((one) => {
    const place = one.obstacle === undefined ? "" : `${shortened(one.obstacle)}: `;
    const clears =
      one.fraction < 0 ? `ray blocked by ${metres(-one.clearanceM)}` : `clears ${clearanceAgainst(one)}`;
    const asks = one.forInformation
      ? kFactor(one.kFactor)
      : `${fresnelAsked(one.requiredFraction)} asked, ${kFactor(one.kFactor)}`;
    const drawnK = sameK(one.kFactor, k) ? k : one.kFactor;
    return {
      distanceM: one.distanceM,
      drawnM: one.obstacleM + bulgeM(one.distanceM, lengthM, drawnK),
      text: `${place}${clears} (${asks})`,
      brief: `${place}${clears} (${kFactor(one.kFactor)})`,
      tone:
        one.forInformation || one.verdict === "open"
          ? "info"
          : one.verdict === "met"
            ? "good"
            : accepted
              ? "accepted"
              : "error",
    };
  });
}

/** Obstacles that are no critical point are named too, while they are few. */
export function obstacleLabels(
  hop: Hop,
  points: readonly ProfilePoint[],
  named: readonly Label[],
  lengthM: number,
  k: number,
): Label[] {
  const others = hop.obstacles.filter(
    ({ distanceM }) => !named.some((label) => label.distanceM === distanceM),
  );
  if (others.length > MOST_OBSTACLES_NAMED) return [];
  return others.flatMap(({ title, distanceM, heightM }) => {
    const groundM = groundAt(points, distanceM);
    if (title === undefined || groundM === undefined || !(distanceM > 0 && distanceM < lengthM)) return [];
    const drawnM = groundM + bulgeM(distanceM, lengthM, k) + heightM;
    return { distanceM, drawnM, text: shortened(title), brief: shortened(title), tone: "info" } as const;
  });
}

const MOST_OBSTACLES_NAMED = 5;

export function isGrave({ tone }: Label): boolean {
  return tone === "error" || tone === "accepted";
}

function shortened(title: string): string {
  return title.length > 24 ? `${title.slice(0, 23)}…` : title;
}

/** Linear between two points; undefined beside unknown ground. */
export function groundAt(points: readonly ProfilePoint[], distanceM: number): number | undefined {
  const after = points.findIndex((point) => point.distanceM >= distanceM);
  const [a, b] = [points[Math.max(0, after - 1)], points[after]];
  if (a?.groundM === undefined || b?.groundM === undefined) return undefined;
  const span = b.distanceM - a.distanceM;
  return span > 0 ? a.groundM + ((b.groundM - a.groundM) * (distanceM - a.distanceM)) / span : b.groundM;
}
