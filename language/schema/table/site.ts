import { PRACTICE, quantity, type Rows, text } from "./values.js";

export const siteRows: Rows = [
  {
    name: "site",
    in: ["file"],
    args: [
      { name: "name", value: { type: "name" }, meaning: "Identifier; ends of hops are named by it." },
      { name: "title", optional: true, value: text, meaning: "What the site is called." },
    ],
    block: "site",
    meaning: "A place with a structure that antennas hang on.",
    source: "common practice",
    example: 'site KELD "Keld quarry" {',
  },
  {
    name: "at",
    in: ["site"],
    alsoCalled: ["position", "coordinates", "location", "coordinate", "latitude", "longitude", "lat", "lon"],
    args: [
      {
        name: "position",
        value: { type: "position" },
        meaning:
          "Latitude and longitude, decimal (47.4534 -30.5808) or degrees, minutes, seconds with hemispheres; or east and north in metres, in a zone of UTM (utm 32 north 412345 E 5261234 N) or in a system by its EPSG code (epsg 25832 412345 E 5261234 N).",
        into: "site.position",
      },
    ],
    meaning: "Position in WGS84, latitude first.",
    source: "WGS84",
    example: `at 47°27'12.4"N 30°34'51.0"W`,
  },
  {
    name: "ground",
    in: ["site", "defaults site"],
    alsoCalled: ["elevation", "altitude", "asl", "amsl", "ground-level"],
    args: [
      {
        name: "level",
        value: quantity("length", { min: "-500 m", max: "9000 m", usual: ["0 to 5000 m", "0 to 16000 ft"] }),
        meaning: "Height above sea level.",
        into: "site.groundM",
      },
    ],
    meaning: "Ground level at the structure's foot, above sea level.",
    fallback: "taken from the terrain",
    source: "survey",
    example: "ground 412 m",
  },
  {
    name: "structure",
    in: ["site", "defaults site"],
    alsoCalled: ["tower", "mast", "pole", "building", "roof", "height"],
    args: [
      {
        name: "kind",
        value: {
          type: "word",
          words: {
            mast: "guyed or stayed mast",
            tower: "self-supporting tower",
            roof: "roof of a building, height of the roof and what stands on it",
            pole: "pole or monopole",
            chimney: "chimney or silo",
          },
        },
        meaning: "What carries the antennas.",
        into: "site.structure.kind",
      },
      {
        name: "height",
        value: quantity("length", { above: "0 m", max: "700 m", usual: ["3 to 350 m", "10 to 1150 ft"] }),
        meaning: "Height above ground.",
        into: "site.structure.heightM",
      },
    ],
    meaning: "The structure; no antenna hangs above its top.",
    fallback: "antenna heights are not held against a structure",
    source: "survey",
    example: "structure mast 30 m",
  },
  {
    name: "address",
    in: ["site"],
    alsoCalled: ["street"],
    args: [
      {
        name: "text",
        value: text,
        meaning: "Road, number, place; or the way there where there is none.",
        into: "site.address",
      },
    ],
    meaning: "Where the site is for whoever drives there; on the sheet for installation.",
    fallback: "the sheet says that none is stated",
    source: PRACTICE,
    example: 'address "Quarry Road 4, Keld"',
  },
  {
    name: "access",
    in: ["site"],
    alsoCalled: ["keys", "entry"],
    args: [
      {
        name: "text",
        value: text,
        meaning: "Keys, gates, hours, track, lift; what the owner asks.",
        into: "site.access",
      },
    ],
    meaning: "How one comes in and up; on the sheet for installation.",
    fallback: "the sheet says that none is stated",
    source: PRACTICE,
    example: 'access "key at the works office, track for four-wheel drive"',
  },
  {
    name: "contact",
    in: ["site"],
    alsoCalled: ["owner", "phone"],
    args: [
      {
        name: "text",
        value: text,
        meaning:
          "Who lets in and is told of the work, and by what means. It stands in the design's history for good.",
        into: "site.contact",
      },
    ],
    meaning: "Whom to call about the site; on the sheet for installation.",
    fallback: "the sheet says that none is stated",
    source: PRACTICE,
    example: 'contact "works office, weekdays 7 to 16 h"',
  },
];
