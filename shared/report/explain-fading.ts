import type { Hop } from "../design/design.js";
import type { InputCode, InputUsed } from "../evaluate/account/input.js";
import type { DirectionResult, ModeResult } from "../evaluate/account/level-result.js";
import type { MethodId } from "../evaluate/account/methods.js";
import type { Topic } from "../evaluate/account/note-facts.js";
import type { CauseOutage } from "../evaluate/account/outage-result.js";
import type { ReflectionResult } from "../evaluate/account/reflection-result.js";
import type { HopResult } from "../evaluate/account/result.js";
import { sameMode } from "../evaluate/level/judged-mode.js";
import { monthShare, rainShare, yearShare } from "../evaluate/outage/shares.js";
import { isOfPrecipitation } from "../evaluate/outage/takes-most.js";
import { availabilityBounded, outageBounded, type Share, yearlyBounded } from "../format/bounds.js";
import {
  bitRate,
  decibels,
  kFactor,
  kilometres,
  metres,
  outage,
  trimmed,
  yearly,
} from "../format/numbers.js";
import { shown } from "../words/message.js";
import { countedMessage, objectiveMessage, protectionMessage } from "../words/objectives.js";
import { type Explanation, explanation, type Sources } from "./explanation.js";
import { inUse } from "./pages/modes.js";
import { equipmentSteps, fadingSteps, type Step, type StepsBySection } from "./steps.js";

/** Everything between the fade margin and the availability, cause by cause. */
export function explainFading(hop: Hop, result: HopResult, from: Sources): Explanation[] {
  return [
    ...result.directions.flatMap((direction) => directionOf(hop, result, direction, from)),
    ...availabilityOf(result, from),
    ...equipmentOf(hop, result, from),
    ...objectivesOf(result, from),
    ...capacityOf(result, from),
    ...(result.reflections ?? []).map((one) => reflectionOf(one, from)),
  ];
}

/** The causes of one direction in the mode that is held against the objective, else the highest. */
function directionOf(hop: Hop, result: HopResult, direction: DirectionResult, from: Sources): Explanation[] {
  const judged = result.availability;
  const mode = (judged && direction.modes.find((one) => sameMode(one, judged))) ?? direction.modes.at(-1);
  if (mode === undefined) return [];
  const steps = fadingSteps(hop, result, direction, mode);
  const told = `${direction.from} to ${direction.to}, ${mode.modulation}`;
  return [
    ...rainOf(result, direction, mode, steps, from),
    ...multipathOf(mode, told, steps, from),
    ...(mode.causes ?? []).flatMap((cause) => causeOf(cause, mode.modulation, told, steps, from)),
  ];
}

function rainOf(
  { rainAttenuation001Db }: HopResult,
  direction: DirectionResult,
  mode: ModeResult,
  steps: StepsBySection,
  from: Sources,
): Explanation[] {
  if (rainAttenuation001Db === undefined) return [];
  const figure = `rain attenuation exceeded for 0.01 % of the year, ${direction.from} to ${direction.to}`;
  const own = [...steps("2.4.4"), ...steps("2.4.3"), ...steps("2.4.1"), ...steps("2.4.2")];
  const rain = mode.causes?.find(isOfPrecipitation);
  const a001 = own.find(({ key }) => key === "A001Db" || key === "A2Db")?.value;
  return [
    explanation(figure, a001 === undefined ? decibels(rainAttenuation001Db) : rounded(a001), {
      methods: from.methods(
        "specific-rain",
        "rain",
        "rain-zones",
        "rain-frequency",
        "rain-polarization",
        "wet-snow",
      ),
      inputs: from.inputs(
        "rain-rate",
        "measured-rain",
        "rain-height",
        "rain-probability",
        "polarization",
        "path-length",
      ),
      steps: own,
      notes: from.notes("rain"),
    }),
    ...(rain === undefined
      ? []
      : [
          explanation(`rain outage ${direction.from} to ${direction.to}, ${mode.modulation}`, lostBy(rain), {
            methods: from.methods("rain", "wet-snow", "worst-month"),
            steps: [{ name: "margin", value: decibels(mode.fadeMarginDb) }],
            notes: from.notes("rain-outage"),
          }),
        ]),
  ];
}

function shares(year: Share, month: Share | undefined): string {
  const also = month === undefined ? "" : `, ${outageBounded(month)} of the worst month`;
  return `${outageBounded(year)} of the year${also}`;
}

function lostBy(cause: CauseOutage): string {
  return shares(yearShare(cause), monthShare(cause));
}

function multipathOf(mode: ModeResult, told: string, steps: StepsBySection, from: Sources): Explanation[] {
  if (mode.multipath === undefined) return [];
  const { multipath, multipathWorstMonthPercent: month } = mode;
  return [
    explanation(
      `multipath outage ${told}`,
      shares(multipath, month === undefined ? undefined : { timePercent: month }),
      {
        methods: from.methods("multipath", "multipath-preceding", "fade-distribution", "annual-conversion"),
        inputs: from.inputs("log-k", "dn75", "dn1", "mean-terrain", "terrain-roughness", "path-length"),
        steps: [
          ...steps("2.3.1"),
          ...steps("2.3.2").filter(({ key }) => key !== "p0Percent"),
          ...steps("2.3.4"),
        ],
        notes: from.notes("multipath"),
      },
    ),
  ];
}

/** What stands behind a cause that has a method of its own. */
function causeOf(
  found: CauseOutage,
  modulation: string,
  told: string,
  steps: StepsBySection,
  from: Sources,
): Explanation[] {
  const { cause } = found;
  const value = lostBy(found);
  const ofThisMode = (input: InputUsed) => !("modulation" in input) || input.modulation === modulation;
  const of = (methods: readonly MethodId[], inputs: readonly InputCode[], own: Step[], topic: Topic) => [
    explanation(`${cause} ${told}`, value, {
      methods: from.methods(...methods),
      inputs: from.inputs(...inputs).filter(ofThisMode),
      steps: own,
      notes: from.notes(topic),
    }),
  ];
  switch (cause) {
    case "selective fading":
      return of(
        ["selective", "dispersive-margin"],
        ["signature", "dispersive-margin"],
        steps("5.1"),
        "selective",
      );
    case "fading with diversity":
      return of(
        ["selective", "dispersive-margin", "space-diversity", "frequency-diversity", "diversity-outage"],
        ["signature", "dispersive-margin", "diversity-spacing", "channel-distance"],
        [...steps("5.1"), ...steps("6.2.6")],
        "diversity",
      );
    case "cross-polar interference in clear air":
      return of(
        ["cross-polar-clear-air", "total-outage"],
        ["antenna-discrimination", "canceller-gain", "required-ratio"],
        steps("4.1"),
        "cross-polar",
      );
    case "cross-polar interference in rain":
      return of(
        ["cross-polar-rain", "total-outage"],
        ["antenna-discrimination", "canceller-gain", "required-ratio"],
        steps("4.2"),
        "cross-polar",
      );
    default:
      return [];
  }
}

function availabilityOf({ availability: found, inputs }: HopResult, from: Sources): Explanation[] {
  if (found === undefined) return [];
  const { outage: lost } = found;
  const inMonth = monthShare(lost);
  const defaults = inputs.filter(({ origin }) => origin === "default");
  return [
    explanation(`availability, ${found.modulation}`, availabilityBounded(found), {
      methods: from.methods(
        "directions-together",
        "cross-polar-clear-air",
        "cross-polar-rain",
        "total-outage",
        "worst-month",
      ),
      inputs: defaults,
      steps: [
        {
          name: "multipath, both directions",
          value: inTime({ timePercent: found.multipathPercent }),
        },
        {
          name: "rain, worse direction",
          value: inTime(rainShare(found)),
        },
        ...found.causes.map((cause) => ({
          name: `of it ${cause.cause}`,
          value: yearlyBounded(yearShare(cause)),
        })),
        { name: "lost in a year", value: inTime(yearShare(lost)) },
        ...(inMonth === undefined
          ? []
          : [
              {
                name: "lost in the worst month",
                value: `${outageBounded(inMonth)}, ${lost.bound === undefined ? "" : `${lost.bound} `}${trimmed(lost.worstMonthSeconds!, 0)} s`,
              },
            ]),
      ],
      notes: from.notes("availability"),
    }),
  ];
}

function inTime(share: Share): string {
  return `${outageBounded(share)}, ${yearlyBounded(share)}`;
}

function equipmentOf(hop: Hop, { availability: found }: HopResult, from: Sources): Explanation[] {
  if (found?.equipment === undefined) return [];
  return [
    explanation("equipment outage, both ends", yearly(found.equipment.unavailabilityPercent), {
      methods: from.methods("equipment"),
      inputs: from.inputs("mtbf", "repair-time"),
      steps: [
        { name: "protection", value: shown(protectionMessage(found.equipment)) },
        ...equipmentSteps(hop),
      ],
      notes: from.notes("equipment"),
    }),
  ];
}

function objectivesOf({ objectives }: HopResult, from: Sources): Explanation[] {
  return (objectives ?? []).map((one) => {
    const { method, allowedPercent, foundPercent: timePercent, bound, atMostPercent, verdict } = one;
    const found = outageBounded({ timePercent, bound, atMostPercent }, allowedPercent);
    return explanation(shown(objectiveMessage(one)), `${found} against ${outage(allowedPercent)} allowed`, {
      methods: from.methods(method),
      inputs: from.inputs("national-share"),
      steps: [
        { name: "compared", value: shown(countedMessage(one)) },
        { name: "verdict", value: verdict },
      ],
      notes: bound === undefined && atMostPercent === undefined ? [] : from.notes("rain-outage"),
    });
  });
}

function capacityOf({ directions }: HopResult, from: Sources): Explanation[] {
  return directions.flatMap(({ from: site, to, expectedCapacityBps, modes }) =>
    expectedCapacityBps === undefined
      ? []
      : explanation(`expected capacity ${site} to ${to}`, bitRate(expectedCapacityBps), {
          steps: modes.map((mode) => ({ name: `in use, ${mode.modulation}`, value: inUse(mode) })),
          notes: from.notes("capacity"),
        }),
  );
}

function reflectionOf(one: ReflectionResult, from: Sources): Explanation {
  return explanation(
    `reflection from the ${one.surface} surface, ${kilometres(one.fromM)} to ${kilometres(one.toM)}`,
    `${decibels(one.deepestFadeDb)} down, ${decibels(one.highestGainDb)} up`,
    {
      methods: from.methods("reflection", "reflection-spacing", "reflection-coefficient"),
      steps: [
        { name: `reflection point at ${kFactor(one.kFactor)}`, value: kilometres(one.pointM) },
        { name: "surface height a.s.l.", value: metres(one.surfaceAslM) },
        { name: "grazing angle", value: `${trimmed(one.grazingMrad, 2)} mrad` },
        { name: "divergence", value: trimmed(one.divergence, 3) },
        { name: "both antennas' discrimination", value: decibels(one.antennaDiscriminationDb) },
        { name: "reflected to direct ray", value: trimmed(one.effectiveRatio, 3) },
        { name: "path difference", value: `${trimmed(one.pathDifferenceWavelengths, 2)} wavelengths` },
        { name: "its change over k", value: `${trimmed(one.spanWavelengths, 2)} wavelengths` },
        ...one.ends.flatMap(({ site, lobeSpacingM, bestSpacingM, heightOfMaximumM }) => [
          ...(lobeSpacingM === undefined
            ? []
            : [
                { name: `height between two maxima at ${site}`, value: metres(lobeSpacingM) },
                { name: `best diversity spacing at ${site}`, value: metres(bestSpacingM!) },
              ]),
          ...(heightOfMaximumM === undefined
            ? []
            : [{ name: `nearest height of a maximum at ${site}`, value: metres(heightOfMaximumM) }]),
        ]),
      ],
    },
  );
}

/** A step's value to the digits of a figure. */
function rounded(value: string): string {
  return decibels(Number(value.replace(" dB", "")));
}
