/** A generated network as an author would have written it: text in the canonical layout, file by file. */
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { randomNumbers } from "../random.js";
import {
  antennaName,
  BANDS,
  catalogueFiles,
  couplerName,
  declarations,
  feederName,
  radioName,
} from "./catalogue.js";
import { type Link, linkedSites, type Site } from "./links.js";

/** Side of the square that 10,000 hops take; fewer take a part of it, as densely. */
export const FULL_AREA_DEG = 3;
/** Side of the square of so many hops. */
export function areaDegOf(hopCount: number): number {
  return FULL_AREA_DEG * Math.min(1, Math.sqrt(hopCount / 10_000));
}

const HOPS_A_FILE = 75;
const SITES_A_FILE = 150;

/** Paths, relative to the design's folder, and texts. */
export type NetworkText = Map<string, string>;

/** @param terrain folder of the rasters, as the network's text names it */
export function networkText(hopCount: number, terrain: string, seed = 1): NetworkText {
  const areaDeg = areaDegOf(hopCount);
  const { sites, links } = linkedSites(seed, Math.round(hopCount * 0.9), hopCount, areaDeg);
  const random = randomNumbers(seed + 1);
  const files: NetworkText = new Map([["network.hop", networkFile(terrain)]]);
  for (const [name, text] of catalogueFiles()) files.set(`catalogue/${name}`, text);
  chunks(sites, SITES_A_FILE).forEach((part, index) => {
    files.set(`sites/area-${number(index)}.hop`, declarations(part.map(siteText)));
  });
  chunks(links, HOPS_A_FILE).forEach((part, index) => {
    files.set(`hops/area-${number(index)}.hop`, declarations(part.map((link) => hopText(link, random))));
  });
  return files;
}

/** The same network in one file. */
export function inOneFile(files: NetworkText): NetworkText {
  return new Map([["network.hop", [...files.values()].join("\n")]]);
}

/** The same network with one hop in each file of hops on a radio that nobody declared. */
export function withUnknownNames(files: NetworkText): NetworkText {
  return new Map(
    [...files].map(([path, text]) => [
      path,
      path.startsWith("hops/") ? text.replace(/\n {2}radio \S+/, "\n  radio R99") : text,
    ]),
  );
}

/**
 * The same network with every hop by itself: it states that no transmitter further away than the least that may be stated
 * is looked at, so that interference comes to next to nothing.
 */
export function hopsAlone(files: NetworkText): NetworkText {
  const text = files.get("network.hop")!;
  const alone = text.replace(/^ {2}defaults hop \{$/m, "  interference {\n    search-distance 1 km\n  }\n$&");
  return new Map([...files, ["network.hop", alone]]);
}

/** Writes a network in place of what the folder held. */
export function writeNetwork(folder: string, files: NetworkText): void {
  rmSync(folder, { recursive: true, force: true });
  for (const [path, text] of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
}

function networkFile(terrain: string): string {
  return `// Generated for the bench: an invented land and invented equipment.
network "Bench" {
  terrain "${terrain}"
  climate {
    rain 30 mm/h
    logK -4.3
    dN75 12 N/km
    k 1.33
  }
  defaults hop {
    objective access
    polarization vertical
    arrangement 1+0
  }
}

objective trunk "Trunk" {
  availability 99.99 %
  capacity 150 Mbit/s
  margin 25 dB
  clearance 1 F1 at k 1.33
  clearance 0.6 F1 at k 0.7
}

objective access "Access" {
  availability 99.95 %
  capacity 40 Mbit/s
  margin 15 dB
  clearance 1 F1 at k 1.33
}

objective spare "Spare" {
  margin 10 dB
}
`;
}

function siteText({ name, latitudeDeg, longitudeDeg }: Site): string {
  return `site ${name} "${title(name)}" {
  at ${angle(latitudeDeg, "N", "S")} ${angle(longitudeDeg, "E", "W")}
  structure tower 65 m
}`;
}

function hopText(link: Link, random: () => number): string {
  const { from, to, lengthKm, heightM, fromHigh } = link;
  const band = BANDS.find(({ reachKm }) => lengthKm <= reachKm)!;
  const shorter = BANDS[BANDS.indexOf(band) - 1]?.reachKm ?? 3;
  const stretch = (lengthKm - shorter) / (band.reachKm - shorter);
  const diameterM =
    band.diametersM[clamped(Math.floor(stretch * band.diametersM.length), band.diametersM.length)]!;
  const protectedHop = random() < 0.1;
  const lines = [`hop ${from.name}-${to.name} "${title(from.name)} to ${title(to.name)}" {`];
  if (random() < 0.3) lines.push("  objective trunk");
  lines.push(`  channel ${band.plan} / ${band.widthMHz} MHz / ${1 + Math.floor(random() * band.channels)}`);
  if (random() < 0.3) lines.push("  polarization horizontal");
  if (protectedHop) lines.push("  arrangement 1+1 hot-standby");
  lines.push(`  radio ${radioName(band)}`, `  modes ${band.widthMHz} MHz QPSK to 256QAM`);
  const end = (site: Site, half: string) => {
    lines.push(`  ${site.name} {`, `    antenna ${antennaName(band, diameterM)} at ${heightM} m`);
    if (protectedHop) lines.push(`    coupler ${couplerName(band)} direct`);
    if (random() < 0.05) lines.push(`    feeder ${feederName(band)} length 1.2 m`);
    lines.push(`    transmits ${half}`, "  }");
  };
  end(from, fromHigh ? "high" : "low");
  end(to, fromHigh ? "low" : "high");
  if (random() < 0.03)
    lines.push(`  obstacle "spruce" 14 m at ${(0.4 * lengthKm).toFixed(1)} km from ${from.name}`);
  lines.push("}");
  return lines.join("\n");
}

function angle(degrees: number, positive: string, negative: string): string {
  const seconds = Math.round(Math.abs(degrees) * 3600);
  const two = (value: number) => String(value).padStart(2, "0");
  return `${Math.floor(seconds / 3600)}°${two(Math.floor(seconds / 60) % 60)}'${two(seconds % 60)}"${degrees < 0 ? negative : positive}`;
}

function title(name: string): string {
  return name.charAt(0) + name.slice(1).toLowerCase();
}

function number(index: number): string {
  return String(index + 1).padStart(3, "0");
}

function chunks<T>(all: readonly T[], size: number): T[][] {
  return Array.from({ length: Math.ceil(all.length / size) }, (_, i) => all.slice(i * size, (i + 1) * size));
}

/** A place in a list of so many; a link shorter than any of its band takes the first. */
function clamped(index: number, count: number): number {
  return Math.max(0, Math.min(count - 1, index));
}
