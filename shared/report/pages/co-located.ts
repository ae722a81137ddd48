/** Antennas at one site that are within reach of each other's filters: no loss of a path parts them, and coupling is measured. */
import type { Design } from "../../design/design.js";
import { decibels, fixed } from "../../format/numbers.js";
import { couplingLossDb } from "../../interference/co-located.js";
import type { CoLocated, InterferenceAt } from "../../interference/receiver-result.js";
import { isOwn } from "../../interference/station.js";
import { lineWords, plainName } from "../../words/interference.js";
import type { Inline, Section, TableRow } from "../document/document.js";
import { offsetWords } from "../interference.js";

/** More than so many pairs are counted. */
const MOST_ROWS = 40;

interface Pair {
  readonly hears: string;
  readonly near: CoLocated;
}

/**
 * @param felt at the receivers of the hops that end at the site
 * @param link name of a hop with the way to its page
 */
export function coLocatedSection(
  site: string,
  felt: Iterable<readonly [string, readonly InterferenceAt[]]>,
  { interferenceAt }: Design,
  link: (hop: string) => Inline,
): Section[] {
  const pairs = pairsAt(site, felt);
  if (pairs.length === 0) return [];
  const stated = interferenceAt?.get(site)?.couplingLosses;
  const row = ({ hears, near }: Pair): TableRow => {
    const { of } = near.sender;
    const lossDb = couplingLossDb(stated, isOwn(of) ? [hears, of.hop] : [hears]);
    return {
      cells: [
        link(hears),
        isOwn(of)
          ? link(of.hop)
          : `others, ${lineWords(of)}${of.name === undefined ? "" : `: ${plainName(of.name)}`}`,
        near.apartDeg === undefined ? "not known" : `${fixed(near.apartDeg, 1)}°`,
        offsetWords(near.offsetHz),
        lossDb === undefined ? "not stated" : decibels(lossDb),
        near.toNoiseDb === undefined ? "not judged" : decibels(near.toNoiseDb),
      ],
    };
  };
  const more = pairs.length - MOST_ROWS;
  const told = more > 0 ? ` ${more} more pairs stand further apart in frequency.` : "";
  return [
    {
      id: "co-located",
      title: "Antennas within reach of each other's filters",
      blocks: [
        {
          type: "table",
          columns: [
            { title: "Receiver of" },
            { title: "Sender of" },
            { title: "Axes apart", align: "right" },
            { title: "Offset", align: "right" },
            { title: "Coupling loss", align: "right" },
            { title: "I/N", align: "right" },
          ],
          rows: pairs.slice(0, MOST_ROWS).map(row),
        },
        {
          type: "paragraph",
          text: `No loss of a path can be computed between antennas at one place. A pair is judged only where its coupling loss is stated.${told}`,
        },
      ],
    },
  ];
}

/** Of the channels and polarizations of two hops the pair that is nearest in frequency; the nearest first. */
function pairsAt(site: string, felt: Iterable<readonly [string, readonly InterferenceAt[]]>): Pair[] {
  const found = new Map<string, Pair>();
  for (const [hears, receivers] of felt)
    for (const { receiver, coLocated } of receivers) {
      if (receiver.place.site !== site) continue;
      for (const near of coLocated) {
        const { of } = near.sender;
        const key = JSON.stringify([hears, isOwn(of) ? of.hop : [of.list, of.line]]);
        const known = found.get(key);
        if (known === undefined || isNearer(near, known.near)) found.set(key, { hears, near });
      }
    }
  return [...found.values()].toSorted((a, b) => Math.abs(a.near.offsetHz) - Math.abs(b.near.offsetHz));
}

function isNearer(one: CoLocated, other: CoLocated): boolean {
  return Math.abs(one.offsetHz) < Math.abs(other.offsetHz);
}
