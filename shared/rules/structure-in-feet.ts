import { address } from "../design/address.js";
import type { Design, Site } from "../design/design.js";
import { antennasStated } from "../equipment/stands.js";
import { metres } from "../format/numbers.js";
import type { Memory } from "../network/memory.js";
import { exampleHop } from "./example-preamble.js";
import { FOOT_M, meantWords } from "./feet.js";
import type { NetworkRule } from "./rule.js";

const others = ["FELL", "PEAK", "MOSS"]
  .map((name) => `site ${name} {\n  structure mast 40 m\n}\n`)
  .join("\n");
const mast = (heightM: number) =>
  `${others}\nsite HIGH {\n  at 47.5 -30.5\n  structure mast ${heightM} m\n}\n\n${exampleHop().replaceAll("KELD", "HIGH")}`;

export const structureInFeet: NetworkRule = {
  scope: "network",
  id: "structure-in-feet",
  severity: "warning",
  title: "The height of a structure reads like feet",
  checks:
    "Structures two and a half times as high as all others (three at least, and three quarters of the design's), that are no higher than those when their figure is taken as feet, and whose antennas all hang below that height, the highest in its upper half.",
  why: "Drawings of masts are in feet as often as in metres; an antenna could be raised to where there is no mast.",
  fix: "Look the height up; the fix writes it in feet. Where it is right, accept the finding at the site.",
  source: "common practice",
  good: mast(60),
  bad: mast(160),
  check({ design, memory, report }) {
    for (const { site, usualM, highestM } of inFeet(design, memory)) {
      const { kind, heightM } = site.structure!;
      report({
        at: address("site", site.name, "structure"),
        message: `the ${kind} at ${site.name} is ${metres(heightM)} high, the others at most ${metres(usualM)}, and its highest antenna hangs at ${metres(highestM)}; ${meantWords(heightM, "ft")}`,
      });
    }
  },
};

interface Found {
  readonly site: Site;
  /** The highest of the others. */
  readonly usualM: number;
  /** The highest antenna here. */
  readonly highestM: number;
}

const LEAST_OTHERS = 3;
const OTHERS_SHARE = 0.75;
const TIMES_HIGHER = 2.5;
/** A mast in feet is as high as the others, or little more. */
const LITTLE_MORE = 1.1;
const ROUNDING = 1.02;
const UPPER_HALF = 0.5;

interface Outlying {
  readonly sites: readonly Site[];
  /** The highest of the others. */
  readonly usualM: number;
}

const NONE: Outlying = { sites: [], usualM: 0 };
const STEP = {};

/** Sites whose structures are much higher than all others. */
function outlying(all: Design["sites"]): Outlying {
  const sites = [...all.values()]
    .filter(({ structure }) => structure !== undefined)
    .sort((a, b) => a.structure!.heightM - b.structure!.heightM);
  const first = sites.findIndex(
    ({ structure }, i) =>
      i >= LEAST_OTHERS &&
      i >= OTHERS_SHARE * sites.length &&
      structure!.heightM > TIMES_HIGHER * sites[i - 1]!.structure!.heightM,
  );
  if (first < 0) return NONE;
  return { sites: sites.slice(first), usualM: sites[first - 1]!.structure!.heightM };
}

function inFeet(design: Design, memory: Memory): Found[] {
  const { sites, usualM } = memory.of(STEP, design.sites, outlying);
  return sites.flatMap((site): Found[] => {
    const meant = site.structure!.heightM * FOOT_M;
    const heights = antennaHeights(design, site.name);
    const highestM = Math.max(...heights);
    const fits = heights.length > 0 && highestM <= ROUNDING * meant && highestM >= UPPER_HALF * meant;
    return fits && meant <= LITTLE_MORE * usualM ? [{ site, usualM, highestM }] : [];
  });
}

function antennaHeights({ hops }: Design, name: string): number[] {
  return [...hops.values()]
    .flatMap(({ ends }) => ends.filter(({ site }) => site.name === name))
    .flatMap((end) => antennasStated(end).flatMap(({ heightM }) => heightM ?? []));
}
