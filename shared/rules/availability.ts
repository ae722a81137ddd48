import { address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import type { HopResult } from "../evaluate/result.js";
import { apart, decibels, availability as percent, yearly } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const availability: HopRule = {
  scope: "hop",
  id: "availability",
  severity: "error",
  title: "The availability must be as high as the objective asks",
  checks:
    "Availability of both directions together, propagation only, of the mode that carries the capacity asked for (else of the lowest mode); with carriers on both polarizations for the worse of them.",
  why: "It is what the customer was promised, in minutes of every year.",
  fix: "Against rain: a shorter hop, a lower band, vertical polarization, larger antennas. Against multipath: larger antennas, more inclination, space diversity.",
  source: "Rec. ITU-R P.530-18 sections 2.3 and 2.4; the combination of both directions is common practice",
  needs: ["levels", "objective", "availability"],
  quietAfter: ["path-length", "frequency-outside-tuning", "level-below-threshold", "capacity"],
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna A18-06 at 40 m\n    transmits high\n    extra-loss 16 dB" }),
  check({ hop, result, report, has, leaveToCause }) {
    const found = result.availability;
    if (found?.verdict !== "missed") return;
    // Without any margin the level itself is the finding, here or at the obstruction.
    const noMargin = found.dominant === "none";
    if (noMargin && (has("level-below-threshold") || has("clearance"))) return leaveToCause();
    // Over an obstructed path the figure follows from the obstruction, which was told already.
    if (
      has("clearance") &&
      (result.diffractionLossDb ?? 0) >= (found.shortfallDb ?? Number.POSITIVE_INFINITY)
    )
      return leaveToCause();
    report({
      at: address("hop", hop.name),
      message: `${comparison(found)}; ${noMargin ? "the received level leaves no margin" : cause(found)}`,
      help: noMargin ? undefined : remedy(found),
      related: related(hop),
    });
  },
};

type Found = NonNullable<HopResult["availability"]>;

/** What is found against what is asked. */
export function comparison({
  availabilityPercent,
  bound,
  modulation,
  outage,
  objectivePercent,
}: Found): string {
  const asked = objectivePercent!;
  const [figure, wanted] = apart(percent, availabilityPercent, asked);
  const [out, allowed] = apart(yearly, outage.yearPercent, 100 - asked);
  const [least, most] = bound === undefined ? ["", ""] : [`${bound} `, `${outage.bound} `];
  return `available ${least}${figure} with ${modulation} (${most}${out} out), the objective asks ${wanted} (${allowed})`;
}

function related({ objective }: Hop) {
  const { name } = objective!;
  return [{ at: address("objective", name, "availability"), message: `availability of ${name}` }];
}

function cause(found: Found): string {
  const { dominant, rainPercent, multipathPercent, causes } = found;
  const most = causes[0]?.cause;
  // The two usual causes go by their names; others are called by what they are.
  const others = dominant === "not decided" ? `, rain at most ${yearly(rainPercent)}` : "";
  if (most !== undefined && most !== "rain" && most !== "flat fading")
    return `${most} takes ${yearly(causes[0]!.yearPercent)}${others}`;
  return dominant === "rain"
    ? `rain takes ${yearly(rainPercent)}`
    : `multipath takes ${yearly(multipathPercent)}${others}`;
}

function remedy({ dominant, shortfallDb }: Found): string {
  const lack =
    shortfallDb === undefined
      ? "No margin within reach would meet it."
      : `${decibels(Math.ceil(shortfallDb * 10) / 10)} more margin in both directions would meet it.`;
  const buys =
    dominant === "rain"
      ? "Against rain a shorter hop or a lower band buys most."
      : "Against multipath larger antennas or space diversity buy most.";
  return `${lack} ${buys}`;
}
