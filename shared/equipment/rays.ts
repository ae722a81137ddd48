/** Which rays the units of a hop use beside that of the first antennas. */
import type { Hop } from "../design/design.js";
import { factsAt } from "../radio/arrangement-pairs.js";
import { type EndBranches, pathsBetween } from "./branches.js";
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
  const ends = hop.ends.map((end) => {
    const facts = factsAt(hop, end);
    return facts && { facts, stands: standsOf(end, facts), branches: branchesAt(end, facts) };
  });
  const [here, there] = ends;
  if (here === undefined || there === undefined) return [];
  if (here.stands.length === 1 && there.stands.length === 1) return [];
  const both = [here, there] as const;
  const rays = new Map<string, FurtherRay>();
  for (const antennas of antennaPairs(here, there)) {
    const [one, other] = [here.stands[antennas[0] - 1], there.stands[antennas[1] - 1]];
    if (one === undefined || other === undefined || (antennas[0] === 1 && antennas[1] === 1)) continue;
    // A first antenna that is not stated is told as such; of its ray the height alone is asked.
    const isStated = (stand: Stand, number: number) => number === 1 || stand.antenna !== undefined;
    if (!isStated(one, antennas[0]) || !isStated(other, antennas[1])) continue;
    const further = both.filter((_, index) => antennas[index] !== 1).map(({ facts }) => facts);
    const of = further.some(({ spaceDiversity }) => spaceDiversity)
      ? "diversity"
      : further.some(({ hotStandby }) => hotStandby)
        ? "standby"
        : "carriers";
    rays.set(antennas.join(), { antennas, stands: [one, other], of, name: nameOf(hop, [one, other]) });
  }
  return [...rays.values()];
}

/** Antennas between which something is sent: of two ends with space diversity each second one and the far first. */
function antennaPairs(here: EndBranches, there: EndBranches): readonly (readonly [number, number])[] {
  const diverse = [here.facts.spaceDiversity, there.facts.spaceDiversity];
  const received = [...(diverse[0] ? [[2, 1] as const] : []), ...(diverse[1] ? [[1, 2] as const] : [])];
  if (diverse[0] && diverse[1]) return received;
  return [
    ...received,
    ...pathsBetween(here, there).flatMap(({ state, from, to }) =>
      state === "both on standby" ? [] : [[from.antenna, to.antenna] as const],
    ),
    ...pathsBetween(there, here).flatMap(({ state, from, to }) =>
      state === "both on standby" ? [] : [[to.antenna, from.antenna] as const],
    ),
  ];
}

function nameOf({ ends }: Pick<Hop, "ends">, stands: readonly [Stand, Stand]): string {
  const [one, other] = stands.map((stand, index) =>
    stand.fact === "antenna" ? undefined : `${standWords(stand)} at ${ends[index]!.site.name}`,
  );
  if (one === undefined || other === undefined) return one ?? other ?? "";
  return stands[0].fact === stands[1].fact ? `${standWords(stands[0])}s` : `${one} and ${other}`;
}
