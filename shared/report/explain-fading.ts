import type { Hop } from "../design/design.js";
import { sameMode } from "../evaluate/judged-mode.js";
import type { ReflectionResult } from "../evaluate/reflection-result.js";
import type { CauseOutage, DirectionResult, HopResult, ModeResult } from "../evaluate/result.js";
import { monthShare, rainShare, yearShare } from "../evaluate/shares.js";
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
  const rain = mode.causes?.find(({ cause }) => cause.includes("rain"));
  const a001 = own.find(({ key }) => key === "A001Db" || key === "A2Db")?.value;
  return [
    explanation(figure, a001 === undefined ? decibels(rainAttenuation001Db) : rounded(a001), {
      methods: from.methods(/P\.838|section 2\.4\.|PN\.837/),
      inputs: from.inputs(/^(rain|polarization|path length|probability)/),
      steps: own,
      notes: from.notes(/^(?!Both|Adaptive|Cross).*([Rr]ain|Path length|Frequency|precipitation)/),
    }),
    ...(rain === undefined
      ? []
      : [
          explanation(`rain outage ${direction.from} to ${direction.to}, ${mode.modulation}`, lostBy(rain), {
            methods: from.methods(/section 2\.4\.[12]|P\.841/),
            steps: [{ name: "margin", value: decibels(mode.fadeMarginDb) }],
            notes: from.notes(/^(Rain takes|Rain in the worst month)/),
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
        methods: from.methods(/section 2\.3\.[124]/),
        inputs: from.inputs(/^(logK|dN75|dN1|mean terrain|terrain roughness|path length)/),
        steps: [
          ...steps("2.3.1"),
          ...steps("2.3.2").filter(({ key }) => key !== "p0Percent"),
          ...steps("2.3.4"),
        ],
        notes: from.notes(
          /^(?!Both|Cross|Diversity|Selective).*([Mm]ultipath|Fading|Path length|Path inclination|Frequency|Clear air)/,
        ),
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
  const ofOtherMode = (name: string) =>
    /^(carrier to|signature|dispersive)/.test(name) && !name.split(" ").includes(modulation);
  const of = (methods: RegExp, inputs: RegExp, own: Step[], notes: RegExp) => [
    explanation(`${cause} ${told}`, value, {
      methods: from.methods(methods),
      inputs: from.inputs(inputs).filter(({ name }) => !ofOtherMode(name)),
      steps: own,
      notes: from.notes(notes),
    }),
  ];
  switch (cause) {
    case "selective fading":
      return of(/section 5\.1|^Dispersive/, /^(signature|dispersive)/, steps("5.1"), /^Selective/);
    case "fading with diversity":
      return of(
        /section (5\.1|6\.2)|^Dispersive/,
        /^(signature|dispersive|spacing|distance of)/,
        [...steps("5.1"), ...steps("6.2.6")],
        /iversity|^Selective/,
      );
    case "cross-polar interference in clear air":
      return of(/section (4\.1|7)/, /cross-polar|^carrier to/, steps("4.1"), /^Cross-polar/);
    case "cross-polar interference in rain":
      return of(/section (4\.2|7)/, /cross-polar|^carrier to/, steps("4.2"), /^Cross-polar/);
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
      methods: from.methods(/^Both directions|section (4\.[12]|7)|P\.841/),
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
      notes: from.notes(
        /^(Both directions|The availability|Rain takes|Multipath for early|.*is not counted|.*left out)/,
      ),
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
      methods: from.methods(/^Reliability/),
      inputs: from.inputs(/^(MTBF|repair time)/),
      steps: [{ name: "protection", value: found.equipment.protection }, ...equipmentSteps(hop)],
      notes: from.notes(/^Equipment/),
    }),
  ];
}

function objectivesOf({ objectives }: HopResult, from: Sources): Explanation[] {
  return (objectives ?? []).map((one) => {
    const {
      what,
      source,
      allowedPercent,
      foundPercent: timePercent,
      bound,
      atMostPercent,
      of,
      verdict,
    } = one;
    const found = outageBounded({ timePercent, bound, atMostPercent }, allowedPercent);
    return explanation(what, `${found} against ${outage(allowedPercent)} allowed`, {
      methods: from.methods(new RegExp(source.replaceAll(".", "\\."))),
      inputs: from.inputs(/^share of the national/),
      steps: [
        { name: "compared", value: of },
        { name: "verdict", value: verdict },
      ],
      notes: bound === undefined && atMostPercent === undefined ? [] : from.notes(/^Rain takes/),
    });
  });
}

function capacityOf({ directions }: HopResult, from: Sources): Explanation[] {
  return directions.flatMap(({ from: site, to, expectedCapacityBps, modes }) =>
    expectedCapacityBps === undefined
      ? []
      : explanation(`expected capacity ${site} to ${to}`, bitRate(expectedCapacityBps), {
          steps: modes.map((mode) => ({ name: `in use, ${mode.modulation}`, value: inUse(mode) })),
          notes: from.notes(/^Adaptive/),
        }),
  );
}

function reflectionOf(one: ReflectionResult, from: Sources): Explanation {
  return explanation(
    `reflection from the ${one.surface} surface, ${kilometres(one.fromM)} to ${kilometres(one.toM)}`,
    `${decibels(one.deepestFadeDb)} down, ${decibels(one.highestGainDb)} up`,
    {
      methods: from.methods(/section 6\.(1|2\.1)/),
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
