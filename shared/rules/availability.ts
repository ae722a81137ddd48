import { address } from "../design/address.js";
import type { Hop } from "../design/design.js";
import type { CauseOutage } from "../evaluate/account/outage-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { takesMost } from "../evaluate/outage/takes-most.js";
import { availabilityBounded } from "../format/bounds.js";
import { apart, decibels, availability as percent, yearly } from "../format/numbers.js";
import { listed } from "../words/lists.js";
import { changesOf, mending, sentences, triedWords } from "./advice.js";
import { exampleHop } from "./example-preamble.js";
import { proposedChanges } from "./fixes/proposed.js";
import { toldOfMode } from "./judged-modes.js";
import { dependsOnMargin, LARGER_ANTENNAS, meansAgainst, weighty, yieldsTo } from "./outage-advice.js";
import type { HopContext, HopRule, Report } from "./rule.js";

export const availability: HopRule = {
  scope: "hop",
  id: "availability",
  severity: "error",
  title: "The availability must be as high as the objective asks",
  checks:
    "Availability of both directions together, propagation only, of the mode that carries the capacity asked for (else of the lowest mode); with carriers on both polarizations for the worse of them. Rain in less than 0.001 % of the year is an estimate outside the range of its law, with `rare-rain bound` in the climate only a bound.",
  why: "It is what the customer was promised, in minutes of every year.",
  fix: "Look which cause takes most. Rain yields to margin (larger antennas, more power), vertical polarization, a lower band or a shorter hop. Flat fading yields to margin, a more inclined path or space diversity; selective fading to a better equalizer, a lower or narrower mode or space diversity, not to margin; cross-polar interference to antennas with more discrimination, a better canceller or a channel for each polarization. The help names changes that were tried with the equipment of the catalogue and are enough.",
  source: "Rec. ITU-R P.530-18 sections 2.3 and 2.4; the combination of both directions is common practice",
  needs: ["levels", "objective", "availability"],
  quietAfter: ["path-length", "frequency-outside-tuning", "level-below-threshold", "capacity"],
  fixes: proposedChanges,
  good: exampleHop(),
  bad: exampleHop({ keld: "antenna DISH60-18 at 40 m\n    transmits high\n    extra-loss 16 dB" }),
  check(context) {
    const { hop, result, report, has, leaveToCause } = context;
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
      ...toldOfMode(hop, noMargin ? {} : remedy(context, found)),
      related: related(hop),
    });
  },
};

type Found = NonNullable<HopResult["availability"]>;

/** What is found against what is asked. */
export function comparison(found: Found): string {
  const { bound, modulation, outage, multipathPercent, verdict } = found;
  const asked = found.objectivePercent!;
  if (verdict === "open" && bound === "at least") return between(found, asked);
  // What is missed with no rain at all is told without: "at least" so much would not show that it is missed.
  const dry = bound === "at least";
  const outPercent = dry ? multipathPercent : outage.yearPercent;
  const [figure, wanted] = apart(percent, 100 - outPercent, asked);
  const [out, allowed] = apart(yearly, outPercent, 100 - asked);
  const [most, least] = bound === "at most" ? ["at most ", "at least "] : ["", ""];
  return `available ${most}${figure} with ${modulation}${dry ? " if rain took nothing" : ""} (${least}${out} out), the objective asks ${wanted} (${allowed})`;
}

/** With all the rain that the bound leaves room for, and with none: what is asked lies between. */
function between({ availabilityPercent, multipathPercent, modulation }: Found, asked: number): string {
  const [least, wanted] = apart(percent, availabilityPercent, asked);
  const [most] = apart(percent, 100 - multipathPercent, asked);
  return `available between ${least} and ${most} with ${modulation}, the objective asks ${wanted}`;
}

function related({ objective }: Hop) {
  const { name } = objective!;
  return [{ at: address("objective", name, "availability"), message: `availability of ${name}` }];
}

function cause(found: Found): string {
  const { of, part, parts } = takesMost(found);
  if (of === "not decided")
    return `multipath takes ${yearly(found.multipathPercent)}, rain at most ${yearly(found.rainPercent)}`;
  const share = of === "rain" ? found.rainPercent : found.multipathPercent;
  const named = part === undefined || parts > 1 ? of : part.cause;
  const most = part && parts > 1 ? `, most of it ${part.cause} (${yearly(part.yearPercent)})` : "";
  return `${named} takes ${yearly(share)}${most}${remark(found)}`;
}

/** What the figure of rain is worth where its law does not reach. */
function remark({ rainPercent, rainAtMostPercent }: Found): string {
  if (rainAtMostPercent === undefined) return "";
  return `; rain is an estimate (${yearly(rainPercent)}), outside the range of its law, which says at most ${yearly(rainAtMostPercent)}`;
}

/** What is lacking, and changes that were tried and are enough; where there is none, what acts on the cause. */
function remedy(context: HopContext, found: Found): Pick<Report, "help" | "changes"> {
  const { causes, shortfallDb } = found;
  const { part } = takesMost(found);
  const means = meansAgainst(causes, ({ yearPercent }) => yearPercent, part?.cause).filter(
    (one) => !LARGER_ANTENNAS.includes(one) || shortfallDb !== undefined,
  );
  const mended = mending(context, availability.id, means, shortfallDb);
  const tried = triedWords(mended, ({ availability: then }) => then && availabilityBounded(then));
  const most = part?.cause ?? (found.dominant === "rain" ? "rain" : undefined);
  return {
    help: sentences(lack(found), tried ?? (most && yieldsTo(most, context.hop))),
    changes: changesOf(mended),
  };
}

function lack({ shortfallDb, causes, objectivePercent }: Found): string {
  if (shortfallDb !== undefined)
    return `${decibels(Math.ceil(shortfallDb * 10) / 10)} more margin in both directions would meet it.`;
  const steady = causes.filter(({ cause }) => !dependsOnMargin(cause));
  const steadyPercent = steady.reduce((sum, { yearPercent }) => sum + yearPercent, 0);
  return steadyPercent > 100 - objectivePercent!
    ? `No margin would meet it: ${namedTaking(steady)} ${yearly(steadyPercent)} whatever the margin.`
    : "Not even 60 dB more margin would meet it.";
}

/** `flat fading takes`, `flat fading and rain take` */
function namedTaking(causes: readonly CauseOutage[]): string {
  const names = weighty(causes, ({ yearPercent }) => yearPercent).map(({ cause }) => cause);
  return `${listed(names)} take${names.length > 1 ? "" : "s"}`;
}
