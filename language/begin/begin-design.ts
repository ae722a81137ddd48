/**
 * The files that a design begins with. Whatever is not decided yet stands there as a comment with what it means, taken
 * from the property table, so that nothing counts that nobody chose.
 */
import { findProperty } from "../schema/index.js";
import type { Context } from "../schema/types.js";
import { quote } from "../syntax/tree.js";

export interface Beginning {
  readonly title: string;
  /** Relative to the design's folder, parted by `/`. */
  readonly terrain?: string;
  readonly maps?: string;
  /** Lines of the climate that are decided, by word: `rain` to `rain 30 mm/h at 0.01 %`. */
  readonly climate: ReadonlyMap<string, string>;
}

export interface NewFile {
  /** Relative to the design's folder. */
  readonly path: string;
  readonly text: string;
}

/** Words of the climate that a hop is judged by first. */
export const CLIMATE_ASKED = ["rain", "logK", "dN75", "k"] as const;

export function beginDesign(beginning: Beginning): readonly NewFile[] {
  return [
    { path: "network.hop", text: networkText(beginning) },
    { path: "sites.hop", text: SITES },
    { path: "hops.hop", text: HOPS },
    { path: "catalogue/radios.hop", text: radiosText() },
    { path: "catalogue/antennas.hop", text: antennasText() },
  ];
}

/** What a fact of the climate means, for a question or a comment. */
export function climateMeaning(word: string): string {
  const { meaning, fallback } = findProperty("climate", word)!;
  return fallback === undefined ? meaning : `${meaning} Left open: ${fallback}.`;
}

function networkText({ title, terrain, maps, climate }: Beginning): string {
  const climateLines = CLIMATE_ASKED.flatMap((word) => {
    const decided = climate.get(word);
    if (decided !== undefined) return [`    ${decided}`];
    return [...wrapped(climateMeaning(word), "    "), `    // ${findProperty("climate", word)!.example}`];
  });
  return `// What stands behind two slashes is a comment. Take the slashes away from a line to state it.

network ${quote(title)} {
${pathLines("terrain", terrain)}
${pathLines("maps", maps)}
  climate {
${climateLines.join("\n")}
  }
}

// What a hop is held to once it names one of these. The figures are common practice and yours to change: a hop that
// names none is computed and judged against nothing.

objective trunk "What much traffic passes" {
  availability 99.995 %
  clearance 1 F1 at k 1.33
  clearance 0.6 F1 at k 0.7
}

objective access "The last hop to a site" {
  availability 99.99 %
  clearance 1 F1 at k 1.33
}
`;
}

function pathLines(word: "terrain" | "maps", path: string | undefined): string {
  if (path !== undefined) return `  ${word} ${quote(path)}`;
  const { meaning, example, fallback } = findProperty("network", word)!;
  return [...wrapped(`${meaning} Left open: ${fallback}.`, "  "), `  // ${example}`].join("\n");
}

const SITES = `// A site is a place with something that antennas hang on. Position in WGS84, latitude first.

// site FIRST "What the first site is called" {
//   at 47°41'15"N 30°28'06"W
//   structure mast 40 m
// }

// site SECOND "What the second site is called" {
//   at 47°43'33"N 30°21'39"W
//   structure tower 40 m
// }
`;

const HOPS = `// A hop joins two sites; its ends are named by them. State what is decided: hopwright check says what it lacks.

// hop FIRST-SECOND {
//   objective access
//   channel F.595 / 55 MHz / 3
//   polarization vertical
//   radio R18
//   modes 55 MHz QPSK to 128QAM
//   FIRST {
//     antenna DISH60-18 at 30 m
//     transmits high
//   }
//   SECOND {
//     antenna DISH60-18 at 30 m
//     transmits low
//   }
// }
`;

const RADIO_WORDS = ["tuning", "low-half", "high-half", "duplex", "noise-figure", "overload"];

function radiosText(): string {
  return `// Radios: from their data sheets, a mode a line. What a unit has in common with others stands in a template.

template radio SPLIT-MOUNT {
  construction split-mount
}

// radio R18 "18 GHz split-mount unit" like SPLIT-MOUNT {
${examples("radio", RADIO_WORDS)}
//   mode 55 MHz QPSK rate 80 Mbit/s power 24 dBm threshold -84 dBm
//   mode 55 MHz 128QAM rate 310 Mbit/s power 20 dBm threshold -70.5 dBm
// }
`;
}

const ANTENNA_WORDS = ["band", "diameter", "gain", "beamwidth", "front-to-back", "xpd", "polarizations"];

function antennasText(): string {
  return `// Antennas: a gain is the one of its frequency; without any it is estimated from the diameter.

// antenna DISH60-18 "0.6 m parabolic" {
${examples("antenna", ANTENNA_WORDS)}
// }
`;
}

function examples(context: Context, words: readonly string[]): string {
  return words.map((word) => `//   ${findProperty(context, word)!.example}`).join("\n");
}

const WIDTH = 110;

function wrapped(text: string, indent: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const line = lines.at(-1);
    if (line !== undefined && line.length + word.length < WIDTH) lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(`${indent}// ${word}`);
  }
  return lines;
}
