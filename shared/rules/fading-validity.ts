import { address } from "../design/address.js";
import type { Note } from "../evaluate/account/note.js";
import { asClause } from "../words/message.js";
import { noteMessage } from "../words/notes.js";
import { exampleHop } from "./example-preamble.js";
import type { HopRule } from "./rule.js";

export const fadingValidity: HopRule = {
  scope: "hop",
  id: "fading-validity",
  severity: "info",
  title: "A fading method is used outside its range",
  checks:
    "Ranges of length, frequency, inclination and spacing that the methods of multipath, diversity and cross-polar interference state for themselves.",
  why: "Outside, the figure is an extension that nobody has confirmed.",
  fix: "Read the availability with that in mind, or use measurements.",
  source: "Rec. ITU-R P.530-18 sections 2.3, 4 and 6.2",
  needs: ["distance", "levels"],
  quietAfter: ["path-length"],
  good: exampleHop(),
  bad: exampleHop({
    keld: "antenna DISH60-18 at 500 m\n    transmits high",
    more: "climate {\n    dN1 -300 N/km\n    multipath quick\n  }",
  }),
  check({ hop, result, report }) {
    const told = result.notes.filter(leavesRange).map((note) => asClause(noteMessage(note)));
    if (told.length === 0) return;
    report({ at: address("hop", hop.name), message: told.join("; ") });
  },
};

/** The ranges of rain have a rule of their own. */
function leavesRange(note: Note): boolean {
  return note.code === "method-remark" && note.of !== "rain" && note.remark.code === "outside-range";
}
