/** What holds the cards and what leads to the units, as it is taught: chassis, cables, feeders. */
import type { Feeder } from "../../design/catalogue.js";
import type { Cable, Chassis } from "../../design/equipment.js";
import { slotKindOf } from "../../equipment/placement.js";
import { sitePlans } from "../../equipment/site-plan.js";
import { feedersStated } from "../../equipment/stands.js";
import { type Lesson, list } from "./lesson.js";
import { type Around, amounts, type Entry, hopsOf, lessonOf, meet, used } from "./part-lessons.js";

/** @param cards of the catalogue */
export function chassisLesson({ part, facts }: Entry<Chassis>, { design, cards }: Around): Lesson {
  const kinds = [...new Set(part.slots.map(({ kind }) => kind))];
  const takes = kinds.flatMap((kind) => {
    const names = cards.filter((card) => slotKindOf(card) === kind).map(({ name }) => name);
    return names.length === 0 ? [] : [`${kind} slots take ${names.join(", ")}`];
  });
  const stands = [...sitePlans(design).values()].flatMap(({ site, equipment }) =>
    (equipment?.chassis ?? []).flatMap(({ name, chassis }) =>
      chassis?.name === part.name ? [name === "1" ? site.name : `${site.name}, as ${name}`] : [],
    ),
  );
  return lessonOf("chassis", { part, facts: [...facts, ...amounts(part)] }, [
    list(...takes),
    ...used(stands, "It stands at no site of this design."),
  ]);
}

export function cableLesson({ part, facts }: Entry<Cable>, { design }: Around): Lesson {
  const by = hopsOf(design, ({ ends }) =>
    ends.some(({ installation }) => installation?.cable?.name === part.name),
  );
  return lessonOf("cable", { part, facts }, used(by, "No hop of this design uses it."));
}

export function feederLesson({ part, facts }: Entry<Feeder>, { design, radios }: Around): Lesson {
  const suiting = radios.filter((one) => meet(part.band, one.tuning)).map(({ name }) => name);
  const by = hopsOf(design, ({ ends }) =>
    ends.some((end) => feedersStated(end).some(({ feeder }) => feeder.name === part.name)),
  );
  return lessonOf("feeder", { part, facts }, [
    list(suiting.length === 0 ? undefined : `Radios of the catalogue for its band: ${suiting.join(", ")}.`),
    ...used(by, "No hop of this design uses it."),
  ]);
}
