import type { TerrainProfile } from "./profile.js";

/** A stretch of unknown ground that a straight line stands in for, from known point to known point. */
export interface Bridge {
  readonly fromM: number;
  readonly toM: number;
}

/**
 * The profile with its short gaps closed by a straight line between the known points on both sides. A gap is as wide
 * as these are apart; one that reaches an end of the path is bridged only from ground that is known there.
 * @param shorterThanM gaps of this width and wider stay open
 * @param endsM ground at the two ends where the profile has none, m above sea level
 */
export function bridged<P extends TerrainProfile>(
  profile: P,
  shorterThanM: number,
  endsM: readonly [number | undefined, number | undefined],
): { readonly profile: P; readonly bridges: readonly Bridge[] } {
  const { distanceM } = profile;
  const last = distanceM.length - 1;
  const isKnown = profile.heightM.map((height) => (Number.isNaN(height) ? 0 : 1));
  const support = (i: number) =>
    isKnown[i] ? profile.heightM[i] : i === 0 ? endsM[0] : i === last ? endsM[1] : undefined;
  const heightM = profile.heightM.slice();
  const coverM = profile.coverM?.slice();
  const bridges: Bridge[] = [];
  for (let from = 0; from < last; ) {
    let to = from + 1;
    while (to < last && !isKnown[to]) to++;
    const [fromM, toM] = [distanceM[from]!, distanceM[to]!];
    const [a, b] = [support(from), support(to)];
    const isGap = to > from + 1 || !isKnown[from] || !isKnown[to];
    if (isGap && a !== undefined && b !== undefined && toM - fromM < shorterThanM) {
      for (let i = from; i <= to; i++) {
        const share = (distanceM[i]! - fromM) / (toM - fromM);
        if (!isKnown[i]) heightM[i] = a * (1 - share) + b * share;
        if (coverM && !isKnown[i]) coverM[i] = coverM[from]! * (1 - share) + coverM[to]! * share;
      }
      bridges.push({ fromM, toM });
    }
    from = to;
  }
  if (bridges.length === 0) return { profile, bridges };
  const isClosed = (gap: Bridge) => bridges.some(({ fromM, toM }) => gap.fromM >= fromM && gap.toM <= toM);
  return {
    profile: { ...profile, heightM, coverM, gaps: profile.gaps.filter((gap) => !isClosed(gap)) },
    bridges,
  };
}
