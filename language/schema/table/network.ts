import type { Property } from "../types.js";
import { phrase, quantity, type Rows, ref, text } from "./values.js";

const PRACTICE = "common practice";

/** The network, what holds for all of it, and objectives. */
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
    fallback: "no terrain: clearance is not judged",
    source: PRACTICE,
    example: 'terrain "terrain"',
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
      "Where climate figures are read from that the design does not state: LogK.csv and dN75.csv (P.530-18), R001.TXT (P.837-7), h0.txt (P.839-4), DN65m_01d00_v1.txt (P.453) and gtopo_30.txt (P.530-16). The maps belong to the ITU and do not come with Hopwright.",
    fallback: "only what the design states is used",
    source: "Rec. ITU-R P.530-18, P.837-7, P.839-4, P.453, P.1144",
    example: 'maps "itu-maps"',
  },
  {
    name: "climate",
    in: ["network", "hop"],
    args: [],
    block: "climate",
    meaning:
      "What the weather and the air do here. A hop's own climate overrides the network's, fact by fact.",
    source: "Rec. ITU-R P.530, P.837, P.453, P.676",
    example: "climate {",
  },
  {
    name: "rain",
    in: ["climate"],
    args: [
      {
        name: "rate",
        value: quantity("rain rate", { min: "0 mm/h", max: "300 mm/h" }),
        meaning: "Rain rate, 1 min integration.",
      },
      {
        name: "at",
        label: "at",
        optional: true,
        value: quantity("percentage", { min: "0.001 %", max: "5 %" }),
        meaning: "Percentage of the average year in which it is exceeded.",
        fallback: "0.01 %",
      },
    ],
    meaning:
      "Rain rate exceeded for a small part of the average year. The rain method of P.530 starts from 0.01 %.",
    source: "Rec. ITU-R P.837, P.530-18 section 2.4.1",
    example: "rain 34 mm/h at 0.01 %",
  },
  {
    name: "rain-zone",
    in: ["climate"],
    args: [
      {
        name: "zone",
        value: phrase("A B C D E F G H J K L M N P Q".split(" "), (zone) => `rain zone ${zone} of PN.837-1`),
        meaning: "Letter of the zone.",
      },
    ],
    meaning: "Classic rain zone, used only when no rain rate is given. Superseded by maps; findings say so.",
    source: "Rec. ITU-R PN.837-1 (superseded), table from memory",
    example: "rain-zone K",
  },
  {
    name: "logK",
    in: ["climate"],
    args: [
      {
        name: "value",
        value: { type: "number", min: -12, max: 0 },
        meaning: "log10 of the geoclimatic factor K.",
      },
    ],
    meaning: "Geoclimatic factor of the current multipath method.",
    source: "Rec. ITU-R P.530-18 section 2.3.1",
    example: "logK -4.2",
  },
  {
    name: "dN75",
    in: ["climate"],
    args: [
      {
        name: "gradient",
        value: quantity("refractivity gradient", { min: "-100 N/km", max: "1000 N/km" }),
        meaning: "Gradient parameter of the multipath method.",
      },
    ],
    meaning: "Refractivity gradient parameter of the current multipath method.",
    source: "Rec. ITU-R P.530-18 section 2.3.1",
    example: "dN75 12 N/km",
  },
  {
    name: "dN1",
    in: ["climate"],
    args: [
      {
        name: "gradient",
        value: quantity("refractivity gradient", { min: "-2000 N/km", max: "200 N/km" }),
        meaning: "Gradient in the lowest 65 m not exceeded for 1 % of the average year.",
      },
    ],
    meaning: "Input of the preceding edition's multipath method, used when logK and dN75 are not given.",
    source: "Rec. ITU-R P.530-17 section 2.3.1",
    example: "dN1 -250 N/km",
  },
  {
    name: "k",
    in: ["climate"],
    args: [
      {
        name: "factor",
        value: { type: "number", min: 0.1, max: 20 },
        meaning: "Effective Earth radius factor.",
      },
    ],
    meaning: "Median effective Earth radius factor, used for elevation angles and diffraction.",
    fallback: "4/3",
    source: "Rec. ITU-R P.530-18 section 2.2",
    example: "k 1.33",
  },
  {
    name: "temperature",
    in: ["climate"],
    args: [
      {
        name: "value",
        value: quantity("temperature", { min: "-60 degC", max: "60 degC" }),
        meaning: "Air temperature.",
      },
    ],
    meaning: "Air temperature at the path's mean height, for the absorption by gases.",
    fallback: "standard atmosphere at the path's mean height",
    source: "Rec. ITU-R P.676-13, P.835-6",
    example: "temperature 10 degC",
  },
  {
    name: "pressure",
    in: ["climate"],
    args: [
      {
        name: "value",
        value: quantity("pressure", { min: "300 hPa", max: "1100 hPa" }),
        meaning: "Barometric pressure.",
      },
    ],
    meaning: "Total barometric pressure at the path's mean height.",
    fallback: "standard atmosphere at the path's mean height",
    source: "Rec. ITU-R P.676-13, P.835-6",
    example: "pressure 1013 hPa",
  },
  {
    name: "vapour",
    in: ["climate"],
    args: [
      {
        name: "density",
        value: quantity("vapour density", { min: "0 g/m3", max: "50 g/m3" }),
        meaning: "Water vapour density.",
      },
    ],
    meaning: "Water vapour density at the path's mean height.",
    fallback: "standard atmosphere at the path's mean height",
    source: "Rec. ITU-R P.676-13, P.835-6",
    example: "vapour 7.5 g/m3",
  },
  {
    name: "multipath",
    in: ["climate"],
    args: [
      {
        name: "method",
        value: {
          type: "word",
          words: {
            current: "P.530-18, from logK and dN75",
            preceding: "P.530-17 detailed, from dN1 and the terrain's roughness",
            quick: "P.530-17 for early planning, from dN1 alone",
          },
        },
        meaning: "Which method.",
      },
    ],
    meaning:
      "Method of multipath fading. `quick` assumes a gradient of -300 N/km where none is given, and says so.",
    fallback: "the newest method whose inputs are there",
    source: "Rec. ITU-R P.530-18 and P.530-17 section 2.3.1",
    example: "multipath current",
  },
  {
    name: "roughness",
    in: ["climate"],
    args: [
      {
        name: "value",
        value: quantity("length", { min: "0 m", max: "3000 m" }),
        meaning: "Standard deviation of the terrain heights in 110 km by 110 km around the path.",
      },
    ],
    meaning: "Terrain roughness of the preceding edition's detailed multipath method.",
    fallback: "computed from the terrain when it covers the area, else from a map",
    source: "Rec. ITU-R P.530-17 section 2.3.1",
    example: "roughness 20 m",
  },
  {
    name: "rain-height",
    in: ["climate"],
    args: [
      {
        name: "height",
        value: quantity("length", { min: "-2 km", max: "7 km" }),
        meaning: "Mean rain height above sea level, 0.36 km above the mean 0 degC isotherm.",
      },
    ],
    meaning: "Mean rain height; with `rain-probability` wet snow is counted.",
    fallback: "from a map, else rain alone",
    source: "Rec. ITU-R P.839-4, P.530-18 section 2.4.2",
    example: "rain-height 2.3 km",
  },
  {
    name: "rain-probability",
    in: ["climate"],
    args: [
      {
        name: "value",
        value: quantity("percentage", { above: "0 %", max: "100 %" }),
        meaning: "Part of the average year in which it rains.",
      },
    ],
    meaning: "Probability of rain, needed for wet snow.",
    fallback: "rain alone",
    source: "Rec. ITU-R P.837-7, P.530-18 section 2.4.2",
    example: "rain-probability 4 %",
  },
  {
    name: "worst-month",
    in: ["climate"],
    args: [
      {
        name: "Q1",
        value: { type: "number", min: 1, max: 12 },
        meaning: "Ratio of worst month to year at 1 % of the year.",
      },
      {
        name: "beta",
        label: "beta",
        value: { type: "number", min: 0.01, max: 0.5 },
        meaning: "Slope of the ratio.",
      },
    ],
    meaning: "Local parameters that turn a year's rain into its worst month's.",
    fallback: "2.85 and 0.13, the global planning values",
    source: "Rec. ITU-R P.841, from memory",
    example: "worst-month 2.85 beta 0.13",
  },
  {
    name: "unchecked-methods",
    in: ["climate"],
    args: [
      {
        name: "value",
        value: {
          type: "word",
          words: {
            use: "they count, and are marked",
            "leave-out": "they do not count, and what is lacking is told",
          },
        },
        meaning: "What is done with them.",
      },
    ],
    meaning:
      "Whether methods count that were written from memory and never checked against the Recommendation: selective fading, diversity, worst month of rain, rain zones, F.1703 and F.1668.",
    fallback: "use",
    source: PRACTICE,
    example: "unchecked-methods leave-out",
  },
  {
    name: "objective",
    in: ["file", "network"],
    args: [
      { name: "name", value: { type: "name" }, meaning: "Name that hops refer to." },
      { name: "title", optional: true, value: text, meaning: "What it is called on reports." },
      {
        name: "like",
        label: "like",
        optional: true,
        value: ref("objective"),
        meaning: "Objective whose facts hold unless stated here.",
      },
    ],
    block: "objective",
    meaning: "What a hop is judged against.",
    source: PRACTICE,
    example: "objective trunk {",
  },
  {
    name: "availability",
    in: ["objective"],
    args: [
      {
        name: "value",
        value: quantity("percentage", { min: "90 %", max: "99.99999 %" }),
        meaning: "Part of the average year, propagation, both directions.",
      },
    ],
    meaning: "Availability that the hop must reach.",
    fallback: "availability is computed but not judged",
    source: PRACTICE,
    example: "availability 99.995 %",
  },
  {
    name: "availability-class",
    in: ["objective"],
    args: [
      {
        name: "portion",
        value: {
          type: "word",
          words: {
            "long-haul": "international, or national long haul",
            "short-haul": "national short haul",
            access: "national access",
          },
        },
        meaning: "Part of the network.",
      },
      {
        name: "length",
        label: "over",
        optional: true,
        value: quantity("length", { above: "0 m", max: "2500 km" }),
        meaning: "Length of the link that the hop is part of; the hop has its share by length.",
        fallback: "the hop is the link",
      },
      {
        name: "propagation",
        label: "propagation",
        optional: true,
        value: quantity("percentage", { above: "0 %", max: "100 %" }),
        meaning: "Part of the unavailability that propagation may take.",
        fallback: "propagation and equipment together are held against the whole",
      },
    ],
    meaning: "Availability that F.1703 asks of the link, all causes together, each direction.",
    fallback: "not judged",
    source: "Rec. ITU-R F.1703, from memory",
    example: "availability-class long-haul over 180 km propagation 50 %",
  },
  {
    name: "quality",
    in: ["objective"],
    args: [
      {
        name: "portion",
        value: {
          type: "word",
          words: {
            intermediate: "international portion, intermediate country",
            terminating: "international portion, terminating country",
            "short-haul": "national short haul",
            access: "national access",
          },
        },
        meaning: "Part of the 27 500 km path.",
      },
      {
        name: "length",
        label: "over",
        optional: true,
        value: quantity("length", { above: "0 m", max: "27500 km" }),
        meaning: "Length of the link that the hop is part of; the hop has its share by length.",
        fallback: "the hop is the link",
      },
      {
        name: "share",
        label: "share",
        optional: true,
        value: quantity("percentage", { above: "0 %", max: "20 %" }),
        meaning: "Share of the end-to-end objective of a national portion.",
        fallback: "8 %",
      },
      {
        name: "block-ratio",
        label: "block-ratio",
        optional: true,
        value: { type: "number", min: 0.01, max: 1 },
        meaning: "Block ratio of the international portion.",
        fallback: "1",
      },
    ],
    meaning: "Severely errored seconds that F.1668 allows in any month, held against the clear-air outage.",
    fallback: "not judged",
    source: "Rec. ITU-R F.1668 and ITU-T G.826, from memory",
    example: "quality intermediate over 200 km block-ratio 1",
  },
  {
    name: "capacity",
    in: ["objective"],
    args: [
      { name: "value", value: quantity("bit rate", { above: "0 bit/s" }), meaning: "Rate that must hold." },
    ],
    meaning: "Capacity that must hold at the availability asked; the lowest mode that carries it is judged.",
    fallback: "the lowest mode in use is judged",
    source: PRACTICE,
    example: "capacity 300 Mbit/s",
  },
  {
    name: "margin",
    in: ["objective"],
    args: [
      {
        name: "value",
        value: quantity("ratio", { min: "0 dB", max: "80 dB" }),
        meaning: "Least fade margin.",
      },
    ],
    meaning: "Least fade margin that the judged mode must have.",
    fallback: "the margin must not be negative",
    source: PRACTICE,
    example: "margin 25 dB",
  },
  {
    name: "clearance",
    in: ["objective"],
    args: [
      {
        name: "zone",
        value: quantity("Fresnel fraction", { min: "0 F1", max: "3 F1" }),
        meaning: "Part of the first Fresnel zone that must be free.",
      },
      {
        name: "k",
        label: "at k",
        value: { type: "number", min: 0.1, max: 20 },
        meaning: "Effective Earth radius factor it must be free at.",
      },
    ],
    repeatable: true,
    meaning: "A clearance criterion; all of them must hold.",
    fallback: "1 F1 at k 4/3 is computed but not judged",
    source: "Rec. ITU-R P.530-18 section 2.2.2 (form of the rule from memory)",
    example: "clearance 1 F1 at k 1.33",
  },
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
          },
        },
        meaning: "What the defaults are for.",
      },
    ],
    // The context depends on the word: `defaults hop`, `defaults end`, `defaults site`.
    block: "defaults hop",
    repeatable: true,
    meaning: "Facts that hold for every hop, end or site that does not state them itself.",
    source: PRACTICE,
    example: "defaults hop {",
  },
] satisfies Property[];
