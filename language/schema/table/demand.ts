/** What the network is for: what must be carried between two sites, and what it may cost in time and failure. */
import type { Context } from "../types.js";
import { one, PRACTICE, quantity, type Rows, ref, text } from "./values.js";

const DEMAND: readonly Context[] = ["demand", "defaults demand"];

const availability = quantity("percentage", { min: "90 %", max: "99.99999 %" });
const rate = quantity("bit rate", {
  above: "0 bit/s",
  max: "400 Gbit/s",
  usual: ["0.5 to 10000 Mbit/s", "0.1 to 400 Gbit/s", "1 to 10000 kbit/s"],
});
export const frameBytes = quantity("frame size", {
  min: "64 B",
  max: "10000 B",
  because: "the shortest Ethernet frame has 64 B, and none but jumbo frames more than 2000 B",
});
export const frameOverheadBytes = quantity("frame size", { min: "0 B", max: "100 B" });
/** Places that a route passes, in the order of the route. */
const passed = { type: "reference", kind: "site", orKind: "hop" } as const;

export const demandRows: Rows = [
  {
    name: "demand",
    in: ["file"],
    args: [
      { name: "name", value: { type: "name" }, meaning: "Identifier of the demand." },
      { name: "title", optional: true, value: text, meaning: "What it is called." },
    ],
    block: "demand",
    meaning:
      "Traffic that the network must carry from one site to another: how much, at which availability, how fast.",
    source: PRACTICE,
    example: 'demand SCHOOL "School at Keld" {',
  },
  {
    name: "from",
    in: ["demand"],
    alsoCalled: ["between", "source"],
    args: [
      { name: "from", value: ref("site"), meaning: "Site where it begins." },
      {
        name: "to",
        label: "to",
        value: {
          type: "reference",
          kind: "site",
          words: { handover: "the site with a `handover` that its route reaches first" },
        },
        meaning: "Site where it ends.",
      },
    ],
    meaning: "The two sites that it joins. Both directions are the same.",
    fallback: "no route is looked for",
    source: PRACTICE,
    example: "from KELD to TARN",
  },
  {
    name: "committed",
    in: ["demand"],
    alsoCalled: ["rate", "cir", "bandwidth", "capacity"],
    args: one(
      "rate",
      rate,
      "Counted in Ethernet frames, from destination address to check sequence.",
      "demand.committedBps",
    ),
    meaning: "Ethernet rate that it must have at all times, as the customer counts it.",
    fallback: "no Ethernet",
    source: PRACTICE,
    example: "committed 200 Mbit/s",
  },
  {
    name: "peak",
    in: ["demand"],
    alsoCalled: ["pir", "excess", "burst"],
    args: one("rate", rate, "Counted as what is committed.", "demand.peakBps"),
    meaning: "Ethernet rate that it may take where there is room.",
    fallback: "no more than what is committed",
    source: PRACTICE,
    example: "peak 500 Mbit/s",
  },
  {
    name: "E1",
    in: ["demand"],
    alsoCalled: ["e1", "2mbit", "e1s"],
    args: one("count", { type: "number", integer: true, min: 1, max: 2000 }, "How many.", "demand.e1"),
    meaning: "E1 circuits of 2.048 Mbit/s.",
    fallback: "none",
    source: "Rec. ITU-T G.703, from memory",
    example: "E1 4",
  },
  {
    name: "STM-1",
    in: ["demand"],
    alsoCalled: ["stm1", "stm-1", "sdh"],
    args: one("count", { type: "number", integer: true, min: 1, max: 64 }, "How many.", "demand.stm1"),
    meaning: "STM-1 circuits of 155.52 Mbit/s.",
    fallback: "none",
    source: "Rec. ITU-T G.707, from memory",
    example: "STM-1 1",
  },
  {
    name: "tdm-packet",
    in: DEMAND,
    alsoCalled: ["pseudowire", "emulation", "circuit-emulation"],
    args: one(
      "payload",
      quantity("frame size", { min: "16 B", max: "1500 B" }),
      "Of each packet, without its heads.",
      "demand.tdmPacketBytes",
    ),
    meaning: "E1 and STM-1 cross the hops in packets with so much payload each.",
    fallback: "they cross natively",
    source: PRACTICE,
    example: "tdm-packet 256 B",
  },
  {
    name: "frame",
    in: DEMAND,
    alsoCalled: ["frame-size", "packet-size"],
    args: one("size", frameBytes, "Mean, from destination address to check sequence.", "demand.frameBytes"),
    meaning: "Ethernet frame that its rates are made of.",
    fallback: "that of `traffic`",
    source: PRACTICE,
    example: "frame 512 B",
  },
  {
    name: "frame-overhead",
    in: DEMAND,
    alsoCalled: ["overhead", "tags", "labels"],
    args: one(
      "size",
      frameOverheadBytes,
      "A frame, beyond what the customer counts.",
      "demand.frameOverheadBytes",
    ),
    meaning: "What the network adds to each of its frames: tags, labels.",
    fallback: "that of `traffic`",
    source: PRACTICE,
    example: "frame-overhead 8 B",
  },
  {
    name: "availability",
    in: DEMAND,
    alsoCalled: ["unavailability", "uptime"],
    args: one("value", availability, "Part of the average year, end to end.", "demand.availabilityPercent"),
    meaning: "Availability that it must have end to end, as far as propagation decides.",
    fallback: "computed but not judged",
    source: PRACTICE,
    example: "availability 99.95 %",
  },
  {
    name: "availability-with-equipment",
    in: DEMAND,
    alsoCalled: ["total-availability"],
    args: one(
      "value",
      availability,
      "Part of the average year, end to end.",
      "demand.availabilityWithEquipmentPercent",
    ),
    meaning: "Availability that it must have end to end, failures of equipment included.",
    fallback: "computed but not judged",
    source: PRACTICE,
    example: "availability-with-equipment 99.9 %",
  },
  {
    name: "latency",
    in: DEMAND,
    alsoCalled: ["delay", "max-latency"],
    args: one(
      "value",
      quantity("time", { above: "0 s", max: "10 s", usual: ["0.5 to 500 ms", "50 to 9999 us"] }),
      "One way, end to end.",
      "demand.latencyS",
    ),
    meaning: "Most latency that it may have.",
    fallback: "computed but not judged",
    source: PRACTICE,
    example: "latency 5 ms",
  },
  {
    name: "priority",
    in: DEMAND,
    alsoCalled: ["class", "class-of-service", "importance"],
    args: one(
      "value",
      { type: "number", integer: true, min: 1, max: 9 },
      "1 is carried first.",
      "demand.priority",
    ),
    meaning: "Which demands are carried first where there is not room for all.",
    fallback: "last",
    source: PRACTICE,
    example: "priority 2",
  },
  {
    name: "growth",
    in: DEMAND,
    alsoCalled: ["increase", "forecast"],
    args: [
      {
        name: "rate",
        value: quantity("percentage", { min: "0 %", max: "200 %", usual: ["1 to 100 %"] }),
        meaning: "Of its Ethernet rates, a year, each on top of the year before.",
      },
      {
        name: "horizon",
        label: "for",
        value: quantity("duration", { min: "1 y", max: "30 y", usual: ["1 to 30 y", "366 to 9999 d"] }),
        meaning: "How long it grows so; a year that is begun counts whole.",
      },
    ],
    meaning: "How its rates grow, and over how many years the network must bear it.",
    fallback: "it does not grow",
    source: PRACTICE,
    example: "growth 10 % for 5 y",
  },
  {
    name: "clock",
    in: DEMAND,
    alsoCalled: ["synchronization", "sync", "timing"],
    args: one(
      "feeds",
      {
        type: "word",
        words: {
          "one-feed": "from a site with a `clock-source`, over one way",
          "two-feeds": "over two ways that share no hop",
        },
      },
      "Over how many ways.",
      "demand.clock",
    ),
    meaning: "A clock is wanted at the site where it begins.",
    fallback: "none is wanted",
    source: PRACTICE,
    example: "clock two-feeds",
  },
  {
    name: "route",
    in: ["demand"],
    alsoCalled: ["path", "via", "routing"],
    args: [
      {
        name: "via",
        label: "via",
        value: passed,
        list: true,
        meaning: "Sites or hops that it passes, in this order, from where it begins.",
      },
    ],
    meaning: "What its route passes, where that is decided. Between those places it takes the shortest way.",
    fallback: "the shortest is found",
    source: PRACTICE,
    example: "route via KELD-TARN, RIDGE",
  },
  {
    name: "second-route",
    in: ["demand"],
    alsoCalled: ["diverse-route", "backup", "alternative-route", "protection-route"],
    args: [
      {
        name: "disjoint",
        label: "disjoint",
        value: {
          type: "word",
          words: {
            hop: "no hop of both routes is the same",
            site: "nor is any site between their ends",
            structure: "nor do sites of the two stand near each other",
          },
        },
        meaning: "What the two may not share.",
      },
      {
        name: "via",
        label: "via",
        optional: true,
        value: passed,
        list: true,
        meaning: "Sites or hops that the second route passes, in this order.",
        fallback: "it is found",
      },
    ],
    meaning: "A second route is asked for, which shares nothing of that kind with the first.",
    fallback: "none is asked for",
    source: PRACTICE,
    example: "second-route disjoint site via MOSS",
  },
];

export const trafficAtSiteRows: Rows = [
  {
    name: "handover",
    in: ["site"],
    alsoCalled: ["fibre", "exchange", "point-of-presence", "pop"],
    args: [],
    meaning: "Traffic leaves the network to fibre here: demands `to handover` may end here.",
    fallback: "none leaves here",
    source: PRACTICE,
    example: "handover",
  },
  {
    name: "clock-source",
    in: ["site"],
    alsoCalled: ["clock", "primary-reference", "grandmaster"],
    args: [],
    meaning: "The site has a clock of its own, which demands that want a `clock` may take theirs from.",
    fallback: "no clock begins here",
    source: PRACTICE,
    example: "clock-source",
  },
];
