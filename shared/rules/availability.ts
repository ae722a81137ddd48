import { address } from "../design/address.js";
import type { HopResult } from "../evaluate/result.js";
import { decibels, availability as percent, yearly } from "../format/numbers.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const availability: HopRule = {
  scope: "hop",
  id: "availability",
  severity: "error",
  title: "The availability must be as high as the objective asks",
  checks:
    "Availability of both directions together, propagation only, of the mode that carries the capacity asked for (else of the lowest mode).",
  why: "It is what the customer was promised, in minutes of every year.",
  fix: "Against rain: a shorter hop, a lower band, vertical polarization, larger antennas. Against multipath: larger antennas, more inclination, space diversity.",
  source: "Rec. ITU-R P.530-18 sections 2.3 and 2.4; the combination of both directions is common practice",
  needs: ["levels", "objective"],
  quietAfter: ["path-length", "frequency-outside-tuning", "level-below-threshold", "capacity"],
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna A18-06 at 40 m\n    transmits high\n    extra-loss 16 dB" }),
  check({ hop, result, report, has }) {
    const found = result.availability;
    const asked = hop.objective!.availabilityPercent;
    if (found === undefined || asked === undefined || found.availabilityPercent >= asked) return;
    // Without any margin the level itself is the finding, here or at the obstruction.
    if (found.dominant === "none") return;
    // Over an obstructed path the figure follows from the obstruction, which was told already.
    if (
      has("clearance") &&
      (result.diffractionLossDb ?? 0) >= (found.shortfallDb ?? Number.POSITIVE_INFINITY)
    )
      return;
    const [figure, wanted] = apart(found.availabilityPercent, asked);
    const bound = found.bound === undefined ? "" : `${found.bound} `;
    report({
      at: address("hop", hop.name),
      message: `available ${bound}${figure} with ${found.modulation} (${yearly(100 - found.availabilityPercent)} out), the objective asks ${wanted} (${yearly(100 - asked)}); ${cause(found)}`,
      help: remedy(found),
      related: [
        {
          at: address("objective", hop.objective!.name, "availability"),
          message: `availability of ${hop.objective!.name}`,
        },
      ],
    });
  },
};

/** Both figures with so many decimals that they differ. */
function apart(found: number, asked: number): [string, string] {
  for (let digits = 2; digits < 9; digits++) {
    if (found.toFixed(digits) !== asked.toFixed(digits)) return [percent(found, digits), percent(asked)];
  }
  return [percent(found), percent(asked)];
}

function cause(found: NonNullable<HopResult["availability"]>): string {
  const { dominant, rainPercent, multipathPercent, causes } = found;
  const most = causes[0]?.cause;
  // The two usual causes go by their names; others are called by what they are.
  if (most !== undefined && most !== "rain" && most !== "flat fading")
    return `${most} takes ${yearly(causes[0]!.yearPercent)}`;
  return dominant === "rain"
    ? `rain takes ${yearly(rainPercent)}`
    : `multipath takes ${yearly(multipathPercent)}`;
}

function remedy({ dominant, shortfallDb }: NonNullable<HopResult["availability"]>): string {
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
