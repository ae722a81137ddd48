/** What the network says of all its demands: how it moves traffic, and what that costs. */
import { frameBytes, frameOverheadBytes } from "./demand.js";
import { one, PRACTICE, quantity, type Rows } from "./values.js";

const latency = quantity("time", { min: "0 s", max: "1 s", usual: ["1 to 5000 us", "0.001 to 50 ms"] });

export const trafficRows: Rows = [
  {
    name: "traffic",
    in: ["network", "file"],
    args: [],
    block: "traffic",
    meaning: "How the network carries its demands: what happens when a route fails, and what each hop costs.",
    fallback: "what each line says where it is left out",
    source: PRACTICE,
    example: "traffic {",
  },
  {
    name: "rerouting",
    in: ["traffic"],
    alsoCalled: ["ring", "restoration", "ring-rule"],
    args: one(
      "value",
      {
        type: "word",
        words: {
          any: "it takes the shortest way that remains, as a ring or a mesh that switches by itself does",
          none: "only a second route of the demand's own helps",
        },
      },
      "What happens to traffic whose route fails.",
      "traffic.rerouting",
    ),
    meaning: "The rule of rings and meshes: where traffic goes whose route fails.",
    fallback: "any",
    source: PRACTICE,
    example: "rerouting any",
  },
  {
    name: "switching",
    in: ["traffic"],
    alsoCalled: ["switching-time", "restoration-time", "ring-switching"],
    args: one(
      "time",
      quantity("time", { min: "0 s", max: "600 s", usual: ["5 to 5000 ms", "0.05 to 600 s"] }),
      "Each time.",
      "traffic.switchingS",
    ),
    meaning: "For how long traffic is interrupted while it moves to another route.",
    fallback: "not counted",
    source: PRACTICE,
    example: "switching 50 ms",
  },
  {
    name: "hop-latency",
    in: ["traffic"],
    alsoCalled: ["radio-latency"],
    args: one("value", latency, "One way, without the flight of the wave.", "traffic.hopLatencyS"),
    meaning: "Latency of the two radios of a hop together.",
    fallback: "200 us, ours, of usual equipment",
    source: PRACTICE,
    example: "hop-latency 200 us",
  },
  {
    name: "site-latency",
    in: ["traffic"],
    alsoCalled: ["switch-latency", "node-latency"],
    args: one("value", latency, "One way.", "traffic.siteLatencyS"),
    meaning: "Latency of the switch at a site that a route passes.",
    fallback: "20 us, ours, of usual equipment",
    source: PRACTICE,
    example: "site-latency 20 us",
  },
  {
    name: "frame",
    in: ["traffic"],
    alsoCalled: ["frame-size", "packet-size"],
    args: one("size", frameBytes, "Mean, from destination address to check sequence.", "traffic.frameBytes"),
    meaning: "Ethernet frame of demands that state none.",
    fallback: "512 B, ours",
    source: PRACTICE,
    example: "frame 512 B",
  },
  {
    name: "frame-overhead",
    in: ["traffic"],
    alsoCalled: ["overhead", "tags", "labels"],
    args: one(
      "size",
      frameOverheadBytes,
      "A frame, beyond what the customer counts.",
      "traffic.frameOverheadBytes",
    ),
    meaning: "What the network adds to each frame of demands that state nothing of it: tags, labels.",
    fallback: "0 B",
    source: PRACTICE,
    example: "frame-overhead 8 B",
  },
  {
    name: "clock-hops",
    in: ["traffic"],
    alsoCalled: ["sync-hops", "max-clock-hops"],
    args: one(
      "count",
      { type: "number", integer: true, min: 1, max: 60 },
      "Hops in a row.",
      "traffic.clockHops",
    ),
    meaning: "Most hops that a clock may pass before it serves a demand.",
    fallback: "20, from a chain of 20 clocks",
    source: "Rec. ITU-T G.803, from memory",
    example: "clock-hops 10",
  },
];
