import { METHODS } from "../evaluate/account/methods.js";
import { shown } from "../words/message.js";
import { methodShown } from "../words/methods.js";
import { exampleHop } from "./example-preamble.js";
import { gathering } from "./rule.js";
import { type Remark, sharedRemarks } from "./shared-remarks.js";

export const uncheckedMethods = gathering({
  scope: "network",
  ofResults: true,
  id: "unchecked-methods",
  severity: "info",
  remarksOn: "methods from memory",
  title: "A figure rests on a method that was not checked against its Recommendation",
  checks:
    "Methods behind availability and objectives that were written from memory. Said once for all hops that use one.",
  why: "Nobody has compared them with the text; a constant may be wrong.",
  fix: "Compare the method with the Recommendation, or leave such methods out with `unchecked-methods leave-out` in the climate.",
  source: "the project's own table of methods",
  good: exampleHop(),
  bad: `objective far {
  availability 99.9 %
  availability-class long-haul over 180 km
}

${exampleHop().replace("objective trunk", "objective far")}`,
  ...sharedRemarks("unchecked-methods", (_, { availability, methods }) =>
    availability === undefined ? [] : methods.flatMap((id) => REMARKS.get(id) ?? []),
  ),
});

/** Of the methods that are from memory and carry weight. */
const REMARKS: ReadonlyMap<string, Remark> = new Map(
  Object.entries(METHODS).flatMap(([id, { standing, withoutWeight, toldApart }]) => {
    if (standing !== "from memory" || withoutWeight || toldApart) return [];
    const { what, source, standing: told } = methodShown(id as keyof typeof METHODS);
    const message = `${shown(what)} after ${shown(source)} is ${shown(told)}`;
    return [[id, { about: id, message, at: "network / climate" }] as const];
  }),
);
