/** Which rays the units of a hop use beside that of the first antennas. */
import type { Hop } from "../design/design.js";
import { arrangementByName } from "../radio/arrangements.js";
import { pathsBetween } from "./branches.js";
import { branchesAt, type Stand, standsOf, standWords } from "./stands.js";

export interface FurtherRay {
  /** Antenna of each end, from 1, in the order of the hop's ends. */
  readonly antennas: readonly [number, number];
  readonly stands: readonly [Stand, Stand];
  /** What it is there for. */
  readonly of: "diversity" | "standby" | "carriers";
  /** For example `diversity antenna at KELD`, `second antennas`. */
  readonly name: string;
}

/**
 * Rays with an antenna beside the first at one end or both: of space diversity and standby those from the first antenna
 * of the far end, of carriers those that they run over. An antenna that the design does not state has none.
 */
export function furtherRays(hop: Pick<Hop, "arrangement" | "ends">): readonly FurtherRay[] {
  const facts = arrangementByName(hop.arrangement.name);
  if (facts === undefined) return [];
  const [here, there] = hop.ends;
  const stands = [standsOf(here, facts), standsOf(there, facts)] as const;
  if (stands[0].length === 1 && stands[1].length === 1) return [];
  const branches = [branchesAt(here, facts), branchesAt(there, facts)] as const;
  const pairs: (readonly [number, number])[] = facts.spaceDiversity
    ? [
        [2, 1],
        [1, 2],
      ]
    : [
        ...pathsBetween(facts, branches[0], branches[1]).flatMap(({ state, from, to }) =>
          state === "both on standby" ? [] : [[from.antenna, to.antenna] as const],
        ),
        ...pathsBetween(facts, branches[1], branches[0]).flatMap(({ state, from, to }) =>
          state === "both on standby" ? [] : [[to.antenna, from.antenna] as const],
        ),
      ];
  const kind = facts.spaceDiversity ? "diversity" : facts.hotStandby ? "standby" : "carriers";
  const rays = new Map<string, FurtherRay>();
  for (const antennas of pairs) {
    const [one, other] = [stands[0][antennas[0] - 1], stands[1][antennas[1] - 1]];
    if (one === undefined || other === undefined || (antennas[0] === 1 && antennas[1] === 1)) continue;
    // A first antenna that is not stated is told as such; of its ray the height alone is asked.
    const isStated = (stand: Stand, number: number) => number === 1 || stand.antenna !== undefined;
    if (!isStated(one, antennas[0]) || !isStated(other, antennas[1])) continue;
    rays.set(antennas.join(), { antennas, stands: [one, other], of: kind, name: nameOf(hop, [one, other]) });
  }
  return [...rays.values()];
}

function nameOf({ ends }: Pick<Hop, "ends">, stands: readonly [Stand, Stand]): string {
  const [one, other] = stands.map((stand, index) =>
    stand.fact === "antenna" ? undefined : `${standWords(stand)} at ${ends[index]!.site.name}`,
  );
  if (one === undefined || other === undefined) return one ?? other ?? "";
  return stands[0].fact === stands[1].fact ? `${standWords(stands[0])}s` : `${one} and ${other}`;
}
