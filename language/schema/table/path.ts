/** What stands and lies on the path of a hop, and what was measured there. */
import { frequency, PRACTICE, quantity, type Rows, ref, text } from "./values.js";

export const pathRows: Rows = [
  {
    name: "obstacle",
    in: ["hop"],
    alsoCalled: ["clutter", "tree", "trees", "building", "obstruction"],
    args: [
      { name: "title", optional: true, value: text, meaning: "What it is." },
      {
        name: "height",
        value: quantity("length", { above: "0 m", max: "500 m", usual: ["1 to 150 m", "3 to 500 ft"] }),
        meaning: "Height above ground, growth included.",
      },
      {
        name: "distance",
        label: "at",
        value: quantity("length", {
          min: "0 m",
          max: "300 km",
          usual: ["0.01 to 150 km", "10 to 150000 m", "0.01 to 95 mi"],
        }),
        meaning: "Distance along the path.",
      },
      { name: "from", label: "from", value: ref("site"), meaning: "End that the distance counts from." },
    ],
    repeatable: true,
    meaning: "Something on the path that the terrain does not know: trees, a building, a crane.",
    source: PRACTICE,
    example: 'obstacle "spruce" 14 m at 6.2 km from KELD',
  },
  {
    name: "surface",
    in: ["hop"],
    args: [
      {
        name: "kind",
        value: {
          type: "word",
          words: {
            water: "fresh water: lake, river",
            sea: "salt water",
            flat: "flat wet ground, no growth",
            rough: "broken or wooded ground: does not reflect",
          },
        },
        meaning: "What the surface is.",
      },
      {
        name: "start",
        value: quantity("length", {
          min: "0 m",
          max: "300 km",
          usual: ["0.01 to 150 km", "10 to 150000 m", "0.01 to 95 mi"],
        }),
        meaning: "Where it begins along the path.",
      },
      {
        name: "end",
        label: "to",
        value: quantity("length", {
          min: "0 m",
          max: "300 km",
          usual: ["0.01 to 150 km", "10 to 150000 m", "0.01 to 95 mi"],
        }),
        meaning: "Where it ends.",
      },
      { name: "from", label: "from", value: ref("site"), meaning: "End that the distances count from." },
      {
        name: "level",
        label: "at",
        optional: true,
        value: quantity("length", { min: "-500 m", max: "9000 m", usual: ["0 to 5000 m", "0 to 16000 ft"] }),
        meaning: "Its height above sea level.",
        fallback: "mean height of the profile there",
      },
    ],
    repeatable: true,
    meaning: "A surface that may reflect: the hop is judged for the ripple of the reflected ray.",
    fallback: "no reflection is computed",
    source: "Rec. ITU-R P.530-18 section 6.1",
    example: "surface water 3 km to 5 km from KELD",
  },
  {
    name: "measured-rain",
    in: ["hop"],
    args: [
      {
        name: "attenuation",
        value: quantity("ratio", { min: "0 dB", max: "200 dB" }),
        meaning: "Rain attenuation exceeded for 0.01 % of the average year.",
        into: "hop.measuredRain.attenuation001Db",
      },
      {
        name: "frequency",
        label: "at",
        value: frequency,
        meaning: "Frequency it was measured at.",
        into: "hop.measuredRain.frequencyHz",
      },
      {
        name: "polarization",
        optional: true,
        value: {
          type: "word",
          words: { horizontal: "measured on horizontal", vertical: "measured on vertical" },
        },
        meaning: "Polarization it was measured on.",
        into: "hop.measuredRain.polarization",
        fallback: "the hop's",
      },
    ],
    meaning: "Rain attenuation measured on this path; it takes the place of the one from the rain rate.",
    fallback: "computed from the rain rate",
    source: "Rec. ITU-R P.530-18 sections 2.4.3 and 2.4.4",
    example: "measured-rain 22 dB at 18.7 GHz",
  },
  {
    name: "survey",
    in: ["hop"],
    args: [
      {
        name: "file",
        value: { type: "path" },
        meaning:
          "CSV with the header line `distance_m,height_m,cover_m`, relative to this file; a row a point, distances rising.",
      },
      {
        name: "from",
        label: "from",
        optional: true,
        value: ref("site"),
        meaning: "End that the distances count from.",
        fallback: "the first end",
      },
      {
        name: "source",
        label: "by",
        optional: true,
        value: {
          type: "word",
          words: {
            field:
              "surveyed on the ground: neighbours are joined whatever their distance, every row has a height",
            map: "read off a map or a raster: a row without a height, or more than three usual steps (at most 1 km) without a row, is ground that is not known",
          },
        },
        meaning: "How it was made.",
        fallback: "by map, and said once",
      },
    ],
    meaning:
      "A surveyed profile that takes the place of the terrain. The header line names columns and units, in any order: `distance_m` or `distance_km` from the end named, `height_m` of the ground above sea level (-500 to 9000 m; `ground_m`, as `hopwright profile --format csv` writes it, serves too), `cover_m` of trees or buildings above it (may be left out). Comma, semicolon or tab part the columns; behind a semicolon or a tab numbers may have a decimal comma. Numbers are plain decimals. Points stay where they were surveyed, and between neighbours ground and top of the cover run straight; only when the last row lies within 25 m of the far end are the distances stretched to it, in proportion, and told. What the survey does not reach is not known, and leaves the clearance open.",
    source: PRACTICE,
    example: 'survey "survey/keld-tarn.csv" from KELD by field',
  },
];
