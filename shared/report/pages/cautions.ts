/** The cautions of every paper that sends somebody to a mast: one text for all of them. */
import type { Hop } from "../../design/design.js";
import type { HopResult } from "../../evaluate/account/result.js";
import { dbm, fixed } from "../../format/numbers.js";
import type { Pair } from "../../network/in-network.js";
import { sharesAntenna } from "../../network/pairs.js";
import type { Block, Section } from "../document/document.js";
import { EXPOSURE_LIMITS_W_PER_M2, type KeepOut, keepOut } from "../exposure.js";

const LOCAL_CODES =
  "Local codes, the owner of the structure and licensed practice come first; this report replaces none of them.";

/** What holds on every mast. */
export const SAFETY: readonly string[] = [
  "Work at height only by trained people with fall protection, a rescue plan, the owner's permission and a limit for wind, ice and thunder. Tie loads and tools; keep the ground below closed.",
  "Before anyone comes in front of an antenna, switch its transmitter off or close the area. Never look into an open waveguide of a live unit.",
  "No work in a thunderstorm. Connect the outdoor unit to the structure's earth by the shortest straight wire, bond cable screens at top, bottom and entry, and keep one earthing system a site.",
  "A 48 V DC plant can drive an enormous short-circuit current: insulated tools, no rings, and mind the gas of batteries.",
];

/** @param pair the other hop of a dual-band pair */
export function cautions(hop: Hop, result: HopResult, pair?: Pair): Section {
  const blocks: Block[] = [];
  const distances = distancesToKeep(hop, result, pair);
  if (distances.length > 0) blocks.push(...keepOutBlocks(distances));
  blocks.push({ type: "list", items: [LOCAL_CODES, ...SAFETY] });
  return { id: "safety", title: "Before work on site", blocks };
}

/** In front of the antennas of both ends; of one that two bands share, of both together. */
export function distancesToKeep(hop: Hop, result: HopResult, pair?: Pair): readonly KeepOut[] {
  return result.ends.flatMap((site) => {
    const shared =
      pair?.otherResult && sharesAntenna(hop, pair.other, site)
        ? { result: pair.otherResult, site }
        : undefined;
    return keepOut({ result, site }, shared) ?? [];
  });
}

function keepOutBlocks(distances: readonly KeepOut[]): Block[] {
  const { generalPublic, occupational } = EXPOSURE_LIMITS_W_PER_M2;
  return [
    {
      type: "table",
      caption: "Keep-out distance in front of the antenna, on its axis",
      columns: [
        { title: "Site" },
        { title: "Carriers" },
        { title: "Greatest EIRP, all carriers", align: "right" },
        { title: `General public, ${generalPublic} W/m²`, align: "right" },
        { title: `Occupational, ${occupational} W/m²`, align: "right" },
      ],
      rows: distances.map(({ site, eirpDbm, carriers, otherBand, generalPublicM, occupationalM }) => ({
        cells: [
          site,
          carriersText(carriers, otherBand),
          dbm(eirpDbm),
          upM(generalPublicM),
          upM(occupationalM),
        ],
      })),
    },
    {
      type: "paragraph",
      text: "Far-field law with the power of the strongest mode, automatic power control off; of a dual-band antenna both bands of the pair are added, other antennas of the site are not counted. The limits are those of ICNIRP 2020 for the whole body, from memory, not checked: use those that hold in your country. To the side and behind keep at least 1 m from the antenna.",
    },
  ];
}

function carriersText(carriers: number, otherBand: KeepOut["otherBand"]): string {
  return otherBand === undefined
    ? String(carriers)
    : `${carriers}, and ${otherBand.carriers} of ${otherBand.hop}`;
}

/** Rounded up: a distance to keep is never rounded down. */
function upM(distanceM: number): string {
  return `${fixed(Math.ceil(distanceM * 10) / 10, 1)} m`;
}
