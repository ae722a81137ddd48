/** An entry of a design's catalogue as it is taught: what it is, where it fits, who uses it, what judges it. */

import type { Antenna, Coupler, Radio } from "../../design/catalogue.js";
import type { Design, Hop } from "../../design/design.js";
import type { Card, Chassis } from "../../design/equipment.js";
import type { FrequencyRange } from "../../design/frequency-range.js";
import { chassisName } from "../../equipment/chassis-name.js";
import { type PlacedCard, slotKindOf } from "../../equipment/placement.js";
import { type SitePlan, sitePlans } from "../../equipment/site-plan.js";
import { antennasStated, couplersStated, suits } from "../../equipment/stands.js";
import { siteWiring } from "../../equipment/wiring/site-wiring.js";
import { decibels, frequency, trimmed } from "../../format/numbers.js";
import { arrangementWords } from "../../radio/arrangement-pairs.js";
import { ARRANGEMENTS, type ArrangementFacts } from "../../radio/arrangements.js";
import { RULES } from "../../rules/index.js";
import { drawFace } from "../draw/system/site/draw-face.js";
import { facesOf } from "../draw/system/site/face.js";
import { SAFETY } from "../pages/cautions.js";
import { COUPLER_TITLES } from "./arrangement-words.js";
import { LESSON_CAUTION, type Lesson, type LessonBlock, list, paragraph, sectionOf } from "./lesson.js";
import { PART_RULES, rulesOfCard, type TaughtKind } from "./part-rules.js";

/** What a catalogue holds, and the design that uses it. */
export interface Around {
  readonly design: Design;
  readonly chassis: readonly Chassis[];
  readonly cards: readonly Card[];
  readonly antennas: readonly Antenna[];
  readonly radios: readonly Radio[];
  readonly couplers: readonly Coupler[];
}

/** An entry, with its facts as an editor shows them: short sentences without a full stop. */
export interface Entry<T> {
  readonly part: T & { readonly name: string; readonly title?: string };
  readonly facts: readonly string[];
}

export function cardLesson({ part, facts }: Entry<Card>, { design, chassis }: Around): Lesson {
  const kind = slotKindOf(part);
  const takes = chassis.flatMap(({ name, slots }) => {
    const numbers = slots
      .filter((slot) => slot.kind === kind)
      .map(({ from, to }) => (from === to ? String(from) : `${from} to ${to}`));
    return numbers.length === 0 ? [] : [`${name}: slots ${numbers.join(", ")}`];
  });
  const places = [...sitePlans(design).values()].flatMap((plan) =>
    plan.placed.cards
      .filter(({ card }) => card.name === part.name)
      .map((placed) => ({ placed, plan, words: placeWords(placed, plan) })),
  );
  const [first] = places;
  const stands = places.map(({ words }) => words);
  const where = [
    fits(`It goes into ${kind} slots.`, takes, "No chassis of the catalogue has one."),
    ...used(stands, "It stands at no site of this design."),
    ...(first === undefined ? [] : faceWith(first)),
  ];
  return lessonOf("card", { part, facts: [...facts, ...amounts(part)] }, where, rulesOfCard(part));
}

/** The first chassis that holds it, drawn as it stands there. */
function faceWith({ placed, plan }: { readonly placed: PlacedCard; readonly plan: SitePlan }): LessonBlock[] {
  const index = plan.equipment?.chassis.indexOf(placed.chassis) ?? -1;
  const face = facesOf(plan, siteWiring(plan))[index];
  if (face === undefined) return [];
  const { svg, alt } = drawFace(face);
  const caption = `In slot ${placed.slot} of ${chassisName(placed.chassis, plan)} at ${plan.site.name}.`;
  return [{ type: "drawing", svg, alt, caption }];
}

/** Where a card stands, and the hops whose units hang on it. */
function placeWords(placed: PlacedCard, plan: SitePlan): string {
  const { chassis, slot, automatic } = placed;
  const hops = plan.ifPorts.uses.filter(({ card }) => card === placed).map(({ hop }) => hop);
  const serves = hops.length === 0 ? "" : `; units of ${[...new Set(hops)].join(", ")}`;
  return `${plan.site.name}: slot ${slot} of ${chassisName(chassis, plan)}, ${automatic ? "proposed" : "stated"}${serves}`;
}

export function radioLesson({ part, facts }: Entry<Radio>, around: Around): Lesson {
  const construction = part.unit?.construction ?? "split-mount";
  const lacksXpic = part.unit?.xpic === false;
  const arrangements = fewNames(
    (one) =>
      (one.construction === construction || one.bandOfPair !== undefined) &&
      !(lacksXpic && one.xpicPairs > 0),
  );
  const antennas = around.antennas.filter((one) => meet(one.band, part.tuning)).map(({ name }) => name);
  const couplers = around.couplers.filter((one) => meet(one.band, part.tuning)).map(({ name }) => name);
  const { unit } = part;
  const own = [
    construction,
    ...(unit?.xpic === undefined ? [] : [unit.xpic ? "XPIC" : "no XPIC"]),
    ...amounts(unit ?? {}),
    ...(unit?.ifLimit === undefined
      ? []
      : [`equalizes ${decibels(unit.ifLimit.lossDb)} of IF cable at ${frequency(unit.ifLimit.frequencyHz)}`]),
    ...(unit?.leastSupplyV === undefined ? [] : [`starts at ${trimmed(unit.leastSupplyV, 1)} V`]),
    ...(unit === undefined || unit.rssi.length === 0 ? [] : ["test voltage tells the received level"]),
  ];
  return lessonOf("radio", { part, facts: [...facts, ...own] }, [
    list(
      `Arrangements for it (${construction}): ${arrangements.join(", ")}.`,
      antennas.length === 0 ? undefined : `Antennas of the catalogue for its band: ${antennas.join(", ")}.`,
      couplers.length === 0 ? undefined : `Couplers of the catalogue for its band: ${couplers.join(", ")}.`,
    ),
    ...used(
      hopsOf(around.design, ({ radio }) => radio?.name === part.name),
      "No hop of this design uses it.",
    ),
  ]);
}

export function antennaLesson({ part, facts }: Entry<Antenna>, around: Around): Lesson {
  const radios = around.radios.filter((one) => meet(part.band, one.tuning)).map(({ name }) => name);
  const carries =
    part.polarizations === "dual"
      ? "Both polarizations: arrangements that use both, and those that use one."
      : "One polarization unless the catalogue says dual: no arrangement that uses both.";
  return lessonOf("antenna", { part, facts }, [
    list(
      carries,
      radios.length === 0 ? undefined : `Radios of the catalogue for its band: ${radios.join(", ")}.`,
    ),
    ...used(
      hopsOf(around.design, ({ ends }) =>
        ends.some((end) => antennasStated(end).some(({ antenna }) => antenna?.name === part.name)),
      ),
      "No hop of this design uses it.",
    ),
  ]);
}

export function couplerLesson({ part, facts }: Entry<Coupler>, around: Around): Lesson {
  const { kind } = part;
  const arrangements = fewNames((one) => kind !== undefined && suits(kind, one));
  return lessonOf("coupler", { part, facts }, [
    kind === undefined
      ? paragraph("The catalogue does not say of which kind it is: it suits no arrangement yet.")
      : list(COUPLER_TITLES[kind], `arrangements for it: ${arrangements.join(", ")}`),
    ...used(
      hopsOf(around.design, ({ ends }) =>
        ends.some((end) => couplersStated(end).some(({ coupler }) => coupler.name === part.name)),
      ),
      "No hop of this design uses it.",
    ),
  ]);
}

export function amounts({
  drawsW,
  weightKg,
}: {
  readonly drawsW?: number;
  readonly weightKg?: number;
}): string[] {
  return [
    ...(drawsW === undefined ? [] : [`draws ${trimmed(drawsW, 1)} W`]),
    ...(weightKg === undefined ? [] : [`weighs ${trimmed(weightKg, 1)} kg`]),
  ];
}

export function lessonOf<T>(
  kind: TaughtKind,
  { part, facts }: Entry<T>,
  where: readonly LessonBlock[],
  judgedBy: readonly string[] = PART_RULES[kind],
): Lesson {
  const { name, title } = part;
  const rules = judgedBy.flatMap((id) => RULES.get(id) ?? []);
  return {
    title: `${kind} ${name}`,
    subtitle: title,
    sections: [
      ...sectionOf("What it is", [
        list(...facts),
        ...(facts.length === 0 ? [paragraph("The catalogue states nothing of it but its name.")] : []),
      ]),
      ...sectionOf("Where it fits", where),
      ...sectionOf("Rules that judge it", [{ type: "rules", rules }]),
      ...sectionOf("Cautions", [
        paragraph(
          `What is told here is what the design's catalogue states; what it leaves out is not judged. ${LESSON_CAUTION}`,
        ),
        list(...SAFETY),
      ]),
    ],
  };
}

function fits(what: string, items: readonly string[], none: string): LessonBlock {
  return items.length === 0 ? paragraph(`${what} ${none}`) : list(what, ...items);
}

export function used(by: readonly string[], none: string): LessonBlock[] {
  return by.length === 0
    ? [paragraph(none)]
    : [paragraph(`In this design, ${by.length === 1 ? "once" : `${by.length} times`}:`), list(...by)];
}

export function hopsOf({ hops }: Design, uses: (hop: Hop) => boolean): readonly string[] {
  return [...hops.values()].filter(uses).map((hop) => `${hop.name}, ${arrangementWords(hop)}`);
}

/** Beyond so many units the names go on by rule. */
const FEW_UNITS = 4;

function fewNames(suit: (facts: ArrangementFacts) => boolean): readonly string[] {
  const all = ARRANGEMENTS.filter(suit);
  const few = all.filter(({ transceivers }) => transceivers <= FEW_UNITS).map(({ name }) => name);
  const more = all.length - few.length;
  return more === 0 ? few : [...few, `and ${more} of more than ${FEW_UNITS} units`];
}

export function meet(a: FrequencyRange | undefined, b: FrequencyRange | undefined): boolean {
  return a !== undefined && b !== undefined && a.fromHz <= b.toHz && b.fromHz <= a.toHz;
}
