/** What mends a demand by changing hops on its way, the least change first; each is tried with all demands. */
import { type Change, changeWords, modesOfWidth } from "../../design/change.js";
import type { Hop } from "../../design/design.js";
import type { Fix } from "../../design/fact-change.js";
import { largerAntennasAt } from "./antennas.js";
import { decision, type Fixes, type Mending } from "./mending.js";
import { DECIDES, factsOf } from "./proposed.js";

/** So many sizes of antenna are tried at each end. */
const MOST_ANTENNAS = 3;

/** At the hop that takes most, which the finding names first. */
export const moreAvailable: Fixes = (mending) => {
  const [hop] = hopsNamed(mending);
  if (hop === undefined) return [];
  const [one = [], other = []] = hop.ends.map((end) =>
    largerAntennasAt(mending, hop, end).slice(0, MOST_ANTENNAS),
  );
  const single = one.flatMap((fix, index) => [fix, ...other.slice(index, index + 1)]);
  return [
    ...(hop.polarization === "horizontal" ? [fixOf(hop, { kind: "polarization", to: "vertical" })] : []),
    ...[...single, ...other.slice(one.length)].map((fix) => ({ ...fix, title: `${hop.name}: ${fix.title}` })),
    ...one.flatMap((fix, index) => (other[index] ? [atBoth(hop, fix, other[index])] : [])),
  ];
};

function atBoth({ name, ends }: Hop, one: Fix, other: Fix): Fix {
  const at = ends.map(({ site }) => site.name).join(" and ");
  return decision(
    `${name}: Take larger antennas at ${at} (changes the equipment)`,
    ...one.changes,
    ...other.changes,
  );
}

/** Modes of the radio that are not in use, on all hops at once that carry too little. */
export const moreCapacity: Fixes = (mending) => {
  const hops = hopsNamed(mending);
  const wider = hops.flatMap((hop) => {
    const change = highestModes(hop);
    return change === undefined ? [] : [{ hop, change }];
  });
  if (wider.length === 0 || wider.length < hops.length) return [];
  const [first, ...others] = wider;
  if (others.length === 0) return [fixOf(first!.hop, first!.change)];
  return [
    decision(
      `Take the highest modes of the radios in ${wider.map(({ hop }) => hop.name).join(", ")} (changes the modes in use)`,
      ...wider.flatMap(({ hop, change }) => factsOf(hop, change)),
    ),
  ];
};

/** Undefined: the highest is in use. */
function highestModes({ radio, modes }: Hop): Change | undefined {
  const [lowest, highest] = [modes[0], modes.at(-1)];
  if (radio === undefined || lowest === undefined || highest === undefined) return undefined;
  const top = modesOfWidth(radio, lowest.bandwidthHz).at(-1);
  if (top === undefined || top.modulation === highest.modulation) return undefined;
  const { bandwidthHz, modulation } = lowest;
  return { kind: "modes", bandwidthHz, lowest: modulation, highest: top.modulation };
}

function fixOf(hop: Hop, change: Change): Fix {
  return decision(
    `${hop.name}: Take ${changeWords(change)} (changes the ${DECIDES[change.kind]})`,
    ...factsOf(hop, change),
  );
}

function hopsNamed({ finding, design }: Mending): readonly Hop[] {
  return (finding.related ?? []).flatMap(({ at = "" }) => {
    const name = /^hop (.+)$/.exec(at)?.[1];
    return (name === undefined ? undefined : design.hops.get(name)) ?? [];
  });
}
