/**
 * Sites on hilltops and the hops between them: a tree with some loops, most lengths from 3 to 15 km and none
 * above 30. Nearly all paths are clear, because the antennas hang as high as the land between them asks.
 */
import { randomNumbers } from "../random.js";
import { groundM, KM_EAST, KM_NORTH, SOUTH_DEG, WEST_DEG } from "./landscape.js";

export interface Site {
  readonly name: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly groundM: number;
}

export interface Link {
  readonly from: Site;
  readonly to: Site;
  readonly lengthKm: number;
  /** Above ground, at both ends. */
  readonly heightM: number;
  /** `from` transmits high: sites at odd steps from the root transmit low everywhere, so no site does both. */
  readonly fromHigh: boolean;
}

const SHORTEST_KM = 3;
const LONGEST_KM = 30;
const HIGHEST_ANTENNA_M = 60;
const TRIES = 40;

/** @param areaDeg side of the square that holds the sites */
export function linkedSites(
  seed: number,
  siteCount: number,
  linkCount: number,
  areaDeg: number,
): { sites: Site[]; links: Link[] } {
  const random = randomNumbers(seed);
  const across = Math.ceil(Math.sqrt(siteCount));
  const cellDeg = areaDeg / across;
  const names = siteNames(siteCount, random);
  const sites = names.map((name, index) =>
    hilltop(name, Math.floor(index / across), index % across, cellDeg, random),
  );
  const parity = new Uint8Array(siteCount);
  const links: Link[] = [];
  const known = new Set<string>();

  const add = (a: number, b: number, heightM: number) => {
    known.add(`${Math.min(a, b)} ${Math.max(a, b)}`);
    const [from, to] = [sites[a]!, sites[b]!];
    links.push({ from, to, lengthKm: kilometres(from, to), heightM, fromHigh: parity[a] === 0 });
  };
  const isKnown = (a: number, b: number) => known.has(`${Math.min(a, b)} ${Math.max(a, b)}`);

  /** A site at a random distance and bearing to which the path can be cleared. */
  const partner = (
    at: number,
    suits: (other: number) => boolean,
  ): { other: number; heightM: number } | undefined => {
    const site = sites[at]!;
    for (let attempt = 0; attempt < TRIES; attempt++) {
      const reachKm = SHORTEST_KM + (LONGEST_KM - SHORTEST_KM) * random() ** 2.2;
      const bearing = 2 * Math.PI * random();
      const row = Math.floor(
        (site.latitudeDeg + (reachKm * Math.cos(bearing)) / KM_NORTH - SOUTH_DEG) / cellDeg,
      );
      const column = Math.floor(
        (site.longitudeDeg + (reachKm * Math.sin(bearing)) / KM_EAST - WEST_DEG) / cellDeg,
      );
      const other = row * across + column;
      if (row < 0 || column < 0 || column >= across || other >= siteCount || !suits(other)) continue;
      const lengthKm = kilometres(site, sites[other]!);
      if (lengthKm < SHORTEST_KM || lengthKm > LONGEST_KM) continue;
      const heightM = clearingHeightM(site, sites[other]!, lengthKm);
      if (heightM <= HIGHEST_ANTENNA_M) return { other, heightM };
    }
    return undefined;
  };

  for (let at = 1; at < siteCount; at++) {
    const found = partner(at, (other) => other < at);
    const other = found?.other ?? nearestEarlier(sites, at, across);
    parity[at] = 1 - parity[other]!;
    add(other, at, found?.heightM ?? HIGHEST_ANTENNA_M);
  }
  while (links.length < linkCount) {
    const at = Math.floor(random() * siteCount);
    const found = partner(at, (other) => parity[other] !== parity[at] && !isKnown(at, other));
    if (found) add(at, found.other, found.heightM);
  }
  return { sites, links };
}

/** The highest of a few places in the middle of a cell. */
function hilltop(name: string, row: number, column: number, cellDeg: number, random: () => number): Site {
  let best: Site | undefined;
  for (let i = 0; i < 5; i++) {
    const latitudeDeg = toSeconds(SOUTH_DEG + (row + 0.1 + 0.8 * random()) * cellDeg);
    const longitudeDeg = toSeconds(WEST_DEG + (column + 0.1 + 0.8 * random()) * cellDeg);
    const ground = groundM(latitudeDeg, longitudeDeg);
    if (!best || ground > best.groundM) best = { name, latitudeDeg, longitudeDeg, groundM: ground };
  }
  return best!;
}

/** Positions are written to the second. */
function toSeconds(degrees: number): number {
  return Math.round(degrees * 3600) / 3600;
}

/** The height above both grounds that clears the first zone at 8 GHz and k = 4/3, with two metres to spare. */
function clearingHeightM(a: Site, b: Site, lengthKm: number): number {
  const steps = Math.ceil(lengthKm / 0.15);
  let heightM = 12;
  for (let i = 1; i < steps; i++) {
    const t = i / steps;
    const [d1, d2] = [t * lengthKm, (1 - t) * lengthKm];
    const bulgeM = (d1 * d2) / 17;
    const zoneM = 17.3 * Math.sqrt((d1 * d2) / (8 * lengthKm));
    const ground = groundM(
      a.latitudeDeg + t * (b.latitudeDeg - a.latitudeDeg),
      a.longitudeDeg + t * (b.longitudeDeg - a.longitudeDeg),
    );
    heightM = Math.max(heightM, ground + bulgeM + zoneM + 2 - (a.groundM + t * (b.groundM - a.groundM)));
    if (heightM > HIGHEST_ANTENNA_M) return heightM;
  }
  return Math.ceil(heightM);
}

/** Near the root there may be no clear path yet: a blocked one is taken, as a design in progress has some. */
function nearestEarlier(sites: readonly Site[], at: number, across: number): number {
  const near = [at - 2, at - across, at - 2 * across, at - 1].filter((other) => other >= 0);
  return near.find((other) => kilometres(sites[at]!, sites[other]!) >= SHORTEST_KM) ?? near[0] ?? at - 1;
}

function kilometres(a: Site, b: Site): number {
  return Math.hypot((a.latitudeDeg - b.latitudeDeg) * KM_NORTH, (a.longitudeDeg - b.longitudeDeg) * KM_EAST);
}

const SYLLABLES =
  "BA BREN CAL DOR EL FEN GAR HOL IL KES LUM MIR NOR OST PEL RAV SOL TAR UL VEN WIL YAR".split(" ");

function siteNames(count: number, random: () => number): string[] {
  const names = new Set<string>();
  while (names.size < count) {
    const length = random() < 0.4 ? 2 : 3;
    const name = Array.from({ length }, () => SYLLABLES[Math.floor(random() * SYLLABLES.length)]).join("");
    names.add(names.has(name) ? `${name}-${2 + Math.floor(random() * 8)}` : name);
  }
  return [...names];
}
