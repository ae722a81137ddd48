/** What teaches an entry of a design's catalogue, with the facts as the editor shows them. */
import type { Lesson } from "../../shared/report/teach/lesson.js";
import { cableLesson, chassisLesson, feederLesson } from "../../shared/report/teach/line-lessons.js";
import {
  type Around,
  antennaLesson,
  cardLesson,
  couplerLesson,
  radioLesson,
} from "../../shared/report/teach/part-lessons.js";
import type { TaughtKind } from "../../shared/report/teach/part-rules.js";
import { KINDS_SHOWN } from "../editor/kinds-shown.js";
import type { DesignModel } from "../model/design-model.js";

/** What entries of a design are taught beside: made once for all of them. */
export function aroundParts(model: DesignModel): Around {
  const { lookup } = model;
  return {
    design: model.design(),
    chassis: model.names("chassis").flatMap((one) => lookup.chassis(one) ?? []),
    cards: model.names("card").flatMap((one) => lookup.card(one) ?? []),
    ...lookup.stock(),
  };
}

/** @returns undefined where the entry cannot be read yet */
export function lessonOfPart(
  kind: TaughtKind,
  name: string,
  model: DesignModel,
  around: Around,
): Lesson | undefined {
  const { lookup } = model;
  const facts = KINDS_SHOWN[kind].lines(model, name);
  switch (kind) {
    case "card": {
      const part = lookup.card(name);
      return part && cardLesson({ part, facts }, around);
    }
    case "radio": {
      const part = lookup.radio(name);
      return part && radioLesson({ part, facts }, around);
    }
    case "antenna": {
      const part = lookup.antenna(name);
      return part && antennaLesson({ part, facts }, around);
    }
    case "coupler": {
      const part = lookup.coupler(name);
      return part && couplerLesson({ part, facts }, around);
    }
    case "chassis": {
      const part = lookup.chassis(name);
      return part && chassisLesson({ part, facts }, around);
    }
    case "cable": {
      const part = lookup.cable(name);
      return part && cableLesson({ part, facts }, around);
    }
    case "feeder": {
      const part = lookup.feeder(name);
      return part && feederLesson({ part, facts }, around);
    }
  }
}
