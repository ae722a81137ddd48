/** What the network says of interference: criteria, the air and the sea between its sites and others', how far to look. */
import { one, PRACTICE, quantity, type Rows, ref } from "./values.js";

const P452 = "Rec. ITU-R P.452-18";
const OURS = "common practice, from memory";

const degradation = quantity("ratio", { above: "0 dB", max: "40 dB" });
const interferenceToNoise = quantity("ratio", { min: "-60 dB", max: "60 dB", usual: ["-30 to 30 dB"] });
const timePercent = quantity("percentage", { min: "0.001 %", max: "50 %" });

export const interferenceRows: Rows = [
  {
    name: "interference",
    in: ["network", "file"],
    args: [],
    block: "interference",
    meaning:
      "How interference between hops, and between them and others, is computed and judged. It is a criterion only where a limit is stated here.",
    fallback: "no criterion of interference",
    source: PRACTICE,
    example: "interference {",
  },
  {
    name: "single-entry",
    in: ["interference"],
    args: one(
      "degradation",
      degradation,
      "Most that one transmitter may raise a threshold.",
      "interference.singleEntryDegradationDb",
    ),
    meaning: "Criterion: degradation of a receiver's threshold by any one transmitter.",
    fallback: "not a criterion; 1 dB is usual",
    source: OURS,
    example: "single-entry 1 dB",
  },
  {
    name: "aggregate",
    in: ["interference"],
    args: one(
      "degradation",
      degradation,
      "Most that all transmitters together may raise a threshold.",
      "interference.aggregateDegradationDb",
    ),
    meaning:
      "Criterion: degradation of a receiver's threshold by all transmitters together, in the long-term percentage.",
    fallback: "not a criterion; 3 dB is usual",
    source: OURS,
    example: "aggregate 3 dB",
  },
  {
    name: "toward-others",
    in: ["interference"],
    args: [
      {
        name: "long-term",
        value: interferenceToNoise,
        meaning: "Most I/N at a receiver of others in the long-term percentage.",
        into: "interference.towardOthersLongTermDb",
      },
      {
        name: "short-term",
        label: "short-term",
        optional: true,
        value: interferenceToNoise,
        meaning: "Most I/N there in the short-term percentage.",
        into: "interference.towardOthersShortTermDb",
        fallback: "not a criterion",
      },
    ],
    meaning: "Criteria: what a hop may bring to a receiver of others, over its noise.",
    fallback: "not a criterion; -10 dB is usual with a primary service, -6 dB where few interfere at once",
    source: "Rec. ITU-R F.758, from memory",
    example: "toward-others -10 dB short-term 10 dB",
  },
  {
    name: "long-term",
    in: ["interference"],
    args: one(
      "time",
      timePercent,
      "Percentage of the average year in which the loss is no greater.",
      "interference.longTermPercent",
    ),
    meaning: "Time percentage of the long-term criteria; its sum lowers fade margins.",
    fallback: "20 %",
    source: OURS,
    example: "long-term 20 %",
  },
  {
    name: "short-term",
    in: ["interference"],
    args: [
      {
        name: "time",
        value: timePercent,
        meaning: "Percentage of the average year in which the loss is no greater.",
        into: "interference.shortTermPercent",
      },
      {
        name: "degradation",
        label: "degradation",
        optional: true,
        value: degradation,
        meaning: "Most that a threshold may be raised in this percentage.",
        into: "interference.shortTermDegradationDb",
        fallback: "not a criterion",
      },
    ],
    meaning: "Time percentage of the short-term criteria, and the one of the receivers of this network.",
    fallback: "0.01 %",
    source: OURS,
    example: "short-term 0.01 % degradation 20 dB",
  },
  {
    name: "lapse",
    in: ["interference"],
    alsoCalled: ["dn", "deltan", "delta-n", "dn50"],
    args: one(
      "fall",
      quantity("refractivity gradient", {
        above: "0 N/km",
        below: "157 N/km",
        usual: ["20 to 100 N/km"],
        because: "it is the fall with height, written positive, and at 157 N/km a ray follows the Earth",
      }),
      "Median fall of refractivity over the lowest kilometre.",
      "interference.lapseNPerKm",
    ),
    meaning: "How fast refractivity falls with height (DN), for paths of interference. Not dN1, nor dN75.",
    fallback: "from DN50.TXT in a folder of `maps`; else asked for, and a preview assumes 45 N/km",
    source: `${P452} section 1 and equation 5`,
    example: "lapse 45 N/km",
  },
  {
    name: "N0",
    in: ["interference"],
    args: one(
      "value",
      { type: "number", min: 200, max: 450 },
      "N-units.",
      "interference.surfaceRefractivity",
    ),
    meaning: "Refractivity at sea level, for troposcatter.",
    fallback: "from N050.TXT in a folder of `maps`; else asked for, and a preview assumes 325",
    source: `${P452} section 1`,
    example: "N0 325",
  },
  {
    name: "sea-below",
    in: ["interference"],
    args: one(
      "height",
      quantity("length", { min: "-500 m", max: "100 m", usual: ["-10 to 5 m", "-30 to 15 ft"] }),
      "Above sea level.",
      "interference.seaBelowM",
    ),
    meaning:
      "Where the terrain is no higher than this, an interfering path runs over sea. Land that lies so low counts as sea too: the pessimistic side.",
    fallback: "no path runs over sea",
    source: `${P452} section 1, zone B`,
    example: "sea-below 0 m",
  },
  {
    name: "sea-share",
    in: ["interference"],
    args: one(
      "share",
      quantity("percentage", { min: "0 %", max: "100 %" }),
      "Of the length of a path.",
      "interference.seaSharePercent",
    ),
    meaning: "How much of an interfering path is taken as sea where `sea-below` or the terrain do not tell.",
    fallback: "0 %",
    source: `${P452} section 2`,
    example: "sea-share 30 %",
  },
  {
    name: "assumed-noise-figure",
    in: ["interference"],
    args: one(
      "value",
      quantity("ratio", { min: "0 dB", max: "20 dB" }),
      "Of a receiver.",
      "interference.assumedNoiseFigureDb",
    ),
    meaning: "Noise figure of receivers of others that state none.",
    fallback: "asked for where `toward-others` is a criterion",
    source: PRACTICE,
    example: "assumed-noise-figure 5 dB",
  },
  {
    name: "search-distance",
    in: ["interference"],
    alsoCalled: ["radius", "search-radius", "coordination-distance"],
    args: one(
      "distance",
      quantity("length", { min: "1 km", max: "1000 km", usual: ["10 to 1000 km", "5 to 600 mi"] }),
      "From a receiver.",
      "interference.searchDistanceM",
    ),
    meaning: "Transmitters further away are not looked at.",
    fallback: "as far as the bound of the loss allows",
    source: PRACTICE,
    example: "search-distance 200 km",
  },
  {
    name: "profile-step",
    in: ["interference"],
    args: one(
      "step",
      quantity("length", { min: "5 m", max: "2 km", usual: ["20 to 1000 m", "60 to 3000 ft"] }),
      "Between points of ground.",
      "interference.profileStepM",
    ),
    meaning:
      "Step of the profiles of interfering paths. What a verdict hangs on is looked at again at the step of the raster.",
    fallback: "250 m",
    source: PRACTICE,
    example: "profile-step 250 m",
  },
  {
    name: "sum-pattern",
    in: ["interference"],
    args: one(
      "pattern",
      {
        type: "word",
        words: {
          "F.699": "the envelope, as for each entry: pessimistic",
          "F.1245": "the average of side lobes, for the sum of many",
        },
      },
      "Reference pattern.",
      "interference.sumPattern",
    ),
    meaning: "Reference pattern of antennas without one of their own, where all transmitters are summed.",
    fallback: "F.699",
    source: "Rec. ITU-R F.699-8, F.1245-3",
    example: "sum-pattern F.1245",
  },
  {
    name: "emission-mask",
    in: ["interference"],
    args: one(
      "mask",
      {
        type: "word",
        words: {
          "47-CFR-101.111": "digital fixed links in the United States, 47 CFR 101.111(a)(2)",
        },
      },
      "Which mask.",
      "interference.emissionMask",
    ),
    meaning: "Emission mask that the stated masks of radios in use are held against.",
    fallback: "masks are held against none",
    source: "47 CFR 101.111(a)(2), as it was read",
    example: "emission-mask 47-CFR-101.111",
  },
];

export const interferenceAtSiteRows: Rows = [
  {
    name: "coast",
    in: ["site"],
    args: one(
      "distance",
      quantity("length", { min: "0 m", max: "500 km", usual: ["0.1 to 100 km", "10 to 100000 m"] }),
      "Over land to the nearest coast.",
      "interferenceAt.coastM",
    ),
    meaning: "How far the sea is: at 5 km and less interfering paths may couple to ducts over it.",
    fallback: "no coast near",
    source: `${P452} section 4.4`,
    example: "coast 3 km",
  },
  {
    name: "coupling-loss",
    in: ["site"],
    alsoCalled: ["decoupling", "isolation", "antenna-isolation"],
    args: [
      { name: "hop", value: ref("hop"), meaning: "A hop that ends here." },
      { name: "other", value: ref("hop"), meaning: "Another one, or one that ends within 100 m." },
      {
        name: "loss",
        value: quantity("ratio", { min: "0 dB", max: "200 dB", usual: ["30 to 150 dB"] }),
        meaning: "Between the antenna ports of the two.",
      },
    ],
    repeatable: true,
    meaning:
      "Loss between the antennas of two hops at this site, measured or computed near the antennas, where no formula of the far field holds.",
    fallback: "antennas of one site are told with their angle and separation, and not judged",
    source: PRACTICE,
    example: "coupling-loss KELD-TARN KELD-MOSS 60 dB",
  },
  {
    name: "coupling-loss-others",
    in: ["site"],
    args: [
      { name: "hop", value: ref("hop"), meaning: "A hop that ends here." },
      {
        name: "loss",
        value: quantity("ratio", { min: "0 dB", max: "200 dB", usual: ["30 to 150 dB"] }),
        meaning: "Least of those measured between its antenna port and any of theirs.",
      },
    ],
    repeatable: true,
    meaning:
      "Loss between the antenna of a hop at this site and those of others within 100 m, in both directions: nearer than that no path lies between them, and the loss is measured.",
    fallback: "antennas of others that stand so near are told, and not judged",
    source: PRACTICE,
    example: "coupling-loss-others KELD-TARN 70 dB",
  },
];
