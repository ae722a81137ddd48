/** What the air and the rain are like, for the network and for a hop where it differs. */
import { PRACTICE, phrase, quantity, type Rows } from "./values.js";

export const climateRows: Rows = [
  {
    name: "climate",
    in: ["network", "hop"],
    args: [],
    block: "climate",
    meaning:
      "What the weather and the air do here. A hop's own climate overrides the network's, fact by fact.",
    source: "Rec. ITU-R P.530-18, P.837-7, P.453-14, P.676-13",
    example: "climate {",
  },
  {
    name: "rain",
    in: ["climate"],
    alsoCalled: ["rain-rate", "rain-intensity"],
    args: [
      {
        name: "rate",
        value: quantity("rain rate", { min: "0 mm/h", max: "300 mm/h" }),
        meaning: "Rain rate, 1 min integration.",
        into: "climate.rainRateMmPerH",
      },
      {
        name: "at",
        label: "at",
        optional: true,
        value: quantity("percentage", { min: "0.001 %", max: "5 %" }),
        meaning: "Percentage of the average year in which it is exceeded.",
        into: "climate.rainTimePercent",
        fallback: "0.01 %",
      },
    ],
    meaning:
      "Rain rate exceeded for a small part of the average year. The rain method of P.530 starts from 0.01 %.",
    source: "Rec. ITU-R P.837-7, P.530-18 section 2.4.1",
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
        into: "climate.rainZone",
      },
    ],
    meaning: "Classic rain zone, used only when no rain rate is given. Superseded by maps; findings say so.",
    source: "Rec. ITU-R PN.837-1 (superseded), table from memory",
    example: "rain-zone K",
  },
  {
    name: "logK",
    in: ["climate"],
    alsoCalled: ["geoclimatic", "geoclimatic-factor", "log-k"],
    args: [
      {
        name: "value",
        value: { type: "number", min: -12, max: 0 },
        meaning: "log10 of the geoclimatic factor K.",
        into: "climate.logK",
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
        value: quantity("refractivity increase", {
          min: "-100 N-units",
          max: "1000 N-units",
          usual: ["0 to 300 N-units"],
        }),
        meaning: "Increase in N-units; `N/km` is read as the same.",
        into: "climate.dN75",
      },
    ],
    meaning:
      "Increase of refractivity over the lowest 75 m in 0.1 % of the average worst month: input of the current multipath method.",
    source: "Rec. ITU-R P.530-18 section 2.3.1",
    example: "dN75 12 N-units",
  },
  {
    name: "dN1",
    in: ["climate"],
    args: [
      {
        name: "gradient",
        value: quantity("refractivity gradient", {
          min: "-2000 N/km",
          max: "200 N/km",
          usual: ["-800 to 50 N/km"],
        }),
        meaning: "Gradient in the lowest 65 m not exceeded for 1 % of the average year.",
        into: "climate.dN1",
      },
    ],
    meaning: "Input of the preceding edition's multipath method, used when logK and dN75 are not given.",
    source: "Rec. ITU-R P.530-17 section 2.3.1",
    example: "dN1 -250 N/km",
  },
  {
    name: "k",
    in: ["climate"],
    alsoCalled: ["k-factor"],
    args: [
      {
        name: "factor",
        value: { type: "number", min: 0.1, max: 20 },
        meaning: "Effective Earth radius factor.",
        into: "climate.kFactor",
      },
    ],
    meaning: "Median effective Earth radius factor, used for elevation angles and diffraction.",
    fallback: "1.33 (4/3, which may be written so)",
    source: "Rec. ITU-R P.530-18 section 2.2",
    example: "k 1.33",
  },
  {
    name: "temperature",
    in: ["climate"],
    alsoCalled: ["temp"],
    args: [
      {
        name: "value",
        value: quantity("temperature", {
          min: "-60 degC",
          max: "60 degC",
          usual: ["-40 to 50 degC", "233 to 323 K"],
        }),
        meaning: "Air temperature.",
        into: "climate.temperatureK",
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
        value: quantity("pressure", {
          min: "300 hPa",
          max: "1100 hPa",
          usual: ["500 to 1100 hPa", "50 to 110 kPa", "50000 to 110000 Pa"],
        }),
        meaning: "Barometric pressure.",
        into: "climate.pressureHPa",
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
    alsoCalled: ["vapor", "humidity", "water-vapour", "water-vapor"],
    args: [
      {
        name: "density",
        value: quantity("vapour density", { min: "0 g/m3", max: "50 g/m3" }),
        meaning: "Water vapour density.",
        into: "climate.waterVapourDensityGm3",
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
        into: "climate.multipathMethod",
      },
    ],
    meaning:
      "Method of multipath fading. `quick` assumes a gradient of -300 N/km where none is given, and says so.",
    fallback: "the newest method whose inputs are there; without any of them `quick`",
    source: "Rec. ITU-R P.530-18 and P.530-17 section 2.3.1",
    example: "multipath current",
  },
  {
    name: "roughness",
    in: ["climate"],
    args: [
      {
        name: "value",
        value: quantity("length", { min: "0 m", max: "3000 m", usual: ["1 to 1000 m"] }),
        meaning: "Standard deviation of the terrain heights in 110 km by 110 km around the path.",
        into: "climate.terrainRoughnessM",
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
        value: quantity("length", { min: "-2 km", max: "7 km", usual: ["0.1 to 6 km", "100 to 6000 m"] }),
        meaning: "Mean rain height above sea level, 0.36 km above the mean 0 degC isotherm.",
        into: "climate.rainHeightM",
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
        into: "climate.rainProbabilityPercent",
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
        into: "climate.worstMonthQ1",
      },
      {
        name: "beta",
        label: "beta",
        value: { type: "number", min: 0.01, max: 0.5 },
        meaning: "Slope of the ratio.",
        into: "climate.worstMonthBeta",
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
        into: "climate.uncheckedMethods",
      },
    ],
    meaning:
      "Whether methods count that were written from memory and never checked against the Recommendation: selective fading, diversity, worst month of rain, rain zones, F.1703 and F.1668.",
    fallback: "use",
    source: PRACTICE,
    example: "unchecked-methods leave-out",
  },
  {
    name: "rare-rain",
    in: ["climate"],
    args: [
      {
        name: "value",
        value: {
          type: "word",
          words: {
            estimate:
              "the law of rain is continued in its own form; each figure is named as an estimate, its bound beside it",
            bound: "at most 0.001 % of the year and no more; an objective that this cannot decide stays open",
          },
        },
        meaning: "What is made of it.",
        into: "climate.rareRain",
      },
    ],
    meaning:
      "Rain in less than 0.001 % of the year, where the range of its law ends: what an objective near 99.999 % is decided by.",
    fallback: "estimate",
    source: "Rec. ITU-R P.530-18 section 2.4.1; the continuation is outside its range",
    example: "rare-rain bound",
  },
];
