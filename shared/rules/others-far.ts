import type { Design } from "../design/design.js";
import type { LatLon } from "../geodesy/coordinates.js";
import { shownFile } from "../others/file-names.js";
import type { OthersTable } from "../others/table.js";
import { exampleHop } from "./example-preamble.js";
import { OTHERS_EXAMPLE } from "./others-words.js";
import type { NetworkRule } from "./rule.js";

export const othersFar: NetworkRule = {
  scope: "network",
  id: "others-far",
  severity: "warning",
  title: "Some of the others should be near the network",
  checks:
    "Whether any transmitter of a list lies within 9 degrees, about 1000 km, of the box around the sites of the network; and if none does, whether one would with latitude and longitude exchanged.",
  why: "A list that lies elsewhere adds nothing: its coordinates are exchanged, of another system, or it is another region's.",
  fix: "Exchange the two columns, or name the system of its coordinates.",
  source: "common practice; the distance is ours",
  good: `${OTHERS_EXAMPLE}\n\n${exampleHop()}`,
  bad: `${OTHERS_EXAMPLE.replace('"lat"', '"lon"').replace('longitude "lon"', 'longitude "lat"')}\n\n${exampleHop()}`,
  check({ design, files, memory, report }) {
    if (design.others === undefined) return;
    const box = memory.of(BOX, design.sites, boxOf);
    if (box === undefined) return;
    for (const list of design.others) {
      const read = files.others.get(list);
      if (read === undefined || "unusable" in read || read.table.count === 0) continue;
      if (hasNear(read.table, box, false)) continue;
      const isExchanged = hasNear(read.table, box, true);
      report({
        at: list.at,
        about: list.file,
        message: isExchanged
          ? `${shownFile(list.file)} lies nowhere near the network; with latitude and longitude exchanged it would`
          : `no transmitter of ${shownFile(list.file)} lies within about 1000 km of the network`,
      });
    }
  },
};

/** Of latitude, and of longitude as long as that on the ground. */
const NEAR_DEG = 9;

interface Box {
  readonly south: number;
  readonly north: number;
  readonly middle: LatLon;
  /** Half of its width, degrees of longitude. */
  readonly halfDeg: number;
}

const BOX = {};

function boxOf(sites: Design["sites"]): Box | undefined {
  const places = [...sites.values()].flatMap(({ position }) => position ?? []);
  const first = places[0];
  if (first === undefined) return undefined;
  let [south, north, west, east] = [90, -90, 0, 0];
  for (const { latitudeDeg, longitudeDeg } of places) {
    const from = turned(longitudeDeg - first.longitudeDeg);
    south = Math.min(south, latitudeDeg);
    north = Math.max(north, latitudeDeg);
    west = Math.min(west, from);
    east = Math.max(east, from);
  }
  const middle = {
    latitudeDeg: (south + north) / 2,
    longitudeDeg: turned(first.longitudeDeg + (west + east) / 2),
  };
  return { south, north, middle, halfDeg: (east - west) / 2 };
}

function hasNear({ count, figures }: OthersTable, box: Box, exchanged: boolean): boolean {
  const [latitudes, longitudes] = exchanged
    ? [figures.longitudeDeg, figures.latitudeDeg]
    : [figures.latitudeDeg, figures.longitudeDeg];
  const { south, north, middle, halfDeg } = box;
  const cosine = Math.cos((middle.latitudeDeg * Math.PI) / 180);
  for (let row = 0; row < count; row++) {
    const latitude = latitudes[row]!;
    if (latitude < south - NEAR_DEG || latitude > north + NEAR_DEG) continue;
    const aside = Math.abs(turned(longitudes[row]! - middle.longitudeDeg)) - halfDeg;
    if (aside * cosine <= NEAR_DEG) return true;
  }
  return false;
}

/** Into -180 to 180. */
function turned(degrees: number): number {
  return degrees - 360 * Math.round(degrees / 360);
}
