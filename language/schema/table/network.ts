/** The network, what it takes from other folders, and what holds unless something else is stated. */
import { one, PRACTICE, quantity, type Rows, text } from "./values.js";

export const networkRows: Rows = [
  {
    name: "network",
    in: ["file"],
    args: [{ name: "title", value: text, meaning: "What the network is called on reports." }],
    block: "network",
    meaning:
      "The network this folder describes: its terrain, climate, objectives and defaults. One to a design.",
    source: PRACTICE,
    example: 'network "Eskerfold" {',
  },
  {
    name: "terrain",
    in: ["network"],
    args: [
      {
        name: "path",
        value: { type: "path" },
        meaning: "Raster file, or folder with rasters, relative to this file.",
      },
    ],
    repeatable: true,
    meaning: "Where terrain heights are read from: SRTM .hgt (also zipped), GeoTIFF, ESRI ASCII grid.",
    fallback:
      "no terrain: nothing is known of the ground, and no clearance, level or availability counts as met",
    source: PRACTICE,
    example: 'terrain "terrain"',
  },
  {
    name: "bridge-gaps",
    in: ["network"],
    alsoCalled: ["fill-gaps"],
    args: [
      {
        name: "below",
        value: quantity("length", { above: "0 m", max: "1 km", usual: ["30 to 1000 m"] }),
        meaning: "Gaps shorter than this, from known ground to known ground, are bridged.",
      },
    ],
    meaning:
      "How wide a gap in the ground may be for a straight line to stand in for it: voids of rasters and missing tiles, and what a survey made from a map leaves out. Each bridge is named at the result. A hill may hide in it all the same: state no more than the country there lets you answer for.",
    fallback: "none is bridged: over any gap, however short, the clearance is open",
    source: PRACTICE,
    example: "bridge-gaps 200 m",
  },
  {
    name: "magnetic-date",
    in: ["network"],
    alsoCalled: ["declination-date", "compass-date"],
    args: one("date", { type: "date" }, "Day on which antennas are turned.", "network.magneticDay"),
    meaning:
      "The day that compass bearings on sheets are for: magnetic north moves by a tenth of a degree and more a year. The World Magnetic Model 2025 holds from 2025 to 2029.",
    fallback:
      "the date of the design's commit in git; without one sheets have azimuths from true north alone, and say so",
    source: "World Magnetic Model 2025 (NOAA NCEI, British Geological Survey)",
    example: "magnetic-date 2026-05-01",
  },
  {
    name: "catalogue",
    in: ["network"],
    args: [
      { name: "path", value: { type: "path" }, meaning: "Folder of .hop files, relative to this file." },
    ],
    repeatable: true,
    meaning: "A folder of equipment shared with other designs. Its files count as part of this design.",
    source: PRACTICE,
    example: 'catalogue "../catalogue"',
  },
  {
    name: "maps",
    in: ["network"],
    args: [
      {
        name: "path",
        value: { type: "path" },
        meaning: "Folder with your copies of the ITU-R map files, relative to this file.",
      },
    ],
    repeatable: true,
    meaning:
      "Where climate figures are read from that the design does not state: LogK.csv and dN75.csv (P.530-18), R001.TXT (P.837-7), h0.txt (P.839-4), DN65m_01d00_v1.txt (P.453) and gtopo_30.txt (P.530-16); for interference DN50.TXT and N050.TXT (P.452-18). The maps belong to the ITU and do not come with Hopwright.",
    fallback: "only what the design states is used",
    source: "Rec. ITU-R P.530-18, P.837-7, P.839-4, P.453-14, P.452-18, P.1144",
    example: 'maps "itu-maps"',
  },
];

export const defaultsRows: Rows = [
  {
    name: "defaults",
    in: ["file", "network"],
    args: [
      {
        name: "of",
        value: {
          type: "word",
          words: {
            hop: "facts of every hop",
            end: "facts of every end of a hop",
            site: "facts of every site",
            demand: "facts of every demand",
          },
        },
        meaning: "What the defaults are for.",
      },
    ],
    // The context depends on the word: `defaults hop`, `defaults end`, `defaults site`, `defaults demand`.
    block: "defaults hop",
    repeatable: true,
    meaning: "Facts that hold for every hop, end, site or demand that does not state them itself.",
    source: PRACTICE,
    example: "defaults hop {",
  },
];
