/** A hop as a whole: what it carries, on which channel, with which radio. */
import { ARRANGEMENT_WORDS } from "../arrangements.js";
import type { Context } from "../types.js";
import { stateArgs } from "./state.js";
import { bandwidth, one, PRACTICE, quantity, type Rows, ref, text } from "./values.js";

const HOP: readonly Context[] = ["hop", "defaults hop"];

export const hopRows: Rows = [
  {
    name: "hop",
    in: ["file"],
    args: [
      { name: "name", value: { type: "name" }, meaning: "Identifier of the hop, usually of its two sites." },
      { name: "title", optional: true, value: text, meaning: "What it is called." },
    ],
    block: "hop",
    meaning: "Two sites, two antennas facing each other, both directions at once.",
    source: PRACTICE,
    example: "hop KELD-TARN {",
  },
  {
    name: "pair",
    in: ["hop"],
    args: one("hop", ref("hop"), "The hop of the other band.", "hop.pairedWith"),
    meaning: "The other hop of a dual-band pair: same sites, carriers aggregated. Both hops name each other.",
    source: PRACTICE,
    example: "pair KELD-TARN-80",
  },
  {
    name: "objective",
    in: HOP,
    alsoCalled: ["target", "requirement"],
    args: [
      {
        name: "objective",
        value: ref("objective"),
        meaning: "Objective it is judged against.",
        into: "hop.objective",
      },
    ],
    meaning: "The objective this hop is judged against.",
    fallback: "computed but not judged",
    source: PRACTICE,
    example: "objective trunk",
  },
  {
    name: "channel",
    in: HOP,
    alsoCalled: ["frequency", "carrier", "frequency-plan", "channel-plan", "second-channel"],
    args: [
      {
        name: "plan",
        value: { type: "free", example: "F.595" },
        meaning: "Channel plan, built in or declared with `plan`.",
      },
      { name: "width", slash: true, value: bandwidth, meaning: "Channel width." },
      {
        name: "number",
        slash: true,
        optional: true,
        value: { type: "number", integer: true, min: 0, max: 999 },
        meaning: "Channel number.",
        fallback: "still to be chosen; level, rain and clearance are those of the worst channel of the plan",
      },
    ],
    repeatable: true,
    meaning:
      "The channel. Each end transmits the frequency of its half (`transmits high` or `low`). An arrangement with several channels has a line for each, in the order of the carriers; the budget is that of the carrier of which least arrives; with frequency diversity the distance of the two decides the improvement.",
    source: "the plan's Recommendation; findings say how far it is confirmed",
    example: "channel F.595 / 55 MHz / 4",
  },
  {
    name: "polarization",
    in: HOP,
    alsoCalled: ["polarisation", "pol"],
    args: [
      {
        name: "value",
        value: {
          type: "word",
          words: {
            horizontal: "electric field horizontal",
            vertical: "electric field vertical",
            slant: "linear at 45 degrees",
          },
        },
        meaning: "Polarization of both directions.",
        into: "hop.polarization",
      },
    ],
    meaning:
      "Polarization. Of an arrangement with carriers on both polarizations it is that of the first carrier, which papers ask for; figures need none: it has both, and rain is judged for the worse, horizontal.",
    source: "Rec. ITU-R P.838-3 (rain differs between the two)",
    example: "polarization vertical",
  },
  {
    name: "degradation",
    in: HOP,
    alsoCalled: ["interference"],
    args: [
      {
        name: "value",
        value: quantity("ratio", { min: "0 dB", max: "40 dB" }),
        meaning: "By how much interference raises the receiver's threshold.",
        into: "hop.degradationDb",
      },
    ],
    meaning: "Threshold degradation by interference; every fade margin is less by it.",
    fallback: "0 dB",
    source: PRACTICE,
    example: "degradation 1 dB",
  },
  {
    name: "most-eirp",
    in: HOP,
    alsoCalled: ["max-eirp", "eirp-limit"],
    args: [
      {
        name: "value",
        value: quantity("power level", {
          min: "-40 dBm",
          max: "100 dBm",
          usual: ["20 to 85 dBm", "-10 to 55 dBW"],
        }),
        meaning: "Of each carrier, in the mode of the most power.",
        into: "hop.mostEirpDbm",
      },
    ],
    meaning: "Most EIRP that an end may have, as the licence or the administration says.",
    fallback: "that of the Radio Regulations alone",
    source: PRACTICE,
    example: "most-eirp 55 dBW",
  },
  {
    name: "emission-class",
    in: HOP,
    alsoCalled: ["emission", "emission-designator", "designator"],
    args: [
      {
        name: "letters",
        value: { type: "free", example: "D7W" },
        meaning: "Modulation, signal and information, and what else may follow: D7W, G7W, D1D.",
        into: "hop.emissionClass",
      },
    ],
    meaning:
      "Letters of the emission designator behind the bandwidth, as the administration wants them in a schedule or licence.",
    fallback: "D7W, usual for QAM with several channels of information",
    source:
      "Radio Regulations Appendix 1, read in 47 CFR 2.201; what is usual is common practice, from memory",
    example: "emission-class D7W",
  },
  {
    name: "repair-time",
    in: HOP,
    alsoCalled: ["mttr"],
    args: [
      {
        name: "value",
        value: quantity("duration", { min: "0 h", max: "720 h", usual: ["0.5 to 72 h", "0.5 to 10 d"] }),
        meaning: "Mean time to repair, travel included.",
        into: "hop.repairHours",
      },
    ],
    meaning: "Mean time to repair; with the radio's `mtbf` the outage by equipment follows.",
    fallback: "equipment outage is not computed",
    source: PRACTICE,
    example: "repair-time 12 h",
  },
  {
    name: "arrangement",
    in: HOP,
    alsoCalled: ["configuration", "protection", "redundancy", "scheme"],
    args: [
      {
        name: "value",
        value: { type: "word", words: ARRANGEMENT_WORDS },
        meaning: "Carriers and protection.",
      },
    ],
    meaning: "How many carriers, how protected, on which coupling.",
    fallback: "1+0",
    source: PRACTICE,
    example: "arrangement 1+0",
  },
  {
    name: "radio",
    in: HOP,
    alsoCalled: ["equipment", "odu", "transceiver"],
    args: [
      { name: "radio", value: ref("radio"), meaning: "Radio of both ends.", into: "hop.radio" },
      ...stateArgs,
    ],
    meaning: "The radio.",
    source: PRACTICE,
    example: "radio R18",
  },
  {
    name: "mode",
    in: HOP,
    alsoCalled: ["modulation"],
    args: [
      { name: "bandwidth", value: bandwidth, meaning: "Channel width." },
      {
        name: "modulation",
        value: { type: "free", example: "128QAM" },
        meaning: "Modulation, as the radio's catalogue entry names it.",
      },
    ],
    meaning: "A fixed mode.",
    fallback: "every mode of the radio with the channel's width",
    source: PRACTICE,
    example: "mode 55 MHz 128QAM",
  },
  {
    name: "modes",
    in: HOP,
    alsoCalled: ["acm", "adaptive-modulation", "modulations"],
    args: [
      { name: "bandwidth", value: bandwidth, meaning: "Channel width." },
      { name: "lowest", value: { type: "free", example: "QPSK" }, meaning: "Lowest modulation in use." },
      {
        name: "highest",
        label: "to",
        value: { type: "free", example: "128QAM" },
        meaning: "Highest modulation in use.",
      },
    ],
    meaning: "An adaptive range of modes.",
    source: PRACTICE,
    example: "modes 55 MHz QPSK to 128QAM",
  },
];
