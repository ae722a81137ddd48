/** Antennas of the catalogue that suit the hop. */
import { address } from "../../design/address.js";
import type { Antenna, Coupler } from "../../design/catalogue.js";
import type { Hop, HopEnd } from "../../design/design.js";
import type { Fix } from "../../design/fact-change.js";
import { leadTo } from "../../equipment/mounting.js";
import { antennasStated } from "../../equipment/stands.js";
import { couplersFor, standHere } from "./couplers.js";
import { decision, type EndHere, endHere, type Fixes, type Mending } from "./mending.js";
import { feederLine, feedersFor, USUAL_PIECE } from "./waveguide.js";

/** Antennas for the frequency, those of nearly the same size first. */
export function otherAntenna(wanted: (antenna: Antenna) => boolean = () => true): Fixes {
  return (mending) => {
    const here = endHere(mending);
    if (!here) return [];
    const { antenna, fact } = standHere(mending, here.end);
    const sizeM = antenna?.diameterM ?? 0;
    return antennasFor(mending, here.hop, (one) => one.name !== antenna?.name && wanted(one))
      .toSorted((a, b) => Math.abs((a.diameterM ?? 0) - sizeM) - Math.abs((b.diameterM ?? 0) - sizeM))
      .map((one) => takeAntenna(mending, here, one, fact));
  };
}

/** Couplers whose arms lose less apart, at both ends and at each alone; then larger antennas. */
export const lessUnequal: Fixes = (mending) => {
  const { hop } = mending;
  if (!hop) return [];
  const spreadDb = ({ mainLossDb = 0, standbyLossDb = mainLossDb }: Coupler) => standbyLossDb - mainLossDb;
  const swap = (name: string, ends: readonly HopEnd[]): Fix[] => {
    if (ends.some(({ coupler }) => coupler?.name === name)) return [];
    const at = ends.map(({ site }) => site.name);
    const changes = at.map(
      (site) =>
        ({
          do: "replace",
          at: address("hop", hop.name, site, "coupler"),
          argument: "coupler",
          by: name,
        }) as const,
    );
    return [decision(`Take coupler ${name} at ${at.join(" and ")} (changes the equipment)`, ...changes)];
  };
  const greatest = Math.max(...hop.ends.map(({ coupler }) => (coupler ? spreadDb(coupler) : 0)));
  const joined = hop.ends.filter(({ coupler }) => coupler !== undefined);
  const groups = joined.length > 1 ? [joined, ...joined.map((end) => [end])] : joined.map((end) => [end]);
  const others = joined
    .slice(0, 1)
    .flatMap((end) => couplersFor(mending, { hop, end }))
    .filter((one) => spreadDb(one) < greatest)
    .toSorted((a, b) => spreadDb(a) - spreadDb(b))
    .flatMap(({ name }) => groups.flatMap((ends) => swap(name, ends)));
  return [...others.slice(0, 6), ...largerAntenna(mending, hop)];
};

/** The next larger antennas for the hop's frequency, at each end alone; sizes in turn, the smallest change first. */
function largerAntenna(mending: Mending, hop: Hop): readonly Fix[] {
  return interleave(hop.ends.map((end) => largerAntennasAt(mending, hop, end)));
}

/** The next larger ones at one end. */
export function largerAntennasAt(mending: Mending, hop: Hop, end: HopEnd): readonly Fix[] {
  const here = { hop, end, site: end.site.name, at: address("hop", hop.name, end.site.name) };
  return antennasFor(
    mending,
    hop,
    (one) => (one.diameterM ?? 0) > (end.antenna?.diameterM ?? Number.POSITIVE_INFINITY),
  )
    .toSorted((a, b) => (a.diameterM ?? 0) - (b.diameterM ?? 0))
    .map((one) => takeAntenna(mending, here, one, "antenna"));
}

/** One that can't bear the unit is no way out without a guide to it. */
function takeAntenna(mending: Mending, here: EndHere, antenna: Antenna, fact: string): Fix {
  const { name, diameterM } = antenna;
  const size = diameterM === undefined ? "" : `, ${diameterM} m`;
  const stand = antennasStated(here.end).find((one) => one.fact === fact);
  const needsGuide = stand && leadTo(here.hop, here.end, { ...stand, antenna }) === "piece to choose";
  const piece = needsGuide ? feedersFor(mending, here.hop, false)[0]?.name : undefined;
  const guide = piece === undefined ? "" : ` with waveguide ${piece}, ${USUAL_PIECE},`;
  return decision(
    `Take antenna ${name}${guide} at ${here.site} (changes the equipment${size})`,
    { do: "replace", at: `${here.at} / ${fact}`, argument: "antenna", by: name },
    ...(piece === undefined ? [] : [feederLine(here, piece)]),
  );
}

function antennasFor(
  { catalogue }: Mending,
  hop: Hop,
  wanted: (antenna: Antenna) => boolean,
): readonly Antenna[] {
  const frequencies = hop.ends.flatMap((end) => end.transmitFrequencyHz ?? []);
  return catalogue.antennas.filter(
    (antenna) =>
      antenna.band !== undefined &&
      frequencies.every((hz) => antenna.band!.fromHz <= hz && hz <= antenna.band!.toHz) &&
      wanted(antenna),
  );
}

function interleave<T>([first = [], second = []]: readonly (readonly T[])[]): T[] {
  return Array.from({ length: Math.max(first.length, second.length) }).flatMap((_, index) => [
    ...first.slice(index, index + 1),
    ...second.slice(index, index + 1),
  ]);
}
